import type { SideLimits, SideProblem, SideSchedule } from "./side-problem.js";
import { SideSearch } from "./side-search.js";

/**
 * Whether the tasks fit one station of a wide product within its limits, and how: the tasks of a side follow each other, and a task
 * waits for the tasks before it at the same station. Loads by side alone prove nothing, so starts are searched: every schedule
 * without needless waiting comes up by putting the tasks one after another to the earliest time (active schedules, Giffler &
 * Thompson 1960). One person is preferred to two, then the earlier finish.
 *
 * @param tasks in an order of work
 */
export function fitSides(
  problem: SideProblem,
  tasks: readonly number[],
  limits: SideLimits,
): SideSchedule | null {
  return onOneSide(problem, tasks, limits) ?? new SideSearch(problem, tasks, limits).run();
}

/** All of it by one person, where no task needs the other side. */
function onOneSide(problem: SideProblem, tasks: readonly number[], limits: SideLimits): SideSchedule | null {
  const wanted = new Set(tasks.map((task) => problem.sides[task]!).filter((side) => side !== "either"));
  if (wanted.size > 1 || wanted.has("both")) return null;
  const side = wanted.has("right") ? "right" : "left";
  const starts: number[] = [];
  const ends = problem.rows.map(() => 0);
  for (const task of tasks) {
    starts.push(sumOf(ends));
    for (const [row, loads] of problem.rows.entries()) ends[row]! += loads[task]!;
  }
  const finish = sumOf(ends);
  if (finish > limits.mean || ends.some((end, row) => end > limits.rows[row]!)) return null;
  return { tasks, sides: tasks.map(() => side), starts, finish, ends, crew: 1 };
}

const sumOf = (ends: readonly number[]): number => ends.reduce((sum, end) => sum + end, 0);
