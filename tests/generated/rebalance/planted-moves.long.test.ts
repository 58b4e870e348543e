import { describe, expect, it } from "vitest";
import { rebalanceLine } from "../../../src/answer/rebalance/rebalance-line.js";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import type { Plan } from "../../../src/plan/plan.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { DEFAULT_NODES } from "../../../src/solve/methods.js";
import { disturbPlan, type NamedStation } from "../../tools/floors/disturb-plan.mjs";
import { FILLED_LIMIT, FILLED_STATIONS, filledFirst } from "../../tools/floors/filled-first.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;
const FEW = { dissolved: 2, moved: 4 };
const MANY = { dissolved: 4, moved: 16 };

describe("a plan of about 110 tasks at the pace, disturbed by a known number of moves", {
  timeout: LONGEST_TEST,
}, () => {
  it.each([
    { seed: 2, disturbance: FEW },
    { seed: 3, disturbance: MANY },
    { seed: 4, disturbance: MANY },
  ])(
    "is rebalanced with as few people by no more moves than were planted: %j",
    async ({ seed, disturbance }) => {
      const floor = filledFirst(seed);
      const line = lineOf(floor.line);
      const pace = paceOf(FILLED_LIMIT);
      const planOf = (stations: readonly NamedStation[]): Plan => {
        const { plan } = readPlan(
          "plan.yaml",
          JSON.stringify({ format: "linepoise-plan/1", stations }),
          line,
        );
        return plan!;
      };
      expect(verifyPlan(line, pace, planOf(floor.stations), true)).toEqual([]);
      const today = disturbPlan(floor.line, floor.stations, { seed, ...disturbance });
      expect(today.moves).toBeGreaterThanOrEqual(disturbance.dissolved + disturbance.moved);
      const options = {
        nodes: DEFAULT_NODES,
        strictLimit: true,
        maxMoves: null,
        keep: [],
        checkpoint: () => null,
      };
      const { tradeOffs } = await rebalanceLine(line, pace, null, planOf(today.stations), options);
      const row = tradeOffs.findLast(({ people }) => people <= FILLED_STATIONS);
      expect(row!.cost).toBeLessThanOrEqual(today.moves);
      expect(row!.leastCost).toBeLessThanOrEqual(row!.cost);
      for (const { plan } of tradeOffs) expect(verifyPlan(line, pace, plan, true)).toEqual([]);
    },
  );
});
