import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { costOf } from "../../../src/solve/cost.js";
import { FirstPlans } from "../../../src/solve/improve/first-plans.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { toPlan } from "../../../src/solve/to-plan.js";
import type { BlockPlan } from "../../../src/solve/work.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { EveryFloorPlan, isBelow } from "./every-floor-plan.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;
const NODES = 5_000;

const workOf = ({ line, pace, strictLimit }: FloorCase) =>
  layOutWork(line, { pace, strictLimit, slowest: null, free: false });

function run(given: FloorCase, nodes: number): FirstPlans {
  const plans = new FirstPlans(workOf(given), { nodes });
  for (const _ of plans.stretches());
  return plans;
}

const faultsOf = (given: FloorCase, plan: BlockPlan) =>
  verifyPlan(given.line, given.pace, toPlan(given.line, workOf(given), plan), given.strictLimit);

describe("first plans", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["on lines of up to five tasks", 300, { fewest: 1, most: 5 }],
    ["on lines worked from two sides", 200, { fewest: 1, most: 4, isSided: true }],
  ])(
    "are there wherever one of all plans keeps the rules, never cheaper than the best of them, %s",
    (_, numRuns, terms) => {
      const ways = { best: 0, dearer: 0, none: 0 };
      fc.assert(
        fc.property(floorCases(terms), (given) => {
          const { best } = run(given, NODES);
          const cheapest = new EveryFloorPlan(given).cheapest();
          expect(best === null).toBe(cheapest === null);
          if (best === null) {
            ways.none++;
            return;
          }
          expect(isBelow(costOf(best), cheapest!)).toBe(false);
          ways[isBelow(cheapest!, costOf(best)) ? "dearer" : "best"]++;
          expect(faultsOf(given, best)).toEqual([]);
        }),
        { seed: 71, numRuns },
      );
      expect(Math.min(ways.best, ways.none)).toBeGreaterThan(numRuns / 10);
      // They prove nothing, but on so few tasks hardly anything is cheaper.
      expect(ways.dearer).toBeLessThanOrEqual(numRuns / 100);
    },
  );
});
