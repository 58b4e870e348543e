import type { Line } from "../line/line.js";
import { add, larger, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { Station } from "./plan.js";

/** What a task takes of its station for one unit, in microseconds. */
export type Takes = (task: number) => Ratio;

/** (Task time + walking) x visits of one model, 0 for a task that it does not have. */
export function takesOfModel(line: Line, model: number): Takes {
  return (task) => {
    const { times, walking, visits } = line.tasks[task]!;
    const column = times.length === 1 ? 0 : model;
    const handTime = times[column]!;
    return handTime === null ? ZERO : multiply(ratio(handTime + walking), visits[column]!);
  };
}

/**
 * When each task of a station with sides starts, from the arrival of the unit, in microseconds; parallel to the station's
 * tasks. A task starts when its side is free and the tasks before it at the same station have ended. Each model has starts of its
 * own: these are the share-weighted mean of them, with a task that a model does not have as one of no time. null without sides.
 */
export function taskStarts(line: Line, station: Station): Ratio[] | null {
  if (station.sides === null) return null;
  const byModel = rowsOf(line).map(({ share, takes }) =>
    startsOf(line, station, takes).map((start) => multiply(share, start)),
  );
  return station.tasks.map((_, at) => byModel.map((starts) => starts[at]!).reduce(add, ZERO));
}

/**
 * How long units stay at a station on average, in microseconds: the sum of the loads; where it has sides, the share-weighted mean
 * over the models of the latest end of a task. Each model waits for its own longer side, so this is never less than the latest end
 * of mean times.
 */
export function meanTimeAt(line: Line, station: Station): Ratio {
  if (station.sides === null) return station.tasks.map(loadsOf(line)).reduce(add, ZERO);
  return rowsOf(line)
    .map(({ share, takes }) => multiply(share, timeAt(line, station, takes)))
    .reduce(add, ZERO);
}

/** How long a unit stays at a station: the latest end of a task where it has sides, else the sum, in microseconds. */
export function timeAt(line: Line, station: Station, takes: Takes): Ratio {
  if (station.sides === null) return station.tasks.map(takes).reduce(add, ZERO);
  return startsOf(line, station, takes)
    .map((start, at) => add(start, takes(station.tasks[at]!)))
    .reduce(larger, ZERO);
}

const loadsOf =
  (line: Line): Takes =>
  (task) =>
    line.tasks[task]!.load;

/** The models with their shares of the units; a line without models builds one. */
function rowsOf(line: Line): readonly { readonly share: Ratio; readonly takes: Takes }[] {
  if (line.models.length === 0) return [{ share: ONE, takes: loadsOf(line) }];
  return line.models.map(({ share }, model) => ({ share, takes: takesOfModel(line, model) }));
}

function startsOf(line: Line, { tasks, sides }: Station, takes: Takes): Ratio[] {
  const free = { left: ZERO, right: ZERO };
  const ends = new Map<number, Ratio>();
  return tasks.map((task, at) => {
    const used =
      sides![at] === "both" ? (["left", "right"] as const) : ([sides![at] as "left" | "right"] as const);
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
