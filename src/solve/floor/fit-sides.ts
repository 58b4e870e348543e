import { overAll, type SideLimits, type SideProblem, type SideSchedule } from "./side-problem.js";
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
  const again = problem.again.map((times) => tasks.reduce((sum, task) => sum + times[task]!, 0));
  const left = {
    mean: limits.mean - overAll(problem, again),
    models: limits.models.map((most, model) => most - again[model]!),
  };
  const once = onOneSide(problem, tasks, left) ?? new SideSearch(problem, tasks, left).run();
  if (once === null) return null;
  const ends = once.ends.map((end, model) => end + again[model]!);
  return { ...once, finish: once.finish + overAll(problem, again), ends };
}

/** All of it by one person, where no task needs the other side. */
function onOneSide(problem: SideProblem, tasks: readonly number[], limits: SideLimits): SideSchedule | null {
  const wanted = new Set(tasks.map((task) => problem.sides[task]!).filter((side) => side !== "either"));
  if (wanted.size > 1 || wanted.has("both")) return null;
  const side = wanted.has("right") ? "right" : "left";
  const ends = limits.models.map(() => 0);
  for (const [row, loads] of problem.rows.entries())
    for (const task of tasks) ends[problem.modelOf[row]!]! += loads[task]!;
  const finish = overAll(problem, ends);
  if (finish > limits.mean || ends.some((end, model) => end > limits.models[model]!)) return null;
  return { tasks, sides: tasks.map(() => side), finish, ends, crew: 1 };
}
