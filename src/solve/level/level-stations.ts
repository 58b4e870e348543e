import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { StationProblem, Stations } from "../problem.js";
import { commonDivisor } from "../search/exact-sums.js";
import type { Checkpoint, SearchLimits } from "../search/fewest-stations.js";
import { type LeastLimitAnswer, type LeastLimitBound, leastLimit } from "../search/least-limit.js";
import { Arrangement } from "./arrangement.js";
import { cutInto } from "./cut-into.js";
import { shareAnew } from "./share-anew.js";
import { MOST_TASKS, SmoothestPlan } from "./smoothest-plan.js";
import { evenestGaps, squaredGaps } from "./squared-gaps.js";
import { swapTasks } from "./swap-tasks.js";

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
  /** Partial plans looked at for both aims. */
  readonly nodes: number;
  /** How the search for the least slowest station ended. */
  readonly ended: LeastLimitAnswer["ended"];
}

/**
 * Evens out a plan without changing its number of stations: first the shortest longest station, then, with no station above
 * it, the least sum of squared gaps to it. That sum is lowered by moves and swaps of tasks from the plan given and from the one
 * with the shortest longest station; small lines are looked through completely, in at most MOST_NODES nodes. The longest
 * station is never longer than the plan's, and where it is as long, the gaps are never more uneven.
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
  const least =
    count > 0
      ? await leastLimit(times, before, count, { ...limits, first }, checkpoint)
      : await leastLimit(times, before, 1, limits, checkpoint);
  const weights = positionalWeights(problem);
  const order = orderOfWork(problem, weights, times.keys());
  const evened = [first, least.stations]
    .map((start) => new Arrangement(times, before, cutInto(count, times, before, start)))
    .map((arrangement) => evenOut(arrangement, order))
    .reduce((one, two) => (isSmoother(two, one) ? two : one));
  const slowest = evened.longest;
  const proved = slowest === least.bound;

  const found = { stations: evened.plan(), gaps: squaredGaps(evened.loads, slowest) };
  const idle = evened.loads.reduce((sum, load) => sum + BigInt(slowest - load), 0n);
  let bound = evenestGaps(idle, Math.max(count - 1, 0), BigInt(commonDivisor(times)));
  let nodes = least.nodes;
  if (proved && found.gaps > bound && times.length <= MOST_TASKS) {
    const most = Math.min(MOST_NODES, limits.nodes - nodes);
    const search = new SmoothestPlan(times, before, count, slowest, found.gaps, most);
    search.run();
    nodes += search.nodes;
    if (search.best !== null) {
      found.stations = search.best;
      found.gaps = search.known;
    }
    if (search.exhausted) bound = found.gaps;
  }
  const empty = Array.from({ length: plan.length - count }, () => []);
  return {
    stations: [...found.stations.map((tasks) => orderOfWork(problem, weights, tasks)), ...empty],
    slowest,
    slowestBound: least.bound,
    certificate: least.certificate,
    outcome: proved ? "proved" : "found",
    squaredGaps: found.gaps,
    squaredGapsBound: bound,
    smoothness: proved && found.gaps === bound ? "proved" : "found",
    nodes,
    ended: proved ? "proved" : least.ended,
  };
}

const MOST_NODES = 200_000;

/** Each step lowers a sum of whole numbers, so this ends; the rounds are bounded to end soon. */
function evenOut(arrangement: Arrangement, order: readonly number[]): Arrangement {
  for (let round = 0; round < MOST_ROUNDS; round++) {
    swapTasks(arrangement);
    if (!shareAnew(arrangement, order)) break;
  }
  return arrangement;
}

const MOST_ROUNDS = 20;

function isSmoother(one: Arrangement, two: Arrangement): boolean {
  if (one.longest !== two.longest) return one.longest < two.longest;
  return squaredGaps(one.loads, one.longest) < squaredGaps(two.loads, two.longest);
}
