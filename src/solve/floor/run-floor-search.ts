import type { Aim, Cost } from "../cost.js";
import type { Checkpoint } from "../search/fewest-stations.js";
import { type CheapestPlan, runSearch, type SearchLimits } from "../search/run-search.js";
import type { BlockPlan, Work } from "../work.js";

/** A plan below a ceiling, from nothing: null where none was found. */
export async function runFloorSearch(
  problem: Work,
  ceiling: Cost,
  aim: Aim,
  limits: SearchLimits,
  checkpoint: (nodes: number, best: BlockPlan | null) => ReturnType<Checkpoint>,
): Promise<CheapestPlan> {
  const start = { ceiling, aim, least: { people: 0, stations: 0 }, plan: null };
  return runSearch(problem, start, limits, ({ nodes, best }) => checkpoint(nodes, best));
}

/** About 300 MB for a line of 100 tasks. */
export const MOST_FLOOR_STATES = 1_000_000;
