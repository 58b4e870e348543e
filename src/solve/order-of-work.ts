import type { StationProblem } from "./problem.js";

/**
 * Positional weight of every task: its time plus the times of all its direct and indirect followers, each counted
 * once (Helgeson & Birnie 1961). Same units as the task times.
 */
export function positionalWeights(problem: StationProblem): Float64Array {
  const size = problem.times.length;
  const weights = new Float64Array(size);
  const after = tasksAfter(problem);
  const seen = new Int32Array(size).fill(-1);
  for (let task = 0; task < size; task++) {
    const open = [task];
    seen[task] = task;
    for (let at = 0; at < open.length; at++) {
      weights[task]! += problem.times[open[at]!]!;
      for (const next of after[open[at]!]!) {
        if (seen[next] === task) continue;
        seen[next] = task;
        open.push(next);
      }
    }
  }
  return weights;
}

/** For each task, the tasks directly after it, ascending. */
export function tasksAfter(problem: StationProblem): number[][] {
  const after: number[][] = problem.times.map(() => []);
  for (const [task, before] of problem.before.entries())
    for (const earlier of before) after[earlier]!.push(task);
  return after;
}

/**
 * The given tasks in a valid order of work: repeatedly the task whose predecessors among them are done and whose
 * positional weight is greatest, then the longer, then the smaller number. `weights` is `positionalWeights(problem)`.
 */
export function orderOfWork(
  problem: StationProblem,
  weights: Float64Array,
  tasks: Iterable<number>,
): number[] {
  const open = [...tasks].sort((one, two) => precedes(problem, weights, one, two));
  const waiting = new Set(open);
  const ordered: number[] = [];
  while (open.length > 0) {
    const at = open.findIndex((task) => problem.before[task]!.every((earlier) => !waiting.has(earlier)));
    if (at < 0) throw new RangeError("the tasks cannot be put in order: their arrows form a loop");
    const [task] = open.splice(at, 1);
    waiting.delete(task!);
    ordered.push(task!);
  }
  return ordered;
}

function precedes(problem: StationProblem, weights: Float64Array, one: number, two: number): number {
  return weights[two]! - weights[one]! || problem.times[two]! - problem.times[one]! || one - two;
}
