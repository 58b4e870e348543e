import type { SideLimits, SideProblem, SideSchedule } from "./side-problem.js";
import { SideSearch } from "./side-search.js";

/**
 * Whether the tasks fit one station of a wide product within its limits, and how: the tasks of a side follow each other, and a task
 * waits for the tasks before it at the same station. Loads by side alone prove nothing, so starts are searched: every schedule
 * without needless waiting comes up by putting the tasks one after another to the earliest time (active schedules, Giffler &
 * Thompson 1960). One person is preferred to two, then the earlier finish of the mean.
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
  let finish = 0;
  for (const task of tasks) {
    starts.push(finish);
    finish += problem.loads[task]!;
  }
  const ofModel = (loads: readonly number[]) => tasks.reduce((sum, task) => sum + loads[task]!, 0);
  const longestModel = Math.max(0, ...problem.models.map(ofModel));
  if (finish > limits.mean || longestModel > limits.model) return null;
  return { tasks, sides: tasks.map(() => side), starts, finish, longestModel, crew: 1 };
}
