import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type RebalanceAnswer, rebalanceLine } from "../../../src/answer/rebalance/rebalance-line.js";
import type { RebalancingOptions } from "../../../src/answer/rebalance/trade-offs.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { type RebalanceCase, rebalanceCases } from "../../tools/every-trade-off.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;
const NODES = 4_000;

function rebalance(
  { given, today }: RebalanceCase,
  options: Partial<RebalancingOptions>,
): Promise<RebalanceAnswer> {
  const { line, pace, strictLimit } = given;
  const all = { nodes: NODES, strictLimit, maxMoves: null, keep: [], checkpoint: () => null, ...options };
  return rebalanceLine(line, pace, null, today, all);
}

const cases = rebalanceCases(7, { hasPoints: true });

describe("a rebalance of lines with rules of the floor", { timeout: LONGEST_TEST }, () => {
  it("moves nothing of a plan that holds, wherever its search ends, and needs no more people", async () => {
    let held = 0;
    await fc.assert(
      fc.asyncProperty(cases, fc.constantFrom(1, 100, NODES), async (each, nodes) => {
        const { chosen: first } = await rebalance(each, {});
        if (first === null) return;
        const own = { ...each, today: first.plan };
        const { line, pace, strictLimit } = each.given;
        expect(verifyPlan(line, pace, own.today, strictLimit)).toEqual([]);
        for (const maxMoves of [null, 0]) {
          const { chosen, tradeOffs } = await rebalance(own, { nodes, maxMoves });
          expect(chosen!.people).toBeLessThanOrEqual(first.people);
          if (maxMoves === 0 || nodes === NODES) expect(chosen!.moves).toEqual([]);
          expect(tradeOffs.at(-1)!.moves).toEqual([]);
        }
        held++;
      }),
      { seed: 81, numRuns: 30 },
    );
    expect(held).toBeGreaterThan(10);
  });

  it("needs no more people where more moves or points are allowed, wherever its search ends", async () => {
    let differ = 0;
    await fc.assert(
      fc.asyncProperty(
        cases,
        fc.constantFrom(30, NODES),
        fc.constantFrom<"maxMoves" | "maxMoveCost">("maxMoves", "maxMoveCost"),
        async (each, nodes, limit) => {
          const people: number[] = [];
          for (const most of [0, 1, 2, 4]) {
            const { chosen } = await rebalance(each, { nodes, [limit]: most });
            people.push(chosen?.people ?? Number.POSITIVE_INFINITY);
          }
          expect(people).toEqual(people.toSorted((one, two) => (one < two ? 1 : one > two ? -1 : 0)));
          if (new Set(people).size > 1) differ++;
        },
      ),
      { seed: 82, numRuns: 22 },
    );
    expect(differ).toBeGreaterThan(5);
  });

  it("says of more people no more moves at the least than of fewer, wherever its search ends", async () => {
    let [open, several] = [0, 0];
    await fc.assert(
      fc.asyncProperty(cases, fc.constantFrom(1, 10, 40), async (each, nodes) => {
        const { tradeOffs } = await rebalance(each, { nodes });
        for (const [at, row] of tradeOffs.entries()) {
          const before = tradeOffs[at - 1];
          expect(row.leastCost).toBeLessThanOrEqual(row.cost);
          expect(row.leastMoves).toBeLessThanOrEqual(row.moves.length);
          expect(row.outcome === "proved").toBe(row.leastCost === row.cost);
          if (row.outcome === "found") open++;
          if (before === undefined) continue;
          several++;
          expect([row.people > before.people, row.cost < before.cost]).toEqual([true, true]);
          expect([row.leastCost <= before.leastCost, row.leastMoves <= before.leastMoves]).toEqual([
            true,
            true,
          ]);
        }
      }),
      { seed: 83, numRuns: 60 },
    );
    expect([open > 5, several > 5]).toEqual([true, true]);
  });

  it("is the same where tasks are to stay that it leaves where they are", async () => {
    let kept = 0;
    await fc.assert(
      fc.asyncProperty(cases, async (each) => {
        const { chosen } = await rebalance(each, {});
        if (chosen === null) return;
        const moved = chosen.moves.map(({ task }) => task);
        const keep = [...each.given.line.tasks.keys()].filter((task) => !moved.includes(task));
        const again = await rebalance(each, { keep });
        expect([again.chosen!.people, again.chosen!.cost]).toEqual([chosen.people, chosen.cost]);
        if (moved.length > 0 && keep.length > 0) kept++;
      }),
      { seed: 84, numRuns: 30 },
    );
    expect(kept).toBeGreaterThan(5);
  });
});
