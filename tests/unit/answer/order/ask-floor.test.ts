import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  askFloor,
  type FloorQuestions,
  type Precedence,
  withoutPrecedences,
} from "../../../../src/answer/order/ask-floor.js";
import type { Line } from "../../../../src/line/line.js";
import type { Before } from "../../../../src/line/precedence.js";
import { allPredecessors } from "../../../../src/line/reach.js";
import { reducedOrder } from "../../../../src/line/reduced-order.js";
import { withOrder } from "../../../../src/line/with-order.js";
import { lookedAtWords } from "../../../../src/report/words/question-words.js";
import { readPage } from "../../../readme/read-page.js";
import { idsOf, lineOf, paceOf, shortLine } from "../../../tools/line-of.js";

/** For each task all that comes before it, as lists. */
const closureOf = (before: Before): number[][] => {
  const sets = allPredecessors(before);
  return [...before.keys()].map((task) => sets.list(task));
};

const arrowsOf = (before: Before): Precedence[] =>
  before.flatMap((earlier, after) => earlier.map((each) => ({ before: each, after })));

const graphs = (most: number) =>
  fc
    .integer({ min: 2, max: most })
    .chain((size) => fc.array(fc.nat(99), { minLength: size * size, maxLength: size * size }))
    .map((draws) => {
      const size = Math.sqrt(draws.length);
      return Array.from({ length: size }, (_, to) =>
        [...Array(to).keys()].filter((from) => draws[to * size + from]! < 35),
      );
    })
    .map(reducedOrder);

test("Without some direct precedences every other pair keeps its order, and those alone are free", () => {
  fc.assert(
    fc.property(graphs(12), fc.array(fc.nat(1_000), { maxLength: 8 }), (before, draws) => {
      const arrows = arrowsOf(before);
      const taken = [...new Set(draws.map((draw) => arrows[draw % Math.max(1, arrows.length)]))].flatMap(
        (each) => each ?? [],
      );
      const isTaken = (from: number, to: number) =>
        taken.some((each) => each.before === from && each.after === to);
      const wanted = closureOf(before).map((earlier, to) => earlier.filter((from) => !isTaken(from, to)));
      expect(closureOf(withoutPrecedences(before, taken))).toEqual(wanted);
    }),
    { numRuns: 500, seed: 11 },
  );
});

/**
 * The fewest stations of so many seconds, over every set of tasks that may be done first: the fewest closed stations, then the least
 * in the open one (Held, Karp and Shareshian 1963, Assembly-line balancing; from memory).
 */
function fewestStations(
  times: readonly number[],
  closure: readonly (readonly number[])[],
  limit: number,
): number {
  const best = new Map<number, readonly [stations: number, open: number]>([[0, [0, limit]]]);
  const all = 2 ** times.length - 1;
  for (let set = 0; set < all; set++) {
    const present = best.get(set);
    if (present === undefined) continue;
    for (const [task, time] of times.entries()) {
      if ((set & (1 << task)) !== 0 || closure[task]!.some((each) => (set & (1 << each)) === 0)) continue;
      const [stations, open] = present;
      const next =
        open + time <= limit ? ([stations, open + time] as const) : ([stations + 1, time] as const);
      const known = best.get(set | (1 << task));
      if (known === undefined || next[0] < known[0] || (next[0] === known[0] && next[1] < known[1]))
        best.set(set | (1 << task), next);
    }
  }
  return best.get(all)![0];
}

const options = { nodes: 100_000, doublings: 0, strictLimit: false, checkpoint: () => null };

const asked = (line: Line, limit: number, more: Partial<typeof options> = {}) =>
  askFloor(line, paceOf(limit), line.before, arrowsOf(line.before), { ...options, ...more });

const told = (line: Line, { questions }: FloorQuestions) =>
  questions.map(({ precedences, without }) => [
    precedences.map(({ before, after }) => idsOf(line, [before, after]).join("<")).join(" "),
    without.people,
    without.stations,
  ]);

/** What `askFloor` should find, by trying each precedence and each two of them. */
function byHand(line: Line, times: readonly number[], limit: number) {
  const closure = closureOf(line.before);
  const fewest = (taken: readonly Precedence[]) =>
    fewestStations(
      times,
      closure.map((earlier, to) =>
        earlier.filter((from) => !taken.some(({ before, after }) => before === from && after === to)),
      ),
      limit,
    );
  const now = fewest([]);
  const arrows = arrowsOf(line.before);
  const alone = arrows.map((each) => [each]).filter((each) => fewest(each) < now);
  const pairs = arrows
    .flatMap((one, at) => arrows.slice(at + 1).map((two) => [one, two]))
    .filter((each) => fewest(each) < now);
  const found = alone.length > 0 ? alone : pairs;
  const name = (each: readonly Precedence[]) =>
    each.map(({ before, after }) => idsOf(line, [before, after]).join("<")).join(" ");
  return { now, all: fewest(arrows), found: found.map((each) => [name(each), fewest(each), fewest(each)]) };
}

