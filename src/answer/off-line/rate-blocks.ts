import { shiftsOf } from "../../benches/bench-hours.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import type { Line } from "../../line/line.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Pace } from "../../time/pace.js";
import type { RestBalancer } from "./balance-rest.js";
import type { RatedBlock } from "./off-line-answer.js";
import { comparePeople, type OffLinePlan, planWithBenches, rankedOf } from "./plan-with-benches.js";
import { compareRanked, type Rank, type RankedFigures } from "./rank-order.js";
import type { RestBound } from "./rest-bound.js";

/** Blocks that are balanced again; of more, those that bounds promise most of. */
const MOST_BALANCED = 300;
/** Blocks have so many times the partial plans of one balance together, but so many at the least; what is left then is bounded. */
const BALANCES = 2;
const LEAST_IN_ALL = 100_000;

/** What rating looks at besides the blocks. */
export interface Rating {
  readonly line: Line;
  readonly pace: Pace;
  readonly before: OffLinePlan;
  readonly ranks: readonly Rank[];
  readonly bound: RestBound;
  readonly balancer: RestBalancer;
  /** Partial plans for each balance. */
  readonly nodes: number;
  readonly checkpoint: Watch;
}

export interface RatedBlocks {
  /** Best first in the order of the ranks; what was not balanced stands behind, by its bounds. */
  readonly blocks: readonly RatedBlock[];
  /** Blocks that could not be looked at before the search was stopped. */
  readonly leftOut: number;
}

/** Every block at a bench of its own, balanced again or bounded. */
export async function rateBlocks(rating: Rating, benches: readonly BenchFigures[]): Promise<RatedBlocks> {
  const { ranks, checkpoint, balancer } = rating;
  const most = balancer.nodes + Math.max(LEAST_IN_ALL, BALANCES * rating.nodes);
  const promising = benches
    .map((bench) => ({ bench, least: leastOf(rating, bench) }))
    .sort((one, two) => compareRanked(ranks, one.least, two.least));
  const blocks: RatedBlock[] = [];
  let leftOut = 0;
  for (const [at, { bench, least }] of promising.entries()) {
    const what = { block: at + 1, of: promising.length };
    const best = blocks[0]?.plan?.people ?? rating.before.people ?? "none";
    const isStopped =
      leftOut > 0 || (await checkpoint({ nodes: 0, best, bound: least.stations, what })) !== null;
    if (isStopped) leftOut++;
    blocks.push(
      isStopped || at >= MOST_BALANCED || balancer.nodes >= most
        ? boundBlock(rating, bench)
        : await rateBlock(rating, bench),
    );
  }
  return { blocks: blocks.sort((one, two) => compareBlocks(ranks, one, two)), leftOut };
}

/** One block at a bench, balanced again. */
export async function rateBlock(rating: Rating, bench: BenchFigures): Promise<RatedBlock> {
  const { line, pace, before, balancer } = rating;
  const found = planWithBenches(line, pace, await balancer.of([bench]), [bench]);
  const isUntold = found.plan === null && found.outcome === "infeasible" && found.obstacles.length === 0;
  const plan = isUntold ? { ...found, obstacles: await balancer.whyNot([bench]) } : found;
  return { ...boundBlock(rating, bench), plan, people: comparePeople(line, before, plan) };
}

function boundBlock(rating: Rating, bench: BenchFigures): RatedBlock {
  const gone = rating.bound.weigh(bench.tasks);
  const stations = rating.bound.least("stations", gone);
  const onLine = Math.max(rating.bound.least("people", gone), stations);
  const people = onLine + bench.people + rating.bound.repairPeople;
  return { bench, plan: null, least: { people, stations }, people: null };
}

function leastOf({ line, bound }: Rating, bench: BenchFigures): RankedFigures {
  const gone = bound.weigh(bench.tasks);
  const stations = bound.least("stations", gone);
  const onLine = Math.max(bound.least("people", gone), stations);
  return {
    people: (onLine + bound.repairPeople) * shiftsOf(line) + bench.peopleOfDay,
    stations,
    stock: bench.stock.units ?? 0,
    stockPoints: bench.joinsAt.length,
  };
}

function compareBlocks(ranks: readonly Rank[], one: RatedBlock, two: RatedBlock): number {
  const [first, second] = [rankOf(one), rankOf(two)];
  if (first === null || second === null) {
    const behind = Number(first === null) - Number(second === null);
    return behind || compareRanked(ranks, boundsOf(one), boundsOf(two)) || compareTasks(one, two);
  }
  return compareRanked(ranks, first, second) || compareTasks(one, two);
}

const rankOf = ({ plan }: RatedBlock): RankedFigures | null =>
  plan === null || plan.plan === null ? null : rankedOf(plan);

const boundsOf = ({ bench, least }: RatedBlock): RankedFigures => ({
  ...least,
  stock: bench.stock.units ?? 0,
  stockPoints: bench.joinsAt.length,
});

/** Fewer tasks first, then natural order. */
function compareTasks({ bench: one }: RatedBlock, { bench: two }: RatedBlock): number {
  const at = one.tasks.findIndex((task, index) => task !== two.tasks[index]);
  return one.tasks.length - two.tasks.length || (at < 0 ? 0 : one.tasks[at]! - two.tasks[at]!);
}
