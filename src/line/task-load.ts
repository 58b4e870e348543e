import type { Micros } from "../time/duration.js";
import { add, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import type { Task } from "./line.js";

type HandsAt = Pick<Task, "times" | "walking" | "visits" | "takenOver">;

/**
 * What a task adds to its station per good unit, in microseconds: the share-weighted mean over the models that have the task of what
 * hands do there. `shares` are those of the models, or the one of a line that builds one.
 */
export function loadOf(task: HandsAt, shares: readonly Ratio[]): Ratio {
  return task.times
    .map((_, model) => multiply(shares[model]!, handsPerGoodUnit(task, model)))
    .reduce(add, ZERO);
}

/** The entry of `times` for a model. */
export const columnOf = ({ times }: Pick<Task, "times">, model: number): number =>
  times.length === 1 ? 0 : model;

/** Hands at a task on one unit of a model, done once: task time, walking, parts taken over; 0 where the model does not have it. */
export function handsOnce(task: Omit<HandsAt, "visits">, model: number): Micros {
  const column = columnOf(task, model);
  const time = task.times[column]!;
  if (time === null) return 0;
  const taking = (task.takenOver ?? []).filter(({ often }) => often[column]!.num > 0n);
  return taking.reduce((sum, each) => sum + each.time, time + task.walking);
}

/** The same for one good unit of a model, in microseconds: (task time + walking) x visits, and each take-over as often as there is one. */
export function handsPerGoodUnit(task: HandsAt, model: number): Ratio {
  const column = columnOf(task, model);
  const time = task.times[column]!;
  if (time === null) return ZERO;
  return add(multiply(ratio(time + task.walking), task.visits[column]!), takingOver(task, model));
}

/** Time to take over parts at a task for one good unit of a model, in microseconds. */
export function takingOver(task: Pick<Task, "times" | "takenOver">, model: number): Ratio {
  const column = columnOf(task, model);
  if (task.times[column] === null) return ZERO;
  return (task.takenOver ?? [])
    .map(({ time, often }) => multiply(ratio(time), often[column]!))
    .reduce(add, ZERO);
}

/** What is done of that beyond once on a unit; never below 0: parts that only a share of the units carries are taken to be on all of them. */
export function takingOverAgain(task: Pick<Task, "times" | "every" | "takenOver">, model: number): Ratio {
  const column = columnOf(task, model);
  if (task.times[column] === null) return ZERO;
  return (task.takenOver ?? [])
    .map(({ time, often }) =>
      multiply(ratio(time), larger(ZERO, subtract(often[column]!, ratio(1, task.every)))),
    )
    .reduce(add, ZERO);
}