test("The precedences that cost a station, and the pairs where none alone does, are those that trying each of them finds", async () => {
  const cases = fc.record({
    before: graphs(8),
    times: fc.array(fc.integer({ min: 5, max: 60 }), { minLength: 8, maxLength: 8 }),
  });
  let [helped, inPairs] = [0, 0];
  await fc.assert(
    fc.asyncProperty(cases, async ({ before, times }) => {
      const own = times.slice(0, before.length);
      const line = shortLine(
        before.map((earlier, task) =>
          [`t${task}`, own[task], ...earlier.map((each) => `t${each}`)].join(" "),
        ),
      );
      const found = await asked(line, 60);
      const { now, all, found: wanted } = byHand(line, own, 60);
      expect(found.size).toEqual({ people: now, stations: now, isProved: true });
      expect(told(line, found).sort()).toEqual(wanted.sort());
      expect(found.noneHelps).toBe(all === now && found.candidates > 0);
      expect(found.open).toBe(0);
      const alone = found.questions.filter(({ precedences }) => precedences.length === 1).length;
      expect(found.ruledOut + alone).toBe(found.candidates);
      if (alone > 0) helped += 1;
      else if (found.questions.length > 0) inPairs += 1;
    }),
    { numRuns: 250, seed: 12 },
  );
  expect(helped).toBeGreaterThan(10);
  expect(inPairs).toBeGreaterThan(0);
});

test("A line that has no plan without its precedences either is not told that it needs as many", async () => {
  const line = lineOf(
    "unit: s\nstations: [{id: A}]\ntasks: {a: {time: 50, station: A}, b: {time: 40, station: A, after: a}}\n",
  );
  const found = await asked(line, 60);
  expect([found.size, found.noneHelps]).toEqual([null, true]);
  expect(lookedAtWords(found).join(" ")).toContain(
    "With all precedences no plan was found. Without all that may be asked about there is no plan either (proved)",
  );
});

describe("What a line says itself", () => {
  test("is asked about only where nothing says why", async () => {
    const line = lineOf(
      "unit: s\ntasks: {glue: 30, fit: {time: 30, after: [{task: glue, wait: 1 min}]}, run: {time: 5, after: fit, test: {fail: 2 %, repair: 60, return-to: fit}}, box: {time: 20, after: run}}\n",
    );
    expect((await asked(line, 60)).candidates).toBe(1);
  });

  test("is not looked at where the limit comes first, and not at all where that is too low for a few balances", async () => {
    // In this order every task fills a station of 60 s; free of it they fit in pairs.
    const times = [35, 40, 25, 45, 20, 38, 15, 22];
    const line = shortLine(times.map((time, at) => (at === 0 ? `t0 ${time}` : `t${at} ${time} t${at - 1}`)));
    const { nodesToAsk } = await asked(line, 60);
    const cut = await asked(line, 60, { nodes: nodesToAsk });
    const { candidates, questions, ruledOut, open, notLookedAt } = cut;
    expect([candidates, questions.length + ruledOut + open + notLookedAt]).toEqual([7, 7]);
    expect(notLookedAt).toBeGreaterThan(0);
    const none = await asked(line, 60, { nodes: nodesToAsk - 1 });
    expect([none.balances, none.notLookedAt, none.size]).toEqual([0, 7, null]);
    const whole = await asked(line, 60);
    expect([whole.open, whole.questions.length > 0]).toEqual([0, true]);
  });
});

describe("Another order of work", () => {
  const line = lineOf(readPage("examples/cargo-bike.line.yaml"));

  test("that is the same gives the same line", () => {
    expect(withOrder(line, line.before)).toEqual(line);
  });

  test("changes what a failed test has done again, as the line file with that order does", () => {
    const text = readPage("examples/cargo-bike.line.yaml").replace(
      "after: [torque-check, adjust-gears, power-up, fit-pedals]",
      "after: [torque-check, power-up, fit-pedals]",
    );
    const changed = text.replace("after: read-result}", "after: [read-result, adjust-gears]}");
    const read = lineOf(
      changed
        .replace(
          "read-result:      {name: Read the result and unhook, time: 24,",
          "read-result:      {name: Read the result and unhook, time: 24, after: [roller-run, adjust-gears],",
        )
        .replace(", after: roller-run, test", ", test"),
    );
    const { tasks } = withOrder(line, read.before);
    expect(tasks.map(({ load, visits }) => ({ load, visits }))).toEqual(
      read.tasks.map(({ load, visits }) => ({ load, visits })),
    );
    expect(tasks.map(({ load }) => load)).not.toEqual(line.tasks.map(({ load }) => load));
  });
});
