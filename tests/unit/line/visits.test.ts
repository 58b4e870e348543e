import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Line, RETESTS, type Test } from "../../../src/line/line.js";
import { scrapOrders } from "../../../src/line/rules/tests.js";
import { repairsPerGoodUnit, visitsOf, visitsOfLine, visitsPerGoodUnit } from "../../../src/line/visits.js";
import {
  add,
  compare,
  divide,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";
import { solveChain } from "./failure-chain.js";

const SEED = 11;
const MINUTE = 60_000_000;

/** Loads in minutes per good unit, by task in natural order of ids. */
const minutesOf = (text: string) =>
  lineOf(`unit: min\ntasks:\n${text}`).tasks.map((task) => divide(task.load, ratio(MINUTE)));

describe("A quarter of the units does a step of 6 min again", () => {
  const stepOf = (retest: string) =>
    lineOf(
      `unit: min\ntasks:\n  step: {time: 6, test: {fail: 25 %, repair: 1, return-to: step, retest: ${retest}}}\n`,
    );

  test("until it is good: 8 min for each good unit, a third of a repair", () => {
    const line = stepOf("until-good");
    expect(line.tasks[0]).toMatchObject({ visits: [ratio(4, 3)], load: ratio(8 * MINUTE) });
    expect(repairsPerGoodUnit(line)).toEqual([ratio(1, 3)]);
  });

  test("once, good for certain: 7.5 min, a quarter of a repair", () => {
    const line = stepOf("once");
    expect(line.tasks[0]).toMatchObject({ visits: [ratio(5, 4)], load: ratio(7.5 * MINUTE) });
    expect(repairsPerGoodUnit(line)).toEqual([ratio(1, 4)]);
  });

  test("and is scrapped when it fails again: 7.5 min for each unit started, of which 93.75 % are good", () => {
    const line = stepOf("scrap");
    const { goodShare } = visitsOf(line.before, [line.tasks[0]!.test])!;
    expect(goodShare).toEqual(ratio(15, 16));
    expect(line.tasks[0]!.load).toEqual(ratio(8 * MINUTE));
    expect(repairsPerGoodUnit(line)).toEqual([ratio(4, 15)]);
  });
});

test("A fifth of the units goes back over the last two of four steps once: 2 and 10 min become 2.4 and 12", () => {
  const steps = [
    "  s1: 8",
    "  s2: {time: 6, after: s1}",
    "  s3: {time: 2, after: s2}",
    "  s4: {time: 10, after: s3, test: {fail: 20 %, repair: 5, return-to: s3, retest: once}}",
  ].join("\n");
  expect(minutesOf(steps)).toEqual([ratio(8), ratio(6), ratio(12, 5), ratio(12)]);
});

test("Where a tenth is scrapped at a test, work up to it is done 1.1111 times for a good unit, later work once", () => {
  const line = lineOf(
    "unit: s\ntasks: {a: 10, b: {time: 5, after: a, test: {scrap: 10 %}}, c: {time: 7, after: b}}",
  );
  expect(line.tasks.map((task) => task.visits[0])).toEqual([ratio(10, 9), ratio(10, 9), ONE]);
  // At a takt of 67.5 s the work before the test has 60.75 s.
  expect(divide(ratio(67_500_000), line.tasks[0]!.visits[0]!)).toEqual(ratio(60_750_000));
});

describe("A fifth of the cargo bikes, two in five of the units, goes back over the brakes for 50 s from a box test of 30 s", () => {
  const bikes = (more: string) =>
    lineOf(
      `unit: s
models: {city: 60 %, cargo: 40 %}
tasks:
  load: 40
  brake: {time: 50, after: load}
  box-test: {time: {city: "-", cargo: 30}, after: brake, test: {fail: 20 %, ${more}}}
  pack: {time: 45, after: box-test}
`,
    );
  const secondsOf = (line: Line) => line.tasks.map(({ load }) => divide(load, ratio(1_000_000)));

  test("until it is good: a quarter of a repair for a cargo bike, a tenth for a unit, 55 s of brakes on average", () => {
    const line = bikes("repair: 100 s, return-to: brake");
    const [box, brake] = line.tasks;
    expect(brake!.visits).toEqual([ratio(5, 4), ONE]);
    expect(box!.visits).toEqual([ratio(5, 4), ZERO]);
    // 0.4 x 1.25 x 50 + 0.6 x 50; 0.4 x 1.25 x 30.
    expect(secondsOf(line)).toEqual([ratio(15), ratio(55), ratio(40), ratio(45)]);
    expect(repairsPerGoodUnit(line)).toEqual([ratio(1, 10), null, null, null]);
    expect(visitsPerGoodUnit(line, box!)).toEqual(ratio(1, 2));
  });

  test("or is scrapped there: for 40 good ones 50 are started, and 60 city bikes beside them", () => {
    const line = lineOf(
      `unit: s
models: {city: 60 %, cargo: 40 %}
tasks: {load: 40, box-test: {time: {city: "-", cargo: 30}, after: load, test: {scrap: 20 %}}, pack: {time: 45, after: box-test}}
`,
    );
    const [box, load, pack] = line.tasks;
    expect(load!.visits).toEqual([ratio(5, 4), ONE]);
    expect(box!.visits).toEqual([ratio(5, 4), ZERO]);
    expect(pack!.visits).toEqual([ONE, ONE]);
    const { goodShare, arriving, leaving } = visitsOfLine(line);
    expect(goodShare).toEqual(ratio(10, 11));
    expect([arriving, leaving]).toEqual([
      [ratio(11, 10), ratio(11, 10), ONE],
      [ONE, ratio(11, 10), ONE],
    ]);
  });
});

test("A test of one unit in ten that sends a fifth of them back: 0.025 repairs, 51.25 s of brakes for 50 s", () => {
  const line = lineOf(
    `unit: s
tasks:
  load: 40
  brake: {time: 50, after: load}
  audit: {time: 30, every: 10, after: brake, test: {fail: 20 %, repair: 100 s, return-to: brake}}
  pack: {time: 45, after: audit}
`,
  );
  // A tenth of the units is tested 1.25 times on average: 0.1 x 1.25 x 30 s; a quarter of them goes back once: 1 + 0.025.
  expect(line.tasks.map(({ visits }) => visits[0])).toEqual([ratio(1, 8), ratio(41, 40), ONE, ONE]);
  expect(line.tasks.map(({ load }) => divide(load, ratio(1_000_000)))).toEqual([
    ratio(15, 4),
    ratio(205, 4),
    ratio(40),
    ratio(45),
  ]);
  expect(repairsPerGoodUnit(line)).toEqual([ratio(1, 40), null, null, null]);
});

const SHARES = [ratio(1, 4), ratio(1, 10), ratio(1, 2), ratio(3, 100)];

/** A line of a few tasks whose arrows lead to larger numbers, with tests that repair and that scrap. */
const someLine = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.array(fc.nat(99), { minLength: 60, maxLength: 60 }))
  .map(([size, dice]) => {
    let rolled = 0;
    const roll = (sides: number) => dice[rolled++ % dice.length]! % sides;
    const before = Array.from({ length: size }, (_, task) =>
      Array.from({ length: task }, (_, each) => each).filter(() => roll(3) > 0),
    );
    const back = (task: number): number => {
      const earlier = before[task]!;
      return earlier.length === 0 || roll(3) === 0
        ? task
        : roll(2)
          ? back(earlier[roll(earlier.length)]!)
          : earlier[0]!;
    };
    const tests = before.map((_, task): Test | null => {
      const [kind, share] = [roll(5), SHARES[roll(SHARES.length)]!];
      if (kind > 3) return { failures: "scrapped", scrap: share };
      if (kind > 2) return null;
      return { failures: "repaired", fail: share, repair: 1, returnTo: back(task), retest: RETESTS[kind]! };
    });
    return { before, tests };
  });

