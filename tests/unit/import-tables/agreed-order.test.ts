import fc from "fast-check";
import { expect, test } from "vitest";
import {
  type AgreedOrder,
  againstKnown,
  agreeOn,
  type BuiltOrder,
} from "../../../src/import-tables/agreed-order.js";
import { type Before, directFollowers } from "../../../src/line/precedence.js";

/** Pairs as "0<2", by way of others as well, worked out by walking along the arrows. */
function pairsOf(before: Before): Set<string> {
  const pairs = new Set<string>();
  for (const task of before.keys()) {
    const open = [...before[task]!];
    for (let each = open.pop(); each !== undefined; each = open.pop()) {
      if (pairs.has(`${each}<${task}`)) continue;
      pairs.add(`${each}<${task}`);
      open.push(...before[each]!);
    }
  }
  return pairs;
}

const missingIn = (all: ReadonlySet<string>, wanted: ReadonlySet<string>): string[] =>
  [...wanted].filter((each) => !all.has(each));

/** Every order that keeps the arrows. */
function everyOrder(before: Before): number[][] {
  const found: number[][] = [];
  const go = (done: readonly number[]) => {
    if (done.length === before.length) found.push([...done]);
    for (const task of before.keys())
      if (!done.includes(task) && before[task]!.every((each) => done.includes(each))) go([...done, task]);
  };
  go([]);
  return found;
}

/** Pairs that every order with both tasks has one way, pair by pair. */
function seenOneWay(size: number, orders: readonly BuiltOrder[]): Set<string> {
  const pairs = new Set<string>();
  for (let one = 0; one < size; one++)
    for (let two = 0; two < size; two++) {
      const both = orders.filter((order) => order.includes(one) && order.includes(two));
      if (one !== two && both.length > 0 && both.every((order) => order.indexOf(one) < order.indexOf(two)))
        pairs.add(`${one}<${two}`);
    }
  return pairs;
}

const pairsOfOrder = (order: BuiltOrder): Set<string> =>
  new Set(order.flatMap((late, at) => order.slice(0, at).map((early) => `${early}<${late}`)));

function agreed(
  size: number,
  orders: readonly BuiltOrder[],
  known: Before = free(size),
  models: readonly (readonly number[])[] = [],
): AgreedOrder {
  const found = agreeOn(size, orders, known, models);
  if (found.kind !== "agreed") throw new Error(found.kind);
  return found;
}

const free = (size: number): Before => Array.from({ length: size }, () => []);

/** A graph whose arrows run from smaller to larger numbers, its tasks then called otherwise. */
const graphs = (most: number) =>
  fc
    .integer({ min: 1, max: most })
    .chain((size) =>
      fc.tuple(
        fc.array(fc.boolean(), { minLength: size * size, maxLength: size * size }),
        fc.shuffledSubarray([...Array(size).keys()], { minLength: size }),
      ),
    )
    .map(([bits, names]) => {
      const before: number[][] = names.map(() => []);
      for (const [to, name] of names.entries())
        before[name] = names
          .slice(0, to)
          .filter((_, from) => bits[from * names.length + to])
          .sort((one, two) => one - two);
      return before;
    });

/** An order that keeps the arrows, told by a number for each step: which of the ready tasks is next. */
function drawnOrder(before: Before, steps: readonly number[]): number[] {
  const done: number[] = [];
  const after = directFollowers(before);
  const missing = before.map((earlier) => earlier.length);
  const ready = [...missing.keys()].filter((task) => missing[task] === 0);
  for (let step = 0; ready.length > 0; step++) {
    const [task] = ready.splice((steps[step % steps.length] ?? 0) % ready.length, 1);
    done.push(task!);
    for (const next of after[task!]!) if (--missing[next]! === 0) ready.push(next);
  }
  return done;
}

const steps = fc.array(fc.nat(1_000), { minLength: 1, maxLength: 60 });

test("All orders that a small graph allows give exactly its precedences, those that others imply among them", () => {
  fc.assert(
    fc.property(graphs(6), (before) => {
      const found = agreed(before.length, everyOrder(before));
      expect(pairsOf(found.before)).toEqual(pairsOf(before));
      expect(found.ordered).toBe(pairsOf(before).size);
    }),
    { numRuns: 150, seed: 4 },
  );
});

test("Whatever orders of a graph were seen, every true precedence is held, and more orders never add one", () => {
  fc.assert(
    fc.property(graphs(40), fc.array(steps, { minLength: 1, maxLength: 6 }), (before, drawn) => {
      const orders = drawn.map((each) => drawnOrder(before, each));
      let last: Set<string> | null = null;
      for (let count = 1; count <= orders.length; count++) {
        const pairs = pairsOf(agreed(before.length, orders.slice(0, count)).before);
        expect(missingIn(pairs, pairsOf(before))).toEqual([]);
        if (last !== null) expect(missingIn(last, pairs)).toEqual([]);
        last = pairs;
      }
    }),
    { numRuns: 100, seed: 5 },
  );
});

