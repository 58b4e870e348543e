import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type RebalanceAnswer, rebalanceLine } from "../../../src/answer/rebalance/rebalance-line.js";
import type { MoveLimits } from "../../../src/answer/rebalance/trade-offs.js";
import { peopleOf } from "../../../src/plan/figures/people.js";
import {
  bestOf,
  type Change,
  everyChange,
  type RebalanceCase,
  rebalanceCases,
} from "../../tools/every-trade-off.js";
import { passesCheck } from "../../tools/passes-check.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

/** Every change, and none where `check` passes today's plan: it may stay although its stations take more than their limit. */
function allChanges(each: RebalanceCase): Change[] {
  const { given, today } = each;
  const { line, pace, strictLimit } = given;
  if (strictLimit || !passesCheck(line, pace, today)) return everyChange(each);
  const size = { people: peopleOf(today), stations: today.stations.length };
  return [...everyChange(each), { ...size, moves: 0, points: 0 }];
}

function rebalance({ given, today }: RebalanceCase, limits: MoveLimits): Promise<RebalanceAnswer> {
  const { line, pace, strictLimit } = given;
  const options = { nodes: 1_000_000, strictLimit, ...limits, keep: [], checkpoint: () => null };
  return rebalanceLine(line, pace, null, today, options);
}

describe("moves against people on lines with rules of the floor", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["of up to four tasks", 120, 4, { isSided: false }],
    ["of up to four tasks, some of them dearer to move", 90, 4, { hasPoints: true }],
    ["worked from two sides", 70, 3, { isSided: true }],
  ])("are those of the best of all plans on lines %s", async (_, numRuns, most, terms) => {
    const sizes = new Set<number>();
    await fc.assert(
      fc.asyncProperty(rebalanceCases(most, terms), async (each) => {
        const all = allChanges(each);
        const { tradeOffs, balance, overLimits } = await rebalance(each, { maxMoves: null });
        expect(tradeOffs.length > 0).toBe(all.length > 0);
        if (all.length === 0) return;
        const fewest = bestOf(all, () => true)!;
        const outcome = overLimits === null ? "proved" : "found";
        expect([balance.outcome, peopleOf(balance.plan!)]).toEqual([outcome, fewest.people]);
        const front = [];
        for (let people = fewest.people; people <= Math.max(...all.map((one) => one.people)); people++) {
          const best = bestOf(all, (one) => one.people === people);
          const last = front.at(-1);
          if (best !== undefined && (last === undefined || best.points < last.points)) front.push(best);
        }
        const told = tradeOffs.map(({ people, cost, stations }) => ({ people, points: cost, stations }));
        expect(told).toEqual(front.map(({ people, points, stations }) => ({ people, points, stations })));
        for (const { people, outcome, cost, leastCost, leastMoves, moves } of tradeOffs) {
          expect([outcome, leastCost]).toEqual(["proved", cost]);
          const within = all.filter((one) => one.people <= people);
          expect(leastMoves).toBeLessThanOrEqual(Math.min(...within.map((one) => one.moves)));
          expect(leastMoves).toBeLessThanOrEqual(moves.length);
        }
        sizes.add(front.length);
      }),
      { seed: 71, numRuns },
    );
    expect(sizes.size).toBeGreaterThan(1);
  });

  it.each([
    ["moves", fc.record({ maxMoves: fc.nat(2) }), false],
    ["points", fc.record({ maxMoves: fc.constant(null), maxMoveCost: fc.nat(5) }), true],
    ["moves where some cost several points", fc.record({ maxMoves: fc.nat(2) }), true],
    ["moves and points", fc.record({ maxMoves: fc.nat(3), maxMoveCost: fc.nat(6) }), true],
  ])(
    "have the fewest people that so many %s leave, and prove that no fewer are possible",
    async (_, drawn, hasPoints) => {
      let [withMore, none] = [0, 0];
      await fc.assert(
        fc.asyncProperty(rebalanceCases(4, { hasPoints }), drawn, async (each, limits: MoveLimits) => {
          const all = allChanges(each);
          const [mostMoves, mostPoints] = [limits.maxMoves ?? 1000, limits.maxMoveCost ?? 1000];
          const { chosen, allowed, balance, overLimits } = await rebalance(each, limits);
          const fewest = bestOf(all, ({ moves, points }) => moves <= mostMoves && points <= mostPoints);
          expect(chosen && [chosen.people, chosen.cost, chosen.stations]).toEqual(
            fewest === undefined ? null : [fewest.people, fewest.points, fewest.stations],
          );
          if (chosen === null) {
            none += all.length > 0 ? 1 : 0;
            expect(balance.outcome).toBe("infeasible");
            return;
          }
          expect(chosen.moves.length).toBeLessThanOrEqual(mostMoves);
          expect(balance.outcome).toBe(overLimits === null ? "proved" : "found");
          if (chosen.people === bestOf(all, () => true)!.people) return;
          expect(allowed!.isRuledOut).toBe(true);
          const ofFewer = all.filter(({ people }) => people < chosen.people).map(({ points }) => points);
          expect(allowed!.leastCostOfFewer).toBeLessThanOrEqual(Math.min(...ofFewer));
          withMore++;
        }),
        { seed: 72, numRuns: 120 },
      );
      expect(withMore).toBeGreaterThan(5);
      expect(none).toBeGreaterThan(5);
    },
  );
});
