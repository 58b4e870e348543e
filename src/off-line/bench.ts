import type { Pace } from "../time/pace.js";
import { add, ceiling, divide, type Ratio, ratio } from "../time/ratio.js";

/**
 * The fewest places at which a bench builds one block for every unit: each place takes a whole block
 * in turn. From places x line cycle - handling >= work / plan-to.
 */
export function placesFor(pace: Pace, work: Ratio): number {
  const needed = add(divide(work, pace.planTo), ratio(pace.handling));
  return Math.max(1, Number(ceiling(divide(needed, pace.lineCycle))));
}

/** Into how many equal parts, at the least, a task must be split for each to fit the station limit. */
export function partsFor(pace: Pace, taskTime: Ratio): number {
  return Number(ceiling(divide(taskTime, pace.stationLimit)));
}
