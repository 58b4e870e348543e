import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { StationProblem, Stations } from "../problem.js";
import type { Checkpoint, SearchLimits } from "../search/fewest-stations.js";
import { type LeastLimitAnswer, type LeastLimitBound, leastLimit } from "../search/least-limit.js";
import { cutInto } from "./cut-into.js";
import { SmoothSearch } from "./smooth-search.js";

export interface LevelAnswer {
  /** As many stations as before, tasks of each in order of work; empty ones only where there are fewer tasks than stations. */
  readonly stations: Stations;
  /** The longest station time of the plan. */
  readonly slowest: number;
  /** No plan with so many stations has a shorter longest station, and why. */
  readonly slowestBound: number;
  readonly certificate: LeastLimitBound;
  /** "proved": `slowest` is `slowestBound`. */
  readonly outcome: "proved" | "found";
  /** The sum, over the stations with tasks, of the squared gaps to `slowest`. */
  readonly squaredGaps: bigint;
  /** No plan with so many stations whose longest is `slowest` has a smaller sum of squared gaps. */
  readonly squaredGapsBound: bigint;
  /** "proved": the slowest station is, and `squaredGaps` is `squaredGapsBound`. */
  readonly smoothness: "proved" | "found";
  /** Partial plans looked at, and pairs of stations that shared their tasks anew, for both aims. */
  readonly nodes: number;
  /** How the search for the least slowest station ended. */
  readonly ended: LeastLimitAnswer["ended"];
}

/**
 * Evens out a plan without changing its number of stations: first the shortest longest station, then, with no station above
 * it, the least sum of squared gaps to it. That sum is lowered from the plan given and from the one with the shortest longest
 * station, by moves and swaps of tasks and by shaking the plan; small lines are looked through completely. The longest station
 * is never longer than the plan's, and where it is as long, the gaps are never more uneven.
 */
export async function levelStations(
  problem: StationProblem,
  plan: Stations,
  limits: SearchLimits,
  checkpoint: Checkpoint,
): Promise<LevelAnswer> {
  const { times, before } = problem;
  const count = Math.min(plan.length, times.length);
  const first = plan.filter((tasks) => tasks.length > 0);
  const least = await leastLimit(times, before, Math.max(count, 1), { ...limits, first }, checkpoint);
  const starts = [first, least.stations].map((start) => cutInto(count, times, before, start));
  const search = new SmoothSearch(times, before, starts, least);
  if (count > 1) {
    const asked = async () =>
      checkpoint({ nodes: search.nodes, best: search.best.slowest, bound: least.bound });
    await search.run(limits.nodes, asked);
  }
  const { slowest, gaps, stations } = search.best;
  const weights = positionalWeights(problem);
  const proved = slowest === least.bound;
  const empty = Array.from({ length: plan.length - count }, () => []);
  return {
    stations: [...stations.map((tasks) => orderOfWork(problem, weights, tasks)), ...empty],
    slowest,
    slowestBound: least.bound,
    certificate: least.certificate,
    outcome: proved ? "proved" : "found",
    squaredGaps: gaps,
    squaredGapsBound: search.bound,
    smoothness: search.isProved ? "proved" : "found",
    nodes: search.nodes,
    ended: proved ? "proved" : least.ended,
  };
}
