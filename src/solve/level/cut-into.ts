import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";

/**
 * The plan with exactly `count` stations and none of them empty: again and again the longest station with more than one
 * task is cut where its halves are nearest. There must be at least as many tasks as stations.
 */
export function cutInto(
  count: number,
  times: readonly number[],
  before: readonly (readonly number[])[],
  plan: Stations,
): number[][] {
  const problem = { times, before, limit: 1 };
  const weights = positionalWeights(problem);
  const stations = plan
    .filter((tasks) => tasks.length > 0)
    .map((tasks) => orderOfWork(problem, weights, tasks));
  const load = (tasks: readonly number[]) => tasks.reduce((sum, task) => sum + times[task]!, 0);
  while (stations.length < count) {
    const divisible = stations.filter((tasks) => tasks.length > 1);
    const longest = divisible.reduce((one, two) => (load(two) > load(one) ? two : one));
    const gap = (at: number) => Math.abs(load(longest.slice(0, at)) - load(longest.slice(at)));
    let cut = 1;
    for (let at = 2; at < longest.length; at++) if (gap(at) < gap(cut)) cut = at;
    stations.splice(stations.indexOf(longest), 1, longest.slice(0, cut), longest.slice(cut));
  }
  return stations;
}
