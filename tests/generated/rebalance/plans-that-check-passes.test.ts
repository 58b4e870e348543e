import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rebalanceLine } from "../../../src/answer/rebalance/rebalance-line.js";
import type { RebalancingOptions } from "../../../src/answer/rebalance/trade-offs.js";
import { withoutPlanTo } from "../../../src/line/line.js";
import { peopleOf } from "../../../src/plan/figures/people.js";
import type { Plan } from "../../../src/plan/plan.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { multiply, ONE, type Ratio, ratio } from "../../../src/time/ratio.js";
import { type RebalanceCase, rebalanceCases } from "../../tools/every-trade-off.js";
import { paceWith } from "../../tools/floor-random-line.js";
import { passesCheck } from "../../tools/passes-check.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;
const NODES = 4_000;

const cases = fc
  .tuple(
    rebalanceCases(6, { hasPoints: true }),
    fc.integer({ min: 25, max: 70 }),
    fc.constantFrom(ratio(9, 10), ratio(3, 4), ratio(1, 2)),
    fc.constantFrom(ONE, ONE, ratio(19, 20), ratio(2, 3)),
  )
  .map(([each, cycle, planTo, maxLoad]): RebalanceCase => {
    const line = { ...each.given.line, policy: { ...each.given.line.policy, maxLoad } };
    return { ...each, given: { line, pace: paceWith(cycle, 0, planTo), strictLimit: false } };
  });

const isPassed = ({ given: { line, pace }, today }: RebalanceCase) => passesCheck(line, pace, today);

const tasksOf = ({ stations }: Plan) => stations.map(({ id, tasks }) => [id, tasks]);

/**
 * With a plan that fills stations up to the working time, or to such a share of it, as near to the drawn one as that allows; as drawn
 * where there is none.
 */
async function filled(each: RebalanceCase, share: Ratio = ONE): Promise<RebalanceCase> {
  const { line, pace } = each.given;
  const stationLimit = multiply(pace.workingTime, share);
  const full = { ...pace, planTo: share, stationLimit };
  const given = { line: withoutPlanTo(line), pace: full, strictLimit: true };
  const { chosen } = await rebalance({ ...each, given }, {});
  return { ...each, today: chosen?.plan ?? each.today };
}

function rebalance({ given, today }: RebalanceCase, options: Partial<RebalancingOptions>) {
  const { line, pace, strictLimit } = given;
  const all = { nodes: NODES, strictLimit, maxMoves: null, keep: [], checkpoint: () => null, ...options };
  return rebalanceLine(line, pace, null, today, all);
}

describe("where a share of the working time is kept in reserve, a plan that check passes", {
  timeout: LONGEST_TEST,
}, () => {
  it("stays as it is without a move, and no answer has more people than it has", async () => {
    let [overLimit, fewer, kept] = [0, 0, 0];
    await fc.assert(
      fc.asyncProperty(
        cases,
        fc.constantFrom(1, NODES),
        fc.constantFrom(ONE, ratio(3, 5)),
        async (drawn, nodes, share) => {
          const each = await filled(drawn, share);
          if (!isPassed(each)) return;
          const { line, pace } = each.given;
          const isOver = verifyPlan(line, pace, each.today, false).length > 0;
          const all = [...line.tasks.keys()];
          for (const limits of [{ maxMoves: 0 }, { maxMoves: null, maxMoveCost: 0 }, { keep: all }]) {
            const still = await rebalance(each, { nodes, ...limits });
            const { plan, moves, people } = still.chosen!;
            expect([moves, tasksOf(plan)]).toEqual([[], tasksOf(each.today)]);
            // A second place, or a second person, may be more than the work takes.
            expect(people).toBeLessThanOrEqual(peopleOf(each.today));
            if (people === peopleOf(each.today)) expect(plan.stations).toEqual(each.today.stations);
            const isShownOver = verifyPlan(line, pace, plan, false).length > 0;
            expect([still.overLimits !== null, isShownOver && !isOver]).toEqual([isShownOver, false]);
            if (isShownOver) expect([still.balance.outcome, still.balance.bound]).toEqual(["found", null]);
          }
          const free = await rebalance(each, { nodes });
          expect(free.chosen!.people).toBeLessThanOrEqual(peopleOf(each.today));
          expect(free.tradeOffs.at(-1)!.moves).toEqual([]);
          if (isOver) overLimit++;
          if (free.chosen!.people < peopleOf(each.today)) fewer++;
          if (isOver && free.chosen!.moves.length === 0) kept++;
          const within = free.overLimits?.within ?? null;
          if (within !== null) expect(verifyPlan(line, pace, within.plan, false)).toEqual([]);
        },
      ),
      { seed: 91, numRuns: 70 },
    );
    expect([overLimit > 8, fewer > 4, kept > 4]).toEqual([true, true, true]);
  });

  it("is not kept over its limits where these are strict", async () => {
    let moved = 0;
    await fc.assert(
      fc.asyncProperty(cases, async (drawn) => {
        const each = await filled(drawn);
        const { line, pace } = each.given;
        if (!isPassed(each) || verifyPlan(line, pace, each.today, true).length === 0) return;
        const { chosen, overLimits } = await rebalance(each, { strictLimit: true });
        expect(overLimits).toBe(null);
        if (chosen === null) return;
        expect(verifyPlan(line, pace, chosen.plan, true)).toEqual([]);
        moved++;
      }),
      { seed: 92, numRuns: 60 },
    );
    expect(moved).toBeGreaterThan(2);
  });
});
