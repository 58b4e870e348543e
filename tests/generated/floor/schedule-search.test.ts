import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { costOf, PEOPLE_FIRST } from "../../../src/solve/cost.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { runSearchBelow } from "../../../src/solve/search/run-search.js";
import { toPlan } from "../../../src/solve/to-plan.js";
import type { FloorCase } from "../../tools/floor-random-line.js";
import { scheduleCases } from "../../tools/schedule-cases.js";
import { type Cost, EveryFloorPlan, isBelow } from "./every-floor-plan.js";

const ANY: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

const problemOf = ({ line, pace, strictLimit }: FloorCase) =>
  layOutWork(line, { pace, strictLimit, slowest: null, free: false });

async function solve(given: FloorCase) {
  const limits = { nodes: 1_000_000, memory: 100_000 };
  const { plan, ended } = await runSearchBelow(problemOf(given), ANY, PEOPLE_FIRST, limits, () => null);
  expect(ended).toBe("proved");
  return plan;
}

describe("stations that are small schedules", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["of people who work together", 110, { fewest: 2, most: 5 }],
    ["of crews that share a unit", 85, { fewest: 2, most: 4, isShared: true }],
    ["worked from two sides", 85, { fewest: 2, most: 4, isSided: true }],
  ])(
    "take as many people and stations as the best of all plans, orders and assignments, %s, and the verifier accepts the plan",
    async (_, numRuns, terms) => {
      const ways = { plan: 0, none: 0 };
      await fc.assert(
        fc.asyncProperty(scheduleCases(terms), async (given) => {
          const plan = await solve(given);
          expect(plan === null ? null : costOf(plan)).toEqual(new EveryFloorPlan(given).cheapest());
          ways[plan === null ? "none" : "plan"]++;
          if (plan === null) return;
          const { line, pace, strictLimit } = given;
          expect(verifyPlan(line, pace, toPlan(line, problemOf(given), plan), strictLimit)).toEqual([]);
        }),
        { seed: 161, numRuns },
      );
      expect(Math.min(ways.plan, ways.none)).toBeGreaterThan(numRuns / 10);
    },
  );

  // Whatever a plan does, it still does with more room to stand, or with people who may but need not share.
  it.each([
    [
      "longer holds",
      ({ line, ...given }: FloorCase) => ({ ...given, line: { ...line, holds: line.holds + 1 } }),
    ],
    [
      "a larger limit of crews",
      ({ line, ...given }: FloorCase) => ({ ...given, line: { ...line, maxCrew: 2 } }),
    ],
  ])("never need more with %s", async (_, ease) => {
    await fc.assert(
      fc.asyncProperty(scheduleCases({ fewest: 2, most: 6 }), async (given) => {
        const [before, after] = [await solve(given), await solve(ease(given))];
        if (before === null) return;
        expect(isBelow(costOf(before), costOf(after!))).toBe(false);
      }),
      { seed: 162, numRuns: 90 },
    );
  });
});
