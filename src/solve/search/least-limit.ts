import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import { requireExactSums } from "./exact-sums.js";
import { type Checkpoint, MOST_STATES, type SearchLimits } from "./fewest-stations.js";
import type { LeastLimitBound } from "./least-limit-bound.js";
import { LeastLimitSearch } from "./least-limit-search.js";

export type { LeastLimitBound } from "./least-limit-bound.js";

export interface LeastLimitAnswer {
  /** At most as many stations as asked for, none empty; tasks of a station in order of work. */
  readonly stations: Stations;
  /** The longest station time of the plan. */
  readonly limit: number;
  /** No plan with so many stations has a shorter longest station. */
  readonly bound: number;
  readonly certificate: LeastLimitBound;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted" | "memory";
}

export interface LeastLimitLimits extends SearchLimits {
  /** A valid plan with at most so many stations, to improve on. */
  readonly first?: Stations;
}

/**
 * The shortest longest station of a plan with at most `count` stations (SALBP-2: Scholl, Balancing and Sequencing of
 * Assembly Lines, 1999; Klein & Scholl 1996), in the whole units of `times`. `before` holds each task's direct
 * predecessors. The checkpoint's `best` and `bound` are limits. The answer depends on the arguments alone, unless the
 * checkpoint stops the search. Throws RangeError when `count` is no whole number from 1, and TimesTooLargeError when sums
 * of the task times may not be exact.
 */
export async function leastLimit(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
  limits: LeastLimitLimits,
  checkpoint: Checkpoint,
): Promise<LeastLimitAnswer> {
  if (!Number.isSafeInteger(count) || count < 1)
    throw new RangeError(`stations: ${count}, expected a whole number from 1`);
  const whole = { times, limit: 1, before };
  requireExactSums(whole);
  const memory = limits.memory ?? MOST_STATES;
  const search = new LeastLimitSearch(times, before, count, { ...limits, memory });
  let ended: LeastLimitAnswer["ended"] = "proved";
  for (const ranOut of search.stretches()) {
    const { nodes, limit, bound } = search;
    const reason = ranOut ?? (await checkpoint({ nodes, best: limit, bound: bound.limit }));
    if (reason === null) continue;
    ended = reason;
    break;
  }
  const weights = positionalWeights(whole);
  return {
    stations: search.best.map((tasks) => orderOfWork(whole, weights, tasks)),
    limit: search.limit,
    bound: search.bound.limit,
    certificate: search.bound,
    nodes: search.nodes,
    ended,
  };
}
