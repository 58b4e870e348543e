import type { Line } from "../line/line.js";
import { multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";

/** What a task takes of its station for one good unit of a model, in microseconds; 0 where the model does not have the task. */
export function modelLoad(line: Line, task: number, model: number): Ratio {
  const { times, walking, visits } = line.tasks[task]!;
  const column = times.length === 1 ? 0 : model;
  const hands = times[column]!;
  return hands === null ? ZERO : multiply(ratio(hands + walking), visits[column]!);
}
