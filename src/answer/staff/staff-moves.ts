import { peopleOf } from "../../plan/figures/people.js";
import { movesBetween } from "../rebalance/match-stations.js";
import { rebalanceLine } from "../rebalance/rebalance-line.js";
import type { StaffMoves, StaffQuestion } from "./staff-answer.js";
import type { Staffing } from "./staff-balance.js";

/** A demand with the plan of as many people that has the fewest moves from today's, as far as was found. */
export async function withFewestMoves(
  point: Staffing,
  nodes: number,
  { today, strictLimit, checkpoint }: StaffQuestion,
): Promise<{ readonly point: Staffing; readonly moves: StaffMoves | null }> {
  const { line, takt, plan } = point;
  if (today === null || takt === null || plan === null) return { point, moves: null };
  const options = { nodes, strictLimit, maxMoves: null, keep: [], checkpoint };
  const { chosen } = await rebalanceLine(line, takt.pace, takt, today, options);
  if (chosen === null || chosen.people !== peopleOf(plan)) {
    return { point, moves: { count: movesBetween(line, today, plan).length, outcome: "found" } };
  }
  return {
    point: { ...point, plan: chosen.plan },
    moves: { count: chosen.moves.length, outcome: chosen.outcome },
  };
}