test("Units that lack tasks speak of what they have: each pair seen one way is held, each seen both ways is free, all pairs are counted", () => {
  const lacking = fc.record({ steps, has: fc.array(fc.boolean(), { minLength: 70, maxLength: 70 }) });
  const kinds = { agreed: 0, loops: 0, seenBothWays: 0 };
  fc.assert(
    fc.property(graphs(40), fc.array(lacking, { minLength: 1, maxLength: 5 }), (before, drawn) => {
      const size = before.length;
      const orders = drawn.map((each) =>
        drawnOrder(before, each.steps).filter((task) => each.has[task] === true),
      );
      const found = agreeOn(size, orders, free(size));
      const oneWay = seenOneWay(size, orders);
      if (found.kind !== "agreed") {
        expect(found.kind).toBe("loops");
        kinds.loops++;
        for (const loop of found.kind === "loops" ? found.loops : []) {
          const [start, ...ways] = loop.map((task, at) => `${task}<${loop[(at + 1) % loop.length]}`);
          for (const way of ways) expect(oneWay).toContain(way);
          if (!oneWay.has(start!)) kinds.seenBothWays++;
          expect(orders.some((order) => pairsOfOrder(order).has(start!))).toBe(true);
          expect(
            seenOneWay(
              size,
              orders.filter((order) => loop.every((task) => order.includes(task))),
            ),
          ).not.toContain(start);
        }
        return;
      }
      const pairs = pairsOf(found.before);
      expect(missingIn(pairs, oneWay)).toEqual([]);
      // Nothing is held but what was seen and what follows from it.
      const seen = free(size).map((_, to) =>
        [...Array(size).keys()].filter((from) => oneWay.has(`${from}<${to}`)),
      );
      expect(pairs).toEqual(pairsOf(seen));
      kinds.agreed++;
      // No unit is against anything that is written, or that follows from it.
      for (const order of orders)
        for (const pair of pairsOfOrder(order.toReversed())) expect(pairs).not.toContain(pair);
      expect(found.ordered).toBe(pairs.size);
      expect(found.ordered + found.free.count + found.unseen.count).toBe((size * (size - 1)) / 2);
      for (const [one, two] of found.unseen.first)
        expect(orders.every((order) => !order.includes(one) || !order.includes(two))).toBe(true);
      for (const [one, two] of found.free.first)
        for (const [early, late] of [
          [one, two],
          [two, one],
        ] as const)
          expect(
            orders.some((order) => order.includes(early) && order.indexOf(early) < order.indexOf(late)),
          ).toBe(true);
    }),
    { numRuns: 200, seed: 6 },
  );
  for (const count of Object.values(kinds)) expect(count).toBeGreaterThan(20);
});

test("No precedence of the result follows from others of it", () => {
  fc.assert(
    fc.property(graphs(30), fc.array(steps, { minLength: 1, maxLength: 4 }), (before, drawn) => {
      const found = agreed(
        before.length,
        drawn.map((each) => drawnOrder(before, each)),
      ).before;
      for (const [task, earlier] of found.entries())
        for (const each of earlier) {
          const without = found.map((own, at) => (at === task ? own.filter((other) => other !== each) : own));
          expect(pairsOf(without)).not.toContain(`${each}<${task}`);
        }
    }),
    { numRuns: 100, seed: 7 },
  );
});

test("What is known stays, and implies what no order has shown", () => {
  const found = agreed(
    4,
    [
      [0, 1],
      [2, 3],
    ],
    [[], [], [1], []],
  );
  expect(found.before).toEqual([[], [0], [1], [2]]);
  expect([found.ordered, found.free.count, found.unseen.count]).toEqual([6, 0, 0]);
});

test("Where one order alone does a pair the other way, the pair stands first", () => {
  const found = agreed(4, [
    [0, 1, 2, 3],
    [0, 1, 3, 2],
    [1, 0, 2, 3],
    [0, 1, 3, 2],
  ]);
  expect(found.free).toEqual({
    count: 2,
    first: [
      [0, 1],
      [2, 3],
    ],
  });
  expect(found.alone).toBe(1);
});

test("Tasks that no model has together need no precedence, and are counted apart from those that were never seen together", () => {
  const orders = [
    [0, 1],
    [0, 2],
  ];
  expect(agreed(4, orders)).toMatchObject({ unseen: { count: 4 }, apart: 0 });
  const models = [
    [0, 1, 3],
    [0, 2],
  ];
  const found = agreed(4, orders, free(4), models);
  expect(found.unseen.count).toBe(2);
  expect(found.apart).toBe(2);
});

test("Units that have no two tasks of a loop the same way are told by the shortest loop", () => {
  const found = agreeOn(
    5,
    [
      [0, 1],
      [1, 2],
      [2, 0],
      [3, 4],
    ],
    free(5),
  );
  expect(found).toEqual({ kind: "loops", loops: [[0, 1, 2]] });
});

test("A unit that does two tasks the other way than those it lacks imply is told by the shortest loop, which begins with its pair", () => {
  const whole = [0, 1, 2, 3, 4, 5];
  expect(agreeOn(6, [whole, [5, 0]], free(6))).toEqual({ kind: "loops", loops: [[5, 0, 1]] });
  // One that has all of them as well leaves the pair free.
  const found = agreed(6, [whole, [5, 0], [5, 0, 1, 2, 3, 4]]);
  expect(pairsOf(found.before)).toEqual(pairsOf([[], [0], [1], [2], [3], []]));
  expect(found.free.count).toBe(5);
  // What is known implies it as well as what was seen.
  expect(
    agreeOn(
      4,
      [
        [0, 1],
        [3, 0],
        [0, 3],
      ],
      [[], [], [1], [2]],
    ),
  ).toEqual({ kind: "loops", loops: [[3, 0, 1]] });
});

test("An order against what is known is told once: what follows from that is left out", () => {
  const chain = [[], [0], [1], [2]];
  expect(againstKnown([[0, 1, 2, 3]], chain)).toEqual([[]]);
  expect(againstKnown([[1, 0, 2, 3]], chain)).toEqual([[{ before: 0, after: 1 }]]);
  expect(againstKnown([[3, 2, 1, 0]], chain)).toEqual([
    [
      { before: 2, after: 3 },
      { before: 1, after: 2 },
      { before: 0, after: 1 },
    ],
  ]);
  // A unit without the tasks between.
  expect(againstKnown([[3, 0]], chain)).toEqual([[{ before: 0, after: 3 }]]);
});
