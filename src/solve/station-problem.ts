import type { Line } from "../line/line.js";
import { handlingAt } from "../line/passes.js";
import type { Pace } from "../time/pace.js";
import { compare, floor, multiply, ONE, type Ratio, ratio, subtract } from "../time/ratio.js";
import { loadsInParts, partsOf } from "./parts.js";
import type { StationProblem } from "./problem.js";

/** Tasks that no ordinary station holds, as task numbers of the line. */
export interface LongTasks {
  /** Longer than the station limit, yet within the working time: placed alone, with a warning. */
  readonly overLimit: readonly number[];
  /** Longer than the working time: impossible at one place. */
  readonly overWorkingTime: readonly number[];
}

export function findLongTasks(line: Line, pace: Pace): LongTasks {
  const above = (share: Ratio) => {
    const limitOf = (task: number) =>
      multiply(subtract(pace.lineCycle, handlingAt(line, pace, [task])), share);
    return line.tasks.flatMap((task, at) => (compare(task.load, limitOf(at)) > 0 ? [at] : []));
  };
  const overWorkingTime = above(ONE);
  const overLimit = above(pace.planTo).filter((task) => !overWorkingTime.includes(task));
  return { overLimit, overWorkingTime };
}

/** Tasks that no station can hold: over the working time, or over the station limit where that is strict. */
export function findImpossibleTasks(line: Line, pace: Pace, strictLimit: boolean): number[] {
  const { overLimit, overWorkingTime } = findLongTasks(line, pace);
  return strictLimit
    ? [...overWorkingTime, ...overLimit].sort((one, two) => one - two)
    : [...overWorkingTime];
}

/**
 * The line as the solvers see it, in parts of a microsecond (`partsOf`). Loads are whole parts, so the station limit may be
 * rounded down without changing what fits. A task over the limit counts as a full station: it stands alone.
 */
export function toStationProblem(line: Line, pace: Pace): StationProblem {
  const whole = floor(multiply(pace.stationLimit, ratio(partsOf(line))));
  const largest = BigInt(Number.MAX_SAFE_INTEGER);
  const limit = Math.max(1, Number(whole < largest ? whole : largest));
  return { times: loadsInParts(line).map((load) => Math.min(load, limit)), limit, before: line.before };
}
