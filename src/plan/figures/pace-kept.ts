import type { KeepPace, Line } from "../../line/line.js";
import { deviationTogether, keepPaceAt, meanKept, modelsKept } from "../../line/parts/keep-pace.js";
import { normalShare } from "../../time/normal-share.js";
import { add, compare, divide, multiply, ONE, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import type { Plan } from "../plan.js";
import { floorStationOf } from "../station-numbers.js";

/** How far a station may be loaded where its times vary, as an answer; times in microseconds. */
export interface PaceKept {
  readonly asked: KeepPace;
  /** The model that needs most, by its name, where models have times of their own; null where all units are alike. */
  readonly model: string | null;
  /** Station time, of that model. */
  readonly mean: Ratio;
  /** Standard deviation of that. */
  readonly deviation: Ratio;
  /** Mean + z x deviation, which its working time holds. */
  readonly needed: Ratio;
  /** Mean / working time: the plan-to that this comes to. */
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
  const own = tasks.map((task) => line.tasks[task]!);
  const rows = modelsKept(line).map((model) => {
    const mean = model === null ? stationTime : own.map((task) => meanKept(task, model)).reduce(add, ZERO);
    const deviation = deviationTogether(own, model);
    return { model, mean, deviation, needed: add(mean, multiply(asked.score, deviation)) };
  });
  const { model, ...most } = rows.reduce((one, two) => (compare(two.needed, one.needed) > 0 ? two : one));
  return {
    asked,
    model: model === null ? null : line.models[model]!.id,
    ...most,
    planTo: divide(most.mean, workingTime),
    chance: chanceWithin(subtract(workingTime, most.mean), most.deviation),
  };
}

function chanceWithin(left: Ratio, deviation: Ratio): Ratio {
  const isWithin = left.num >= 0n;
  if (deviation.num === 0n) return isWithin ? ONE : subtract(ONE, ONE);
  const share = normalShare(divide({ num: isWithin ? left.num : -left.num, den: left.den }, deviation));
  return isWithin ? share : subtract(ONE, share);
}
