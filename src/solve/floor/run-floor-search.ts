import type { Checkpoint } from "../search/fewest-stations.js";
import type { BlockPlan, Work } from "../work.js";
import { FloorSearch, type FloorSearchLimits } from "./floor-search.js";
import type { Aim, Cost } from "./floor-state.js";

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
  const search = new FloorSearch(problem, ceiling, limits, aim);
  for (const ended of search.stretches()) {
    if (ended !== null) return { plan: search.best, ended, nodes: search.nodes };
    const reason = await checkpoint(search.nodes, search.best);
    if (reason !== null) return { plan: search.best, ended: reason, nodes: search.nodes };
  }
  throw new Error("a search that does not end");
}

/** About 300 MB for a line of 100 tasks. */
export const MOST_FLOOR_STATES = 1_000_000;
