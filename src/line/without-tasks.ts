import type { Line, Task } from "./line.js";

/**
 * The line that remains when tasks are taken off it, with the tasks numbered anew in the same order. What the rules say of the
 * tasks that stay is kept; loads stay as they are, also where a test sends units back.
 */
export function withoutTasks(line: Line, taken: readonly number[]): Line {
  // A wide product stays one, also where no task that stays says its side.
  const isSided = line.tasks.some(({ side }) => side !== null);
  const withSide = (task: Task): Task => (isSided ? { ...task, side: task.side ?? "either" } : task);
  const gone = new Set(taken);
  const kept = line.tasks.map((_, task) => task).filter((task) => !gone.has(task));
  const numberOf = new Map(kept.map((task, at) => [task, at]));
  const groups = (all: readonly (readonly number[])[]) =>
    all.map((tasks) => tasks.flatMap((task) => numberOf.get(task) ?? [])).filter((tasks) => tasks.length > 1);
  return {
    ...line,
    // Benches may keep all there is of what no task needs any more.
    equipment: new Map([...line.equipment].filter(([name]) => kept.some((task) => needs(line, task, name)))),
    tasks: kept.map((task) => renumberTest(withSide(line.tasks[task]!), numberOf)),
    before: kept.map((task) => line.before[task]!.flatMap((earlier) => numberOf.get(earlier) ?? [])),
    waits: line.waits.flatMap((wait) => {
      const [from, to] = [numberOf.get(wait.from), numberOf.get(wait.to)];
      return from === undefined || to === undefined ? [] : [{ ...wait, from, to }];
    }),
    benches: line.benches.flatMap((bench) => {
      const tasks = bench.tasks.flatMap((task) => numberOf.get(task) ?? []);
      return tasks.length === 0 ? [] : [{ ...bench, tasks }];
    }),
    together: groups(line.together),
    apart: groups(line.apart),
  };
}

const needs = (line: Line, task: number, name: string): boolean => line.tasks[task]!.equipment.includes(name);

/** A test whose failures go back to a task that left the line is no test of this line any more. */
function renumberTest(task: Task, numberOf: ReadonlyMap<number, number>): Task {
  if (task.test === null || task.test.failures === "scrapped") return task;
  const returnTo = numberOf.get(task.test.returnTo);
  return { ...task, test: returnTo === undefined ? null : { ...task.test, returnTo } };
}
