import type { Line } from "../../line/line.js";
import { add, compare, larger, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import type { CycleReason } from "../explain/cycle-facts.js";
import { layOutWork, type WorkLimits } from "../lay-out-work.js";
import { isCountedExactly, mostRounding, partsWithin } from "../parts.js";
import type { Checkpoint } from "../search/fewest-stations.js";
import type { SearchEnd } from "../search/run-search.js";
import { MOST_RULED_STATES, runSearchBelow } from "../search/run-search.js";
import type { BlockPlan } from "../work.js";
import { cycleOfBlocks } from "./cycle-of-work.js";
import { cycleStepsOf, halfWay } from "./cycle-steps.js";
import { leastCycle } from "./least-cycle.js";
import { type LevelAim, smoothWork, toParts } from "./smooth-work.js";

/** A plan whose slowest station is as fast as could be found, with as many people and stations. */
export interface LevelWork {
  readonly plan: BlockPlan;
  /** The cycle of the plan, handling included, in microseconds. */
  readonly slowest: Ratio;
  /** No plan with as many people and stations has a shorter one, and why. */
  readonly bound: Ratio;
  readonly reason: CycleReason;
  readonly outcome: "proved" | "found";
  /** A shorter cycle is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  readonly nodes: number;
  readonly ended: SearchEnd;
}

/**
 * Evens out a plan of a line with shop-floor rules: the shortest cycle that as many people and stations can keep, by halving
 * the interval between what is proved impossible and what is found; then moves and swaps of blocks that bring the stations closer
 * to the slowest.
 */
export async function levelWork(
  line: Line,
  limits: WorkLimits,
  first: BlockPlan,
  { aim, ceiling, mostPeople }: LevelAim,
  nodes: number,
  checkpoint: Checkpoint,
): Promise<LevelWork> {
  const problem = layOutWork(line, limits);
  // A crew is one for the limits that the plan was made under: at longer ones fewer people might do, in more time.
  let plan = first;
  let slowest = cycleOfBlocks(line, problem, limits, plan);
  const isExact = isCountedExactly(line);
  const low = isExact ? problem : layOutWork(line, limits, "down");
  const least = leastCycle(line, low, limits, { people: mostPeople, stations: ceiling.stations - 1 });
  const { coarse, fine } = cycleStepsOf(line, problem, limits, least.cycle);
  let bound = least.cycle;
  let open = bound;
  let [used, ended]: [number, SearchEnd] = [0, "proved"];
  const asked = (looked: number) =>
    checkpoint({ nodes: used + looked, best: toParts(line, slowest), bound: toParts(line, bound) });
  while (compare(open, slowest) < 0 && used < nodes) {
    const half = halfWay(open, slowest, coarse);
    const isLast = compare(subtract(slowest, open), coarse) <= 0 || compare(half, open) < 0;
    const middle = isLast ? subtract(slowest, fine) : half;
    const tried = layOutWork(line, { ...limits, slowest: middle });
    const budget = {
      nodes: Math.max(1, Math.min(nodes - used, Math.ceil(nodes / SHARES))),
      memory: MOST_RULED_STATES,
    };
    const answer = await runSearchBelow(tried, ceiling, aim, budget, ({ nodes: looked }) => asked(looked));
    used += answer.nodes;
    ended = answer.ended;
    if (answer.plan !== null) {
      plan = answer.plan;
      slowest = cycleOfBlocks(line, tried, limits, plan);
    } else {
      if (answer.ended === "proved") bound = larger(bound, add(middle, fine));
      open = add(middle, fine);
    }
    if (answer.ended === "time" || answer.ended === "interrupted") break;
  }
  // With loads rounded up, a cycle is ruled out that plans of true loads may keep: what they cannot keep is asked with loads rounded down.
  if (!isExact) {
    const below = subtract(slowest, mostRounding(line));
    const isAsked = compare(bound, slowest) >= 0 && compare(below, least.cycle) > 0 && used < nodes;
    bound = least.cycle;
    if (isAsked) {
      const budget = { nodes: nodes - used, memory: MOST_RULED_STATES };
      const tried = layOutWork(line, { ...limits, slowest: below }, "down");
      const answer = await runSearchBelow(tried, ceiling, aim, budget, ({ nodes: looked }) => asked(looked));
      used += answer.nodes;
      ended = answer.ended;
      if (answer.plan === null && answer.ended === "proved") bound = below;
    }
  }
  const proved = compare(bound, slowest) >= 0;
  const reason: CycleReason =
    compare(bound, least.cycle) > 0 ? { kind: "rules-search", nodes: used } : least.reason;
  const even = { ...limits, slowest };
  const isOver = async () => ended === "interrupted" || (await asked(0)) !== null;
  const smooth = await smoothWork(line, even, plan, { aim, ceiling }, isOver);
  // Not proved shortest, the cycle may have come down by the way.
  slowest = cycleOfBlocks(line, layOutWork(line, even), limits, smooth);
  const gap = subtract(slowest, bound);
  const isWithin = !isExact && compare(gap, ZERO) > 0 && compare(gap, mostRounding(line)) <= 0;
  return {
    plan: smooth,
    slowest,
    bound: proved ? slowest : bound,
    reason,
    outcome: proved ? "proved" : "found",
    within: isWithin ? partsWithin(slowest, gap) : null,
    nodes: used,
    ended: proved ? "proved" : ended,
  };
}

/** No probe takes more than this part of all partial plans. */
const SHARES = 6;
