import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { balance } from "../../../src/solve/balance.js";
import { FILLED_LIMIT, FILLED_STATIONS, filledFirst } from "../../tools/floors/filled-first.js";
import { lineOf, paceOf } from "../../tools/line-of.js";

describe("floors of three zones, about 110 tasks, filled first", () => {
  it.each([1, 2, 3, 4, 5, 6])(
    "take no more people than the plan they were drawn around: floor %i",
    async (seed) => {
      const line = lineOf(filledFirst(seed).line);
      const pace = paceOf(FILLED_LIMIT);
      const options = {
        nodes: 60_000,
        strictLimit: false,
        level: false,
        explain: false,
        checkpoint: () => null,
      };
      const { plan } = await balance(line, pace, { method: "best", ...options });
      expect(plan!.stations.length).toBeLessThanOrEqual(FILLED_STATIONS);
      expect(verifyPlan(line, pace, plan!, true)).toEqual([]);
    },
  );
});
