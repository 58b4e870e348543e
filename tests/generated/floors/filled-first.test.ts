import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { balance } from "../../../src/solve/balance.js";
import { lineOf, paceOf } from "../../tools/line-of.js";
import { drawFrom } from "../../tools/move-cases.js";

const LIMIT = 60;
const ZONES = 3;
const STATIONS = 24;
/** Empty places that each zone has beyond the stations that were filled. */
const SPARE = 2;

/** A line whose stations were filled first, each from 95 % to its limit; arrows and zones are true of where the tasks then stand. */
function filledFirst(seed: number): string {
  const draw = drawFrom(seed);
  const zoneOf = (station: number) => Math.floor((station * ZONES) / STATIONS);
  const tasks: string[] = [];
  for (let station = 0, earlier = 0; station < STATIONS; station++) {
    const first = tasks.length;
    for (let left = LIMIT - draw(4); left > 0; ) {
      const time = left < 22 ? left : 6 + draw(15);
      const after = tasks.length === 0 ? "" : `t${earlier + draw(tasks.length - earlier)}`;
      const zone = draw(3) === 0 ? `, zone: z${zoneOf(station)}` : "";
      tasks.push(`  t${tasks.length}: {time: ${time}, after: [${after}]${zone}}`);
      left -= time;
    }
    earlier = Math.max(0, first - draw(8));
  }
  const places = STATIONS / ZONES + SPARE;
  const floor = Array.from(
    { length: ZONES * places },
    (_, at) => `  - {id: P${at + 1}, zone: z${Math.floor(at / places)}}`,
  );
  return ["unit: s", "stations:", ...floor, "tasks:", ...tasks, ""].join("\n");
}

describe("floors of three zones, about 110 tasks, filled first", () => {
  it.each([1, 2, 3, 4, 5, 6])(
    "take no more people than the plan they were drawn around: floor %i",
    async (seed) => {
      const line = lineOf(filledFirst(seed));
      const pace = paceOf(LIMIT);
      const options = {
        nodes: 60_000,
        strictLimit: false,
        level: false,
        explain: false,
        checkpoint: () => null,
      };
      const { plan } = await balance(line, pace, { method: "best", ...options });
      expect(plan!.stations.length).toBeLessThanOrEqual(STATIONS);
      expect(verifyPlan(line, pace, plan!, true)).toEqual([]);
    },
  );
});
