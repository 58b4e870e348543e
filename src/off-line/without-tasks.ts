import type { Line } from "../line/line.js";

/** The line that remains when tasks are taken off it, with the tasks numbered anew in the same order. */
export function withoutTasks(line: Line, taken: readonly number[]): Line {
  const gone = new Set(taken);
  const kept = line.tasks.map((_, task) => task).filter((task) => !gone.has(task));
  const numberOf = new Map(kept.map((task, at) => [task, at]));
  return {
    ...line,
    tasks: kept.map((task) => line.tasks[task]!),
    before: kept.map((task) => line.before[task]!.flatMap((earlier) => numberOf.get(earlier) ?? [])),
  };
}
