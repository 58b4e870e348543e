import { add, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { Task } from "./line.js";

/**
 * What a task adds to its station per good unit, in microseconds: the share-weighted mean of task time and walking over the models
 * that have the task, x visits / every. `shares` are those of the models, or the one of a line that builds one.
 */
export function loadOf(
  { times, walking, visits, every }: Pick<Task, "times" | "walking" | "visits" | "every">,
  shares: readonly Ratio[],
): Ratio {
  const parts = times.map((time, model) =>
    time === null ? ZERO : multiply(shares[model]!, ratio(time + walking)),
  );
  return multiply(parts.reduce(add, ZERO), divide(visits, ratio(every)));
}
