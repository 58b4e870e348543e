import type { Line } from "../line/line.js";
import { add, larger, type Ratio, ZERO } from "../time/ratio.js";
import type { Station } from "./plan.js";

/** What a task takes of its station for one unit, in microseconds. */
export type Takes = (task: number) => Ratio;

const loadsOf =
  (line: Line): Takes =>
  (task) =>
    line.tasks[task]!.load;

/**
 * When each task of a station with sides starts, from the arrival of the unit, in microseconds; parallel to the station's
 * tasks. A task starts when its side is free and the tasks before it at the same station have ended. null without sides.
 */
export function taskStarts(line: Line, station: Station, takes: Takes = loadsOf(line)): Ratio[] | null {
  const { sides } = station;
  if (sides === null) return null;
  const free = { left: ZERO, right: ZERO };
  const ends = new Map<number, Ratio>();
  return station.tasks.map((task, at) => {
    const used =
      sides[at] === "both" ? (["left", "right"] as const) : ([sides[at] as "left" | "right"] as const);
    const start = [
      ...used.map((side) => free[side]),
      ...line.before[task]!.map((earlier) => ends.get(earlier) ?? ZERO),
    ].reduce(larger);
    const end = add(start, takes(task));
    ends.set(task, end);
    for (const side of used) free[side] = end;
    return start;
  });
}

/** How long a unit stays at a station: the latest end of a task where it has sides, else the sum, in microseconds. */
export function timeAt(line: Line, station: Station, takes: Takes = loadsOf(line)): Ratio {
  const starts = taskStarts(line, station, takes);
  if (starts === null) return station.tasks.map(takes).reduce(add, ZERO);
  return starts.map((start, at) => add(start, takes(station.tasks[at]!))).reduce(larger, ZERO);
}