/** Which tasks of a line are done on one unit in how many, and which models there are with what tasks. */
const someUnits = fc.record({
  every: fc.array(fc.constantFrom(1, 1, 2, 10), { minLength: 6, maxLength: 6 }),
  models: fc.array(
    fc.record({
      quantity: fc.integer({ min: 1, max: 5 }),
      has: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
    }),
    { minLength: 1, maxLength: 3 },
  ),
});

describe("The visits of any line", () => {
  test("are for each model those of its own Markov chain where models fail by shares of their own", () => {
    fc.assert(
      fc.property(someLine, fc.constantFrom(1, 2, 3), ({ before, tests }, times) => {
        // The second model fails so many times as seldom.
        const fewer = (each: Test | null, by: number): Test | null =>
          each?.failures === "repaired" ? { ...each, fail: divide(each.fail, ratio(by)) } : each;
        const both = tests.map((each) =>
          each?.failures === "repaired"
            ? { ...each, failByModel: [each.fail, divide(each.fail, ratio(times))] }
            : each,
        );
        const all = tests.map(() => 1);
        const models = [1, 2].map(() => ({ share: ratio(1, 2), has: tests.map(() => true) }));
        const { visits } = visitsOf(before, both, { every: all, models })!;
        for (const [model, by] of [1, times].entries()) {
          const own = tests.map((each) => fewer(each, by));
          const { goodShare, executions } = solveChain(before, own, all);
          expect(visits.map((each) => each[model])).toEqual(
            executions.map((each) => divide(each, goodShare)),
          );
        }
      }),
      { seed: 12, numRuns: 100 },
    );
  });

  test("are those of its Markov chain written out state by state", () => {
    fc.assert(
      fc.property(someLine, ({ before, tests }) => {
        const all = tests.map(() => 1);
        const { goodShare, executions, arrivals, repairs } = solveChain(before, tests, all);
        const perGood = (each: typeof goodShare) => divide(each, goodShare);
        const found = visitsOf(before, tests)!;
        expect(found).toEqual({
          goodShare,
          visits: executions.map((each) => [perGood(each)]),
          repairs: repairs.map((each, task) => (tests[task]?.failures === "repaired" ? perGood(each) : null)),
          arriving: arrivals.map(perGood),
          leaving: found.leaving,
        });
        for (const [task, each] of tests.entries()) {
          const passes = each?.failures === "scrapped" ? subtract(ONE, each.scrap) : ONE;
          if (each === null || each.failures === "scrapped") {
            expect(found.leaving[task]).toEqual(multiply(found.arriving[task]!, passes));
          }
        }
      }),
      { seed: SEED, numRuns: 120 },
    );
  });

  test("are those of one such chain for each model, with tests that only some units meet", () => {
    fc.assert(
      fc.property(someLine, someUnits, ({ before, tests }, { every, models }) => {
        const units = models.reduce((sum, { quantity }) => sum + quantity, 0);
        const chains = models.map(({ quantity, has }) => {
          const due = tests.map((_, task) => (has[task] ? every[task]! : null));
          return { share: ratio(quantity, units), has, ...solveChain(before, tests, due) };
        });
        const mean = (value: (chain: (typeof chains)[number]) => Ratio) =>
          chains.map((chain) => multiply(chain.share, divide(value(chain), chain.goodShare))).reduce(add);
        const found = visitsOf(before, tests, {
          every: every.slice(0, tests.length),
          models: chains.map(({ share, has }) => ({ share, has })),
        })!;
        expect(found.visits).toEqual(
          tests.map((_, task) =>
            chains.map(({ has, executions, goodShare }) =>
              has[task] ? divide(executions[task]!, goodShare) : ZERO,
            ),
          ),
        );
        expect(found.arriving).toEqual(tests.map((_, task) => mean(({ arrivals }) => arrivals[task]!)));
        expect(found.repairs).toEqual(
          tests.map((each, task) =>
            each?.failures === "repaired" ? mean(({ repairs }) => repairs[task]!) : null,
          ),
        );
        expect(found.goodShare).toEqual(
          divide(
            ONE,
            mean(() => ONE),
          ),
        );
      }),
      { seed: SEED, numRuns: 120 },
    );
  });

  test("are at least 1, and the good share is what scrap leaves", () => {
    fc.assert(
      fc.property(someLine, ({ before, tests }) => {
        const { visits, goodShare } = visitsOf(before, tests)!;
        expect(visits.every(([each]) => compare(each!, ONE) >= 0)).toBe(true);
        const scraps = tests.some((each) => each?.failures === "scrapped" || each?.retest === "scrap");
        expect(compare(goodShare, ONE) < 0).toBe(scraps);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

test("A chain of tests that each send units back to the start doubles its visits test by test", () => {
  const size = 100;
  const before = Array.from({ length: size }, (_, task) => (task === 0 ? [] : [task - 1]));
  const half = {
    failures: "repaired",
    fail: ratio(1, 2),
    repair: 1,
    returnTo: 0,
    retest: "until-good",
  } as const;
  const { visits } = visitsOf(
    before,
    before.map((_, task) => (task === 0 ? null : half)),
  )!;
  expect(visits[0]).toEqual([ratio(2n ** BigInt(size - 1))]);
  expect(visits[size - 1]).toEqual([ratio(2)]);
});

test("Numbers that would grow for ever are given up at once", () => {
  const before = Array.from({ length: 400 }, (_, task) => (task === 0 ? [] : [task - 1]));
  const third = { failures: "repaired", fail: ratio(1, 3), repair: 1, returnTo: 0, retest: "scrap" } as const;
  expect(
    visitsOf(
      before,
      before.map((_, task) => (task === 0 ? null : third)),
    ),
  ).toBeNull();
});

test("Work that no arrow puts before or after a scrapping test counts as before it, except behind another test", () => {
  const scrap: Test = { failures: "scrapped", scrap: ratio(1, 10) };
  const before = [[], [0], [], [], [3]];
  const tests = [null, scrap, null, scrap, null];
  expect(scrapOrders(before, tests)).toEqual([
    { test: 1, asBefore: [2], asAfter: [3, 4] },
    { test: 3, asBefore: [0, 1, 2], asAfter: [] },
  ]);
  const { visits } = visitsOf(before, tests)!;
  const tenNinths = ratio(10, 9);
  const both = multiply(tenNinths, tenNinths);
  expect(visits).toEqual([[both], [both], [both], [tenNinths], [add(ZERO, ONE)]]);
});
