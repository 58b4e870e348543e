import { type Finding, finding } from "../../findings/finding.js";
import type { Ratio } from "../../time/ratio.js";

/** A finding about a plan. */
export interface PlanFinding extends Finding {
  /** How bad it is, larger is worse, in the measure of its rule; null where it is there or not. */
  readonly amount: Ratio | null;
}

export function planFinding(
  given: Pick<Finding, "rule" | "severity" | "message"> & Partial<PlanFinding>,
): PlanFinding {
  return { amount: null, ...finding(given), ...(given.amount == null ? {} : { amount: given.amount }) };
}
