import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stationNumbers } from "../../../src/plan/station-numbers.js";
import { leastMoves } from "../../../src/solve/bounds/least-moves.js";
import { PricesAlongLine } from "../../../src/solve/bounds/prices-along-line.js";
import { fewestMoves } from "../../../src/solve/fewest-moves.js";
import { layOutWork } from "../../../src/solve/lay-out-work.js";
import { labelsOf } from "../../../src/solve/moves-of-plan.js";
import type { Today, Work } from "../../../src/solve/work.js";
import { everyChange, type RebalanceCase, rebalanceCases } from "../../tools/every-trade-off.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;
const STEPS = 200_000;

/** The line and today's plan as the bounds see them. */
function laidOut({ given, today }: RebalanceCase): { readonly work: Work; readonly today: Today } {
  const { line, pace, strictLimit } = given;
  const numbers = stationNumbers(line, today);
  const keptPositions = line.floor.length === 0 ? 0 : Math.max(...numbers) + 1;
  const work = layOutWork(line, { pace, strictLimit, slowest: null, free: false, keptPositions });
  const labelOf = (task: number) => today.stations.findIndex(({ tasks }) => tasks.includes(task));
  const homes = work.members.map((tasks) =>
    [...new Set(tasks.map(labelOf))].map((label) => {
      const own = tasks.filter((task) => labelOf(task) === label);
      return { label, cost: own.reduce((sum, task) => sum + (line.tasks[task]!.moveCost ?? 1), 0) };
    }),
  );
  const labelAt = Array.from({ length: work.positions }, (_, position) => numbers.indexOf(position));
  const isFloor = work.isPositional && line.floor.length > 0;
  return {
    work,
    today: { labels: today.stations.length, homes, labelAt: isFloor ? labelAt : null, mostMoves: 1e9 },
  };
}

describe("bounds of moves on lines with rules of the floor", { timeout: LONGEST_TEST }, () => {
  it("are no more than the fewest moves of all plans, nor is what they say of the first stations of one", async () => {
    let [priced, met] = [0, 0];
    await fc.assert(
      fc.asyncProperty(rebalanceCases(4, { hasPoints: true }), async (each) => {
        const all = everyChange(each);
        const { work, today } = laidOut(each);
        if (!PricesAlongLine.suits(work, today)) return;
        for (let people = 1; people <= work.size; people++) {
          const within = all.filter((one) => one.people <= people).map(({ points }) => points);
          if (within.length === 0) continue;
          const fewest = Math.min(...within);
          const ceiling = { people: people + 1, stations: 0 };
          expect(leastMoves(work, today, ceiling)).toBeLessThanOrEqual(fewest);
          const prices = new PricesAlongLine(work, today, ceiling);
          for (const _ of prices.raise(fewest + 2, STEPS)) expect(prices.bound).toBeLessThanOrEqual(fewest);
          priced++;
          if (fewest > 0 && prices.bound === fewest) met++;
          const limits = { nodes: 1e6, most: 1e6 };
          const { plan } = await fewestMoves(work, today, ceiling, null, limits, () => null);
          const kept = labelsOf(today, plan!);
          let [worth, next] = [0, 0];
          for (const [at, { blocks, position }] of plan!.entries()) {
            worth += prices.worthAt(blocks, kept[at]!);
            if (kept[at]! >= 0) next = kept[at]! + 1;
            expect(prices.leastWith(worth, position + 1, at + 1, next)).toBeLessThanOrEqual(fewest);
          }
        }
      }),
      { seed: 91, numRuns: 60 },
    );
    expect(priced).toBeGreaterThan(20);
    expect(met).toBeGreaterThan(3);
  });
});
