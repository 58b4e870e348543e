import type { Aim, Cost } from "../cost.js";
import type { Checkpoint } from "../search/fewest-stations.js";
import { TwoWaySearch } from "../search/two-way-search.js";
import type { BlockPlan, Work } from "../work.js";

export interface FloorSearchLimits {
  /** Partial plans looked at. */
  readonly nodes: number;
  /** Partial plans remembered. */
  readonly memory: number;
  /** Any plan will do. */
  readonly firstOnly?: true;
}

/** What a search below a ceiling came to. */
export interface FloorSearchAnswer {
  /** The cheapest plan found below the ceiling; null where none was found. */
  readonly plan: BlockPlan | null;
  /** "proved": nothing is cheaper than the plan, or than the ceiling where there is no plan. */
  readonly ended: "proved" | "first" | "nodes" | "time" | "interrupted" | "memory";
  readonly nodes: number;
}

/** Runs a search to its end, asking the checkpoint now and then. */
export async function runFloorSearch(
  problem: Work,
  ceiling: Cost,
  aim: Aim,
  limits: FloorSearchLimits,
  checkpoint: (nodes: number, best: BlockPlan | null) => ReturnType<Checkpoint>,
): Promise<FloorSearchAnswer> {
  const start = { ceiling, aim, least: NOTHING, plan: null };
  const search = new TwoWaySearch(problem, start, limits);
  const answer = (ended: FloorSearchAnswer["ended"]) => ({ plan: search.best, ended, nodes: search.nodes });
  for (const ended of search.stretches()) {
    if (limits.firstOnly && search.best !== null) return answer("first");
    if (ended !== null) return answer(ended);
    const reason = await checkpoint(search.nodes, search.best);
    if (reason !== null) return answer(reason);
  }
  return answer("proved");
}

const NOTHING: Cost = { people: 0, stations: 0 };

/** About 300 MB for a line of 100 tasks. */
export const MOST_FLOOR_STATES = 1_000_000;
