import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { PeopleBound } from "../../../src/solve/bounds/people-bound.js";
import { costOf, PEOPLE_FIRST } from "../../../src/solve/cost.js";
import { requirementsOf } from "../../../src/solve/explain/line-rules.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { runSearchBelow } from "../../../src/solve/search/run-search.js";
import { toPlan } from "../../../src/solve/to-plan.js";
import type { BlockPlan } from "../../../src/solve/work.js";
import { CYCLE, type FloorCase, floorCases, paceWith } from "../../tools/floor-random-line.js";
import { type Cost, EveryFloorPlan, isBelow } from "./every-floor-plan.js";

const ANY: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

function problemOf({ line, pace, strictLimit }: FloorCase) {
  return layOutWork(line, { pace, strictLimit, slowest: null, free: false });
}

async function solve(given: FloorCase): Promise<BlockPlan | null> {
  const limits = { nodes: 1_000_000, memory: 100_000 };
  const { plan, ended } = await runSearchBelow(problemOf(given), ANY, PEOPLE_FIRST, limits, () => null);
  expect(ended).toBe("proved");
  return plan;
}

async function costFor(given: FloorCase): Promise<Cost> {
  const plan = await solve(given);
  return plan === null ? ANY : costOf(plan);
}

/** The cost rises or stays; a line without a plan costs more than any other. */
const isAtMost = (one: Cost, two: Cost) => !isBelow(two, one);

