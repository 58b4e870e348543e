import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { costOf } from "../../../src/solve/cost.js";
import { FirstPlans } from "../../../src/solve/improve/first-plans.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { positionsOf } from "../../../src/solve/station/arrange-blocks.js";
import { toPlan } from "../../../src/solve/to-plan.js";
import type { BlockPlan } from "../../../src/solve/work.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { EveryFloorPlan, isBelow } from "./every-floor-plan.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;
const NODES = 5_000;

const workOf = ({ line, pace, strictLimit }: FloorCase) =>
  layOutWork(line, { pace, strictLimit, slowest: null, free: false });

function run(given: FloorCase, nodes: number, startFrom: readonly number[] | null = null): FirstPlans {
  const plans = new FirstPlans(workOf(given), { nodes }, startFrom);
  for (const _ of plans.stretches());
  return plans;
}

const faultsOf = (given: FloorCase, plan: BlockPlan) =>
  verifyPlan(given.line, given.pace, toPlan(given.line, workOf(given), plan), given.strictLimit);

describe("first plans", { timeout: LONGEST_TEST }, () => {
  it.each([{ isSided: false }, { isSided: true }])(
    "keep the rules on lines of seven to ten tasks, the same every time, sides: $isSided",
    ({ isSided }) => {
      let found = 0;
      fc.assert(
        fc.property(floorCases({ fewest: 7, most: 10, isSided, ruledTasks: 4 }), (given) => {
          const first = run(given, 1_000);
          expect(run(given, 1_000).best).toEqual(first.best);
          if (first.best === null) return;
          found++;
          expect(faultsOf(given, first.best)).toEqual([]);
        }),
        { seed: 72, numRuns: 60 },
      );
      expect(found).toBeGreaterThan(12);
    },
  );

  it("from a plan that stands never need more people or stations than it does", () => {
    fc.assert(
      fc.property(floorCases({ fewest: 3, most: 9 }), (given) => {
        const { best: standing } = run(given, 300);
        if (standing === null) return;
        const { best } = run(given, NODES, positionsOf(workOf(given), standing));
        expect(isBelow(costOf(standing), costOf(best!))).toBe(false);
        expect(faultsOf(given, best!)).toEqual([]);
      }),
      { seed: 73, numRuns: 60 },
    );
  });

  it("from any positions come to a plan wherever there is one", () => {
    const cases = fc.tuple(floorCases({ fewest: 2, most: 5 }), fc.array(fc.integer({ min: -1, max: 4 })));
    fc.assert(
      fc.property(cases, ([given, drawn]) => {
        const startFrom = workOf(given).loads.map((_, block) => drawn[block] ?? -1);
        const { best } = run(given, NODES, startFrom);
        expect(best === null).toBe(new EveryFloorPlan(given).cheapest() === null);
      }),
      { seed: 74, numRuns: 70 },
    );
  });

  it("stop soon after the nodes that they may take, with what they have", () => {
    fc.assert(
      fc.property(floorCases({ fewest: 7, most: 10 }), fc.integer({ min: 1, max: 2_000 }), (given, nodes) => {
        const plans = run(given, nodes);
        if (plans.best !== null) return;
        const { plan, left } = plans.unfinished;
        const placed = plan.flatMap(({ blocks }) => blocks);
        expect([...placed, ...left].sort((one, two) => one - two)).toEqual([...workOf(given).loads.keys()]);
        expect(left.length).toBeGreaterThan(0);
      }),
      { seed: 75, numRuns: 60 },
    );
  });
});
