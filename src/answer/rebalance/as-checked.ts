import { type Line, withoutPlanTo } from "../../line/line.js";
import type { Plan } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { Pace } from "../../time/pace.js";
import { compare, multiply, ONE } from "../../time/ratio.js";
import type { AtPace } from "./paces-ahead.js";

/** As `check` judges: loads up to the working time, or what the policy allows of it, wherever they stand. */
export function asChecked({ line, pace }: Omit<AtPace, "strictLimit">): AtPace {
  const planTo = line.policy.maxLoad;
  const checked = { ...pace, planTo, stationLimit: multiply(pace.workingTime, planTo) };
  return { line: withoutPlanTo(line), pace: checked, strictLimit: true };
}

/** Whether that differs from the station limit. */
export const hasReserve = ({ line, pace }: Omit<AtPace, "strictLimit">): boolean =>
  [pace.planTo, line.policy.maxLoad, ...line.floor.map(({ planTo }) => planTo ?? ONE)].some(
    (share) => compare(share, ONE) !== 0,
  );

/** By what today's plan may stay as it is. */
export interface StandingTerms {
  /** No task may exceed the station limit, not even alone; then nor may today's plan. */
  readonly strictLimit: boolean;
  /** Today's plan, too, keeps to the station limits: for a plan that is compared with others that do. */
  readonly limitsToday?: boolean;
}

/**
 * Whether today's plan may stay as it is: it keeps to the station limits, or else `check` passes it. What a plan-to keeps in reserve is
 * for new plans; no task has to move for it.
 */
export const stands = (
  line: Line,
  pace: Pace,
  plan: Plan,
  { strictLimit, limitsToday = strictLimit }: StandingTerms,
): boolean =>
  verifyPlan(line, pace, plan, strictLimit).length === 0 || (!limitsToday && passesCheck(line, pace, plan));

function passesCheck(line: Line, pace: Pace, plan: Plan): boolean {
  const at = asChecked({ line, pace });
  return verifyPlan(at.line, at.pace, plan, at.strictLimit).length === 0;
}
