import { add, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import type { Task } from "./line.js";

/**
 * What a task adds to its station per good unit, in microseconds: the share-weighted mean of task time and walking over the models
 * that have the task, x visits. `shares` are those of the models, or the one of a line that builds one.
 */
export function loadOf(
  { times, walking, visits }: Pick<Task, "times" | "walking" | "visits">,
  shares: readonly Ratio[],
): Ratio {
  return times
    .map((time, model) =>
      time === null ? ZERO : multiply(multiply(shares[model]!, ratio(time + walking)), visits[model]!),
    )
    .reduce(add, ZERO);
}
