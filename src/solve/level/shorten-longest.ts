import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import type { PlanRules } from "../search/cycle-problem.js";
import { Arrangement } from "./arrangement.js";
import { cutInto } from "./cut-into.js";
import { Sharing } from "./share-anew.js";
import { swapTasks } from "./swap-tasks.js";

/**
 * A plan with `count` stations at most and a longest station no longer than before: cut into as many as there may be, tasks
 * swapped, and then the longest station shares its tasks with each other one until nothing makes it shorter.
 */
export function shortenLongest(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
  plan: Stations,
  rules: PlanRules | null = null,
): Stations {
  const problem = { times, before, limit: 1 };
  const order = orderOfWork(problem, positionalWeights(problem), times.keys());
  const stations = cutInto(Math.min(count, times.length), times, before, plan);
  const arrangement = new Arrangement(times, before, stations, rules);
  const sharing = new Sharing(arrangement, order, MOST_STEPS);
  do swapTasks(arrangement);
  while (shareLongest(arrangement, sharing));
  return arrangement.plan();
}

/** True when the longest station, the first of several, gave something to another one. */
function shareLongest(arrangement: Arrangement, sharing: Sharing): boolean {
  const { loads, longest } = arrangement;
  const from = loads.indexOf(longest);
  const others = [...loads.keys()].filter((station) => station !== from);
  return others
    .sort((one, two) => loads[one]! - loads[two]! || one - two)
    .some((other) => sharing.share(Math.min(from, other), Math.max(from, other)));
}

const MOST_STEPS = 2000;
