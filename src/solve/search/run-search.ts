import type { Aim, Cost } from "../cost.js";
import { rulesOf } from "../station/task-rules.js";
import type { BlockPlan, Work } from "../work.js";
import { type Start, TwoWaySearch } from "./two-way-search.js";

export interface SearchLimits {
  /** Partial plans looked at; closing stations has a share, each direction half of the rest, whatever the other does. */
  readonly nodes: number;
  /** Partial plans remembered, shared in the same way. */
  readonly memory: number;
  /** Any plan below the ceiling will do. */
  readonly firstOnly?: true;
}

/** How a search ended. "proved": nothing is cheaper than the best plan, or than the ceiling where there is no plan. */
export type SearchEnd = "proved" | "first" | "nodes" | "time" | "interrupted" | "memory";

/** The watch ended the search. */
export const isOver = (ended: SearchEnd): ended is "time" | "interrupted" =>
  ended === "time" || ended === "interrupted";

/** What a search came to. */
export interface CheapestPlan {
  /** The best plan known; null where none was given and none was found. */
  readonly plan: BlockPlan | null;
  /** Proved: no plan is cheaper. */
  readonly bound: Cost;
  readonly ended: SearchEnd;
  readonly nodes: number;
}

/** Asked every few milliseconds of work: a reason to stop, or null to go on. */
export type SearchWatch = (
  progress: Pick<TwoWaySearch, "nodes" | "best" | "ceiling" | "bound">,
) => Promise<"time" | "interrupted" | null> | ("time" | "interrupted" | null);

/**
 * The cheapest plan of a work: the only place where a search is run to its end. The answer depends on the work, the start and the limits
 * alone, unless the watch stops the search. Throws TimesTooLargeError when sums of times may not be exact.
 */
export async function runSearch(
  work: Work,
  start: Start,
  { firstOnly, ...limits }: SearchLimits,
  watch: SearchWatch,
): Promise<CheapestPlan> {
  // To set a search up takes seconds on a long line.
  const { plan, ceiling, least } = start;
  const early = await watch({ nodes: 0, best: plan, ceiling, bound: least });
  if (early !== null) return { plan, bound: least, ended: early, nodes: 0 };
  const search = new TwoWaySearch(work, start, limits);
  const answer = (ended: SearchEnd) => ({
    plan: search.best,
    bound: search.bound,
    ended,
    nodes: search.nodes,
  });
  for (const ended of search.stretches()) {
    if (firstOnly && search.best !== null) return answer("first");
    if (ended !== null) return answer(ended);
    const reason = await watch(search);
    if (reason !== null) return answer(reason);
  }
  return answer("proved");
}

/** The cheapest plan below a ceiling, with nothing known beforehand; null where none was found. */
export function runSearchBelow(
  work: Work,
  ceiling: Cost,
  aim: Aim,
  limits: SearchLimits,
  watch: SearchWatch,
): Promise<CheapestPlan> {
  const least = { people: 0, stations: 0 };
  return runSearch(work, { ceiling, aim, least, plan: null }, limits, watch);
}

/** The partial plans that may be remembered of a work: fewer where each carries what its stations hand on. */
export const mostStates = (work: Work): number => (rulesOf(work) === null ? MOST_STATES : MOST_RULED_STATES);

/** About 350 MB for a line of 100 tasks, 1 GB for one of 1,000. */
export const MOST_STATES = 4_000_000;

/** About 300 MB for a line of 100 tasks that asks more of its stations than time. */
export const MOST_RULED_STATES = 1_000_000;