describe("the search under the rules of the floor", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["on lines of up to five tasks", 110, { fewest: 1, most: 5 }],
    ["on lines worked from two sides", 110, { fewest: 1, most: 4, isSided: true }],
    ["where units are handled at each pass", 110, { fewest: 1, most: 5, isHandledAgain: true }],
    [
      "where units are handled at each pass and worked from two sides",
      80,
      { fewest: 1, most: 4, isSided: true, isHandledAgain: true },
    ],
  ])(
    "needs as many people and stations as the best of all plans %s, and the verifier accepts its plan",
    async (_, numRuns, terms) => {
      const ways = { plan: 0, none: 0 };
      await fc.assert(
        fc.asyncProperty(floorCases(terms), async (given) => {
          const plan = await solve(given);
          expect(plan === null ? null : costOf(plan)).toEqual(new EveryFloorPlan(given).cheapest());
          ways[plan === null ? "none" : "plan"]++;
          if (plan === null) return;
          const { line, pace, strictLimit } = given;
          expect(verifyPlan(line, pace, toPlan(line, problemOf(given), plan), strictLimit)).toEqual([]);
        }),
        { seed: 61, numRuns },
      );
      expect(Math.min(ways.plan, ways.none)).toBeGreaterThan(numRuns / 10);
    },
  );

  it("never knows a bound above what is left of the best plan, from any station on", async () => {
    await fc.assert(
      fc.asyncProperty(floorCases({ fewest: 3, most: 8 }), async (given) => {
        const plan = (await solve(given)) ?? [];
        const bound = new PeopleBound(problemOf(given));
        for (const at of plan.keys()) {
          const rest = plan.slice(at);
          const { people, stations } = bound.of(rest.flatMap(({ blocks }) => blocks));
          expect(people).toBeLessThanOrEqual(costOf(rest).people);
          expect(stations).toBeLessThanOrEqual(rest.length);
        }
      }),
      { seed: 62, numRuns: 100 },
    );
  });

  it("needs as many people and stations whatever the tasks are called", async () => {
    const named = floorCases({ fewest: 2, most: 8 }).chain((given) => {
      const size = given.line.tasks.length;
      return fc.record({
        given: fc.constant(given),
        names: fc.shuffledSubarray([...Array(size).keys()], { minLength: size, maxLength: size }),
      });
    });
    await fc.assert(
      fc.asyncProperty(named, async ({ given, names }) => {
        const renamed = { ...given, line: rename(given.line, names) };
        expect(await costFor(renamed)).toEqual(await costFor(given));
      }),
      { seed: 63, numRuns: 100 },
    );
  });

  // Read from its end, a plan of a line without a floor is one of the turned line: nothing but arrows and waits has a direction, and
  // behind the floor all stations are alike. Work off the sides of a station backwards in time, and it ends no later.
  it.each([{ isSided: false }, { isSided: true }])(
    "needs as many people and stations with every arrow turned round, without a floor, sides: $isSided",
    async ({ isSided }) => {
      const cases = floorCases({ fewest: 2, most: 7, isWithoutFloor: true, isSided });
      await fc.assert(
        fc.asyncProperty(cases, async (given) => {
          expect(await costFor({ ...given, line: turnRound(given.line) })).toEqual(await costFor(given));
        }),
        { seed: 64, numRuns: 80 },
      );
    },
  );

  // A plan keeps every rule at a longer cycle: every limit grows, so no station needs more places, and with those it needs no more
  // equipment, machines or people with skills; a task that was alone above the limit still is alone.
  it("never needs more at a longer cycle", async () => {
    await fc.assert(
      fc.asyncProperty(
        floorCases({ fewest: 2, most: 8 }),
        fc.integer({ min: 1, max: CYCLE }),
        async (given, more) => {
          const { handling, planTo } = given.pace;
          const slower = { ...given, pace: paceWith(CYCLE + more, handling / 1e6, planTo) };
          expect(isAtMost(await costFor(slower), await costFor(given))).toBe(true);
        },
      ),
      { seed: 65, numRuns: 100 },
    );
  });

  // The plans of the line are plans of the line with one thing fewer to keep.
  it("never needs more without any one requirement of the line", async () => {
    await fc.assert(
      fc.asyncProperty(floorCases({ fewest: 2, most: 5 }), async (given) => {
        const cost = await costFor(given);
        for (const { without, rule } of requirementsOf(given.line)) {
          const freed = without(given.line);
          // A wait of no station is none.
          const line = { ...freed, waits: freed.waits.filter(({ stations }) => stations > 0) };
          expect([rule, isAtMost(await costFor({ ...given, line }), cost)]).toEqual([rule, true]);
        }
      }),
      { seed: 66, numRuns: 50 },
    );
  });

  it("stops after any number of partial plans with a plan that keeps the rules, the same every time", async () => {
    await fc.assert(
      fc.asyncProperty(
        floorCases({ fewest: 2, most: 5 }),
        fc.integer({ min: 1, max: 60 }),
        async (given, nodes) => {
          const problem = problemOf(given);
          const limits = { nodes, memory: 100_000 };
          const run = () => runSearchBelow(problem, ANY, PEOPLE_FIRST, limits, () => null);
          const answer = await run();
          expect(await run()).toEqual(answer);
          const best = new EveryFloorPlan(given).cheapest();
          if (answer.ended === "proved") expect(answer.plan && costOf(answer.plan)).toEqual(best);
          if (answer.plan === null) return;
          expect(isBelow(costOf(answer.plan), best!)).toBe(false);
          const plan = toPlan(given.line, problem, answer.plan);
          expect(verifyPlan(given.line, given.pace, plan, given.strictLimit)).toEqual([]);
        },
      ),
      { seed: 67, numRuns: 60 },
    );
  });
});

/** The same line with task t called `names[t]`. */
function rename(line: Line, names: readonly number[]): Line {
  const list = <T>(values: readonly T[]): T[] => {
    const moved: T[] = [];
    for (const [task, value] of values.entries()) moved[names[task]!] = value;
    return moved;
  };
  const all = (tasks: readonly number[]) => tasks.map((task) => names[task]!);
  return {
    ...line,
    tasks: list(line.tasks),
    before: list(line.before.map((earlier) => all(earlier).sort((one, two) => one - two))),
    together: line.together.map(all),
    apart: line.apart.map(all),
    waits: line.waits.map((wait) => ({ ...wait, from: names[wait.from]!, to: names[wait.to]! })),
  };
}

function turnRound(line: Line): Line {
  const before: number[][] = line.tasks.map(() => []);
  for (const [task, earlier] of line.before.entries()) for (const each of earlier) before[each]!.push(task);
  return { ...line, before, waits: line.waits.map((wait) => ({ ...wait, from: wait.to, to: wait.from })) };
}
