import type { KeepPace, Line } from "../../line/line.js";
import { deviationTogether, keepPaceAt } from "../../line/parts/keep-pace.js";
import { normalShare } from "../../time/normal-share.js";
import { add, divide, multiply, ONE, type Ratio, subtract } from "../../time/ratio.js";
import type { Plan } from "../plan.js";
import { floorStationOf } from "../station-numbers.js";

/** How far a station may be loaded where its times vary, as an answer; times in microseconds. */
export interface PaceKept {
  readonly asked: KeepPace;
  /** Standard deviation of its station time. */
  readonly deviation: Ratio;
  /** Station time + z x deviation, which its working time holds. */
  readonly needed: Ratio;
  /** Station time / working time: the plan-to that this comes to. */
  readonly planTo: Ratio;
  /** With what chance it stays within its working time. */
  readonly chance: Ratio;
}

/** Of normal and independent times; null where the station is not asked, and where it has no working time. */
export function paceKept(
  line: Line,
  { id, tasks }: Pick<Plan["stations"][number], "id" | "tasks">,
  stationTime: Ratio,
  workingTime: Ratio,
): PaceKept | null {
  const asked = keepPaceAt(line, floorStationOf(line, id));
  if (asked === null || workingTime.num <= 0n) return null;
  const deviation = deviationTogether(tasks.map((task) => line.tasks[task]!));
  return {
    asked,
    deviation,
    needed: add(stationTime, multiply(asked.score, deviation)),
    planTo: divide(stationTime, workingTime),
    chance: chanceWithin(subtract(workingTime, stationTime), deviation),
  };
}

function chanceWithin(left: Ratio, deviation: Ratio): Ratio {
  const isWithin = left.num >= 0n;
  if (deviation.num === 0n) return isWithin ? ONE : subtract(ONE, ONE);
  const share = normalShare(divide({ num: isWithin ? left.num : -left.num, den: left.den }, deviation));
  return isWithin ? share : subtract(ONE, share);
}
