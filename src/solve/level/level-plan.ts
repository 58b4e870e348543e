import { inOrderOfWork } from "../order-of-work.js";
import {
  type CycleBound,
  type CycleProblem,
  mostStations,
  type StationTimes,
} from "../search/cycle-problem.js";
import { type CycleWatch, findLeastCycle, type LeastCycle } from "../search/least-cycle-search.js";
import type { BlockPlan } from "../work.js";
import { cutInto } from "./cut-into.js";
import { SmoothSearch } from "./smooth-search.js";
import { smoothWork } from "./smooth-work.js";

export interface LevelAnswer {
  /** No dearer than before, blocks of each station in order of work. */
  readonly plan: BlockPlan;
  /** In steps of the problem. */
  readonly cycle: bigint;
  /** No plan that counts has a shorter one, and why. */
  readonly bound: CycleBound;
  /** "proved": the cycle is that of the bound. */
  readonly outcome: "proved" | "found";
  /** "proved": the cycle is, and no plan with it has less idle time squared. */
  readonly smoothness: "proved" | "found";
  /** Partial plans looked at, and pairs of stations that shared their tasks anew, for both aims. */
  readonly nodes: number;
  /** How the search for the least cycle ended. */
  readonly ended: LeastCycle["ended"];
}

/**
 * Evens out a plan: first the shortest cycle, then, with no station above it, the least sum of squared gaps to it. That sum is
 * lowered from the plan given and from the one with the shortest cycle, by moves and swaps of tasks and by shaking the plan; small lines
 * that ask nothing but time are looked through completely. The cycle is never longer than the plan's, and where it is as long, the gaps
 * are never more uneven.
 */
export async function levelPlan(
  problem: CycleProblem,
  plan: BlockPlan,
  limits: { readonly nodes: number; readonly memory: number },
  watch: CycleWatch,
): Promise<LevelAnswer> {
  const first = plan.filter(({ blocks }) => blocks.length > 0);
  const least = await findLeastCycle(problem, first, limits, watch);
  const { time } = problem;
  const smooth =
    time === null
      ? await smoothShared(problem, least, watch)
      : await smoothStations(problem, time, first, least, limits.nodes, watch);
  // Not proved shortest, the cycle may have come down by the way.
  const cycle = problem.cycleOf(smooth.plan, least.cycle);
  const isProved = least.bound.cycle >= cycle;
  return {
    plan: inOrderOfWork(problem.workAt(cycle), smooth.plan),
    cycle,
    bound: least.bound,
    outcome: isProved ? "proved" : "found",
    smoothness: smooth.isProved ? "proved" : "found",
    nodes: smooth.nodes,
    ended: isProved ? "proved" : least.ended,
  };
}

interface Smooth {
  readonly plan: BlockPlan;
  readonly isProved: boolean;
  readonly nodes: number;
}

/** Places or sides share the time of stations. */
async function smoothShared(
  problem: CycleProblem,
  { plan, cycle, bound, nodes, ended }: LeastCycle,
  watch: CycleWatch,
): Promise<Smooth> {
  const isOver = async () =>
    ended === "interrupted" || (await watch({ nodes, best: cycle, bound: bound.cycle })) !== null;
  return { plan: await smoothWork(problem, plan, cycle, isOver), isProved: false, nodes };
}

async function smoothStations(
  problem: CycleProblem,
  time: StationTimes,
  first: BlockPlan,
  least: LeastCycle,
  mostNodes: number,
  watch: CycleWatch,
): Promise<Smooth> {
  const { plan, cycle, bound } = least;
  const { times, before, isAll } = time;
  // Where more is asked than time, another plan stands elsewhere.
  const count = isAll ? Math.min(mostStations(problem), times.length) : plan.length;
  const starts = (isAll ? [first, plan] : [plan]).map((each) => {
    const stations = time.stationsOf(each);
    return isAll ? cutInto(count, times, before, stations) : stations;
  });
  const positions = plan.map(({ position }) => position);
  const limit = isAll ? time.limitAt(bound.cycle) : null;
  const rules = time.rulesAt(positions, cycle);
  const stop = async (nodes: number) => watch({ nodes, best: cycle, bound: bound.cycle });
  const search = await SmoothSearch.open(time, starts, limit, rules, least.nodes, () => stop(least.nodes));
  if (count > 1) await search.run(mostNodes, () => stop(search.nodes));
  return {
    plan: time.planOf(search.best.stations, isAll ? null : positions) ?? plan,
    isProved: search.isProved,
    nodes: search.nodes,
  };
}
