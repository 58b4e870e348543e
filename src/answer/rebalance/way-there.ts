import type { Watch } from "../../solve/watch-times.js";
import { type ChangeSum, sumUpChange } from "./change-sum.js";
import type { RebalanceAnswer } from "./rebalance-line.js";
import { type StepSpread, type Steps, spreadSteps, stepsOf } from "./steps.js";

/** How a line gets from today's plan to the new one. */
export interface WayThere {
  /** null where nothing changes, or there is no new plan. */
  readonly steps: Steps | null;
  /** What that costs and gains; null as before. */
  readonly change: ChangeSum | null;
  /** The steps by day; null where nobody asked for days. */
  readonly spread: StepSpread | null;
}

/**
 * The way that an answer leaves to its plan, apart from the search: whoever only counts moves need not pay for it.
 *
 * @param days that the steps are to be spread over; null where nobody asked
 */
export async function wayThere(
  { balance: { line, pace, plan }, chosen, from, matched, nodes }: RebalanceAnswer,
  days: number | null,
  checkpoint: Watch,
): Promise<WayThere> {
  const best = { moves: chosen?.moves.length ?? 0 };
  // A time is for the searches: the way to the plan that they found is told whole.
  const goesOn = async () =>
    (await checkpoint({ nodes, best, bound: null, what: "moves" })) !== "interrupted";
  const steps = plan === null ? null : await stepsOf(line, pace, from, plan, matched, goesOn);
  return {
    steps,
    change: plan === null || steps === null ? null : sumUpChange(line, pace, from, plan, matched, steps),
    spread: days === null ? null : spreadSteps(steps?.steps ?? [], days),
  };
}
