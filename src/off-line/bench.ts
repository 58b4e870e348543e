import type { Line } from "../line/line.js";
import type { Station } from "../plan/plan.js";
import { stationLimit } from "../plan/station-figures.js";
import type { Pace } from "../time/pace.js";
import { add, ceiling, divide, type Ratio, ratio } from "../time/ratio.js";
import { timeOf } from "./find-blocks.js";

/**
 * The fewest places at which a bench builds one block for every unit: each place takes a whole block
 * in turn. From places x line cycle - handling >= work / plan-to.
 */
export function placesFor(pace: Pace, work: Ratio): number {
  const needed = add(divide(work, pace.planTo), ratio(pace.handling));
  return Math.max(1, Number(ceiling(divide(needed, pace.lineCycle))));
}

/** A bench that builds the given tasks, with as many places as the pace needs and the people whom its tasks need together. */
export function benchFor(line: Line, pace: Pace, tasks: readonly number[], id: string): Station {
  const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
  return { id, tasks, sides: null, places: placesFor(pace, timeOf(line, tasks)), crew };
}

/** Share of the bench's limit that its work fills; 1 is full. */
export function benchLoad(line: Line, pace: Pace, bench: Station) {
  return divide(timeOf(line, bench.tasks), stationLimit(line, pace, bench));
}

/** The line cycle at which one place just holds a task: task time / plan-to + handling, in microseconds. */
export function lineCycleFor(pace: Pace, taskTime: Ratio) {
  return add(divide(taskTime, pace.planTo), ratio(pace.handling));
}

/** Into how many equal parts, at the least, a task must be split for each to fit the station limit. */
export function partsFor(pace: Pace, taskTime: Ratio): number {
  return Number(ceiling(divide(taskTime, pace.stationLimit)));
}
