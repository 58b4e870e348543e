import type { Cost } from "../../solve/cost.js";
import type { Checkpoint } from "../../solve/search/fewest-stations.js";
import { FewestMoves, type FewestMovesAnswer } from "./fewest-moves.js";
import type { MoveProblem } from "./move-problem.js";

/** Runs the search for the fewest moves to its end, asking the checkpoint now and then. */
export async function runFewestMoves(
  problem: MoveProblem,
  ceiling: Cost,
  limits: { readonly nodes: number; readonly moves: number },
  checkpoint: (nodes: number, allowed: number) => ReturnType<Checkpoint>,
): Promise<FewestMovesAnswer> {
  const search = new FewestMoves(problem, ceiling, limits.nodes, limits.moves);
  for (const answer of search.run()) {
    if (answer !== null) return answer;
    const reason = await checkpoint(search.nodes, search.allowed);
    if (reason !== null) return { plan: null, bound: search.allowed, nodes: search.nodes, ended: reason };
  }
  throw new Error("a search that does not end");
}
