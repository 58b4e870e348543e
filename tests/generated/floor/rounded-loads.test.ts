import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { peopleOf } from "../../../src/plan/figures/people.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { balance } from "../../../src/solve/balance.js";
import { costOf, isCheaper, PEOPLE_FIRST } from "../../../src/solve/cost.js";
import { fixStations } from "../../../src/solve/fix-stations.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { isCountedExactly } from "../../../src/solve/parts.js";
import { arrangeBlocks } from "../../../src/solve/station/arrange-blocks.js";
import { toPlan } from "../../../src/solve/to-plan.js";
import type { Pace } from "../../../src/time/pace.js";
import {
  add,
  divide,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../../../src/time/ratio.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

/** Every task done again for failures of a share of its own, so that the loads have no common unit. */
function withFailures(line: Line, hundredths: readonly number[]): Line {
  const tasks = line.tasks.map((task, at) => {
    const often = divide(ONE, subtract(ONE, ratio(hundredths[at % hundredths.length]!, 10_000)));
    return {
      ...task,
      load: multiply(task.load, often),
      visits: task.visits.map((each) => multiply(each, often)),
    };
  });
  return { ...line, tasks };
}

/** A line cycle at which some tasks fill a station to the last part; that of the case where they take nothing. */
function filledBy(line: Line, { pace }: FloorCase, full: readonly number[]): Pace {
  const load = full.map((task) => line.tasks[task]?.load ?? ZERO).reduce(add, ZERO);
  if (load.num === 0n) return pace;
  const workingTime: Ratio = divide(load, pace.planTo);
  const lineCycle = add(workingTime, ratio(pace.handling));
  return { ...pace, lineCycle, workingTime, stationLimit: load };
}

const drawn = (isSided: boolean) =>
  fc.record({
    given: floorCases({ fewest: 2, most: 5, isSided }),
    hundredths: fc.array(fc.integer({ min: 101, max: 999 }), { minLength: 5, maxLength: 5 }),
    full: fc.uniqueArray(fc.nat(4), { maxLength: 3 }),
    positions: fc.array(fc.nat(3), { minLength: 5, maxLength: 5 }),
  });

describe.each([
  ["from one side", false],
  ["from two sides", true],
])("loads without a common unit under rules, worked %s", (_, isSided) => {
  it(
    "are a plan of true loads wherever rounded up they are one, and one rounded down wherever true loads are",
    () => {
      const seen = { plans: 0, rounded: 0 };
      fc.assert(
        fc.property(drawn(isSided), ({ given, hundredths, full, positions }) => {
          const line = withFailures(given.line, hundredths);
          const pace = filledBy(line, given, full);
          const limits = { pace, strictLimit: given.strictLimit, slowest: null, free: false };
          const [up, down] = [layOutWork(line, limits), layOutWork(line, limits, "down")];
          const positionOf = up.members.map((_tasks, block) => positions[block]!);
          const [more, less] = [arrangeBlocks(up, positionOf), arrangeBlocks(down, positionOf)];
          if (!isCountedExactly(line)) seen.rounded++;
          if (more === null) return;
          seen.plans++;
          expect(verifyPlan(line, pace, toPlan(line, up, more), given.strictLimit)).toEqual([]);
          expect(costOf(less!).people).toBeLessThanOrEqual(costOf(more).people);
        }),
        { seed: 83, numRuns: 400 },
      );
      expect(Math.min(seen.plans, seen.rounded)).toBeGreaterThan(50);
    },
    LONGEST_TEST,
  );

  it(
    "are balanced, and no bound is above a plan",
    async () => {
      const seen = { proved: 0, open: 0 };
      await fc.assert(
        fc.asyncProperty(drawn(isSided), async ({ given, hundredths, full }) => {
          const line = withFailures(given.line, hundredths);
          const pace = filledBy(line, given, full);
          const { strictLimit } = given;
          const terms = { method: "best", nodes: 5_000, strictLimit, level: true, explain: false };
          const { plan, least, outcome, level, within } = await balance(line, pace, {
            ...terms,
            checkpoint: async () => null,
          });
          seen[outcome === "proved" || outcome === "infeasible" ? "proved" : "open"]++;
          if (plan === null) return;
          expect(verifyPlan(line, pace, plan, strictLimit)).toEqual([]);
          expect(
            isCheaper({ people: peopleOf(plan), stations: plan.stations.length }, least!, PEOPLE_FIRST),
          ).toBe(false);
          expect(within === null || outcome === "found").toBe(true);
          expect(larger(level!.bound, level!.slowest)).toEqual(level!.slowest);
        }),
        { seed: 84, numRuns: 35 },
      );
      expect(seen.proved).toBeGreaterThan(15);
    },
    LONGEST_TEST,
  );

  it(
    "have the best cycle of a number of stations, or one as good to within the part that is said",
    async () => {
      await fc.assert(
        fc.asyncProperty(drawn(isSided), fc.integer({ min: 1, max: 3 }), async (each, count) => {
          const line = withFailures(each.given.line, each.hundredths);
          const fixed = await fixStations(line, Math.min(count, line.tasks.length), 5_000, async () => null);
          if (fixed.plan === null) return;
          expect(larger(fixed.cycleBound, fixed.cycle)).toEqual(fixed.cycle);
          expect(fixed.within === null || fixed.within >= 1_000_000n).toBe(true);
          // From two sides, the ends of models are rounded row by row: what is left open may be more.
          if (fixed.ended === "proved" && !isSided) expect(fixed.proved || fixed.within !== null).toBe(true);
        }),
        { seed: 85, numRuns: 45 },
      );
    },
    LONGEST_TEST,
  );
});
