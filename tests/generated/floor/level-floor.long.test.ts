import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { balance } from "../../../src/solve/balance.js";
import { multiply, type Ratio, ratio, toNumber } from "../../../src/time/ratio.js";
import { floorCases } from "../../tools/floor-random-line.js";
import { EveryFloorPlan, PARTS } from "./every-floor-plan.js";

const OPTIONS = { method: "best", level: true, explain: false, checkpoint: () => null };
const inParts = (time: Ratio) => toNumber(multiply(time, ratio(PARTS)));
/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

describe("evening out a line with rules", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["on lines of up to five tasks", 150, { fewest: 1, most: 5 }],
    ["on lines worked from two sides", 150, { fewest: 1, most: 4, isSided: true }],
    ["where units are handled at each pass", 80, { fewest: 1, most: 5, isHandledAgain: true }],
  ])(
    "reaches the shortest cycle of all plans that cost as little, and proves it, %s",
    async (_, numRuns, terms) => {
      await fc.assert(
        fc.asyncProperty(floorCases(terms), async (given) => {
          const { line, pace, strictLimit } = given;
          const { plan, level } = await balance(line, pace, { ...OPTIONS, nodes: 100_000, strictLimit });
          if (plan === null) return;
          const every = new EveryFloorPlan(given);
          const least = every.leastCycle(every.cheapest()!);
          expect(level!.outcome).toBe("proved");
          expect([inParts(level!.slowest), inParts(level!.bound)]).toEqual([least, least]);
        }),
        { seed: 81, numRuns },
      );
    },
  );

  it("stopped after any number of partial plans gives a verified plan and a bound that no plan as cheap goes below", async () => {
    await fc.assert(
      fc.asyncProperty(
        floorCases({ fewest: 2, most: 4, isSided: true }),
        fc.integer({ min: 1, max: 200 }),
        async (given, nodes) => {
          const { line, pace, strictLimit } = given;
          // Balancing throws where the verifier refuses any of its plans.
          const { plan, level } = await balance(line, pace, { ...OPTIONS, nodes, strictLimit });
          if (plan === null) return;
          const every = new EveryFloorPlan(given);
          const people = plan.stations.reduce((sum, { places, crew }) => sum + places * crew, 0);
          const least = every.leastCycle({ people, stations: plan.stations.length });
          expect(inParts(level!.slowest)).toBeGreaterThanOrEqual(least);
          expect(inParts(level!.bound)).toBeLessThanOrEqual(least);
        },
      ),
      { seed: 82, numRuns: 150 },
    );
  });
});
