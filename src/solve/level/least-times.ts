import { allFollowers } from "../../line/reach.js";
import type { ScheduleProblem } from "../station/schedule/schedule-problem.js";
import { meanOf } from "../station/schedule.js";

/**
 * What each task takes of how long a unit stands at its station, at the least, wherever it stands: its hands, and of the time that its
 * machine runs what neither the hands nor the machines of any unrelated task can fill. While the machine runs, whatever comes before the
 * task has ended and whatever comes after it has not begun, so only unrelated tasks may go on; and the times in which nothing goes on but
 * the machine of one task are no part of those of another. So these times of the tasks of a station add up to no more than it takes.
 * They hold where one unit stands at a time and all its people are at one task. Ours.
 */
export function leastTimes(problem: ScheduleProblem): number[] {
  const own = problem.people.map((_, task) => meanOf(problem, task));
  const all = own.reduce((sum, { hands, machines }) => sum + hands + machines, 0);
  const followers = allFollowers(problem.before);
  const tasks = [...own.keys()];
  return own.map(({ hands, machines }, task) => {
    if (machines === 0) return hands;
    const related = tasks.filter(
      (each) => each === task || followers.has(task, each) || followers.has(each, task),
    );
    const others = related.reduce((rest, each) => rest - own[each]!.hands - own[each]!.machines, all);
    return hands + Math.max(0, machines - others);
  });
}
