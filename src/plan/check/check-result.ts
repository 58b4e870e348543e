import { SEVERITIES, type Severity } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import type { TaktSum } from "../../time/takt.js";
import type { Plan } from "../plan.js";
import type { CheckedPlan } from "./check-plan.js";
import type { BenchOfPlan } from "./check-subject.js";
import { findKnown } from "./compare-findings.js";
import type { PlanFinding } from "./plan-finding.js";

/** A finding with what it means for the verdict. */
export interface JudgedFinding extends PlanFinding {
  /** Whether it was there before and is no worse now; null where nothing was compared. */
  readonly known: boolean | null;
  /** Whether it makes the answer no. */
  readonly fails: boolean;
}

/** One plan file of a run. */
export interface CheckedFile {
  readonly file: string;
  readonly line: Line;
  readonly plan: Plan;
  readonly benches: readonly BenchOfPlan[];
  readonly checked: CheckedPlan;
  readonly findings: readonly JudgedFinding[];
  /** Some of them make the answer no. */
  readonly isWrong: boolean;
}

/** Everything that a report says of a check. */
export interface CheckResult {
  readonly line: Line;
  readonly pace: Pace;
  readonly takt: TaktSum | null;
  /** "refused": a plan file among them could not be read. */
  readonly outcome: "fine" | "wrong" | "refused";
  /** The plans that could be read, in the order in which they were given. */
  readonly plans: readonly CheckedFile[];
  /** About the line file and what is delivered to it. */
  readonly findings: readonly JudgedFinding[];
  /** Some of them make the answer no. */
  readonly isLineWrong: boolean;
  /** Why plan files could not be read. */
  readonly refused: readonly JudgedFinding[];
}

/**
 * Says of each finding whether it makes the answer no: it is as severe as `failOn` and new or worse.
 *
 * @param before findings to compare with; null: with none
 */
export function judgeFindings(
  findings: readonly PlanFinding[],
  before: readonly PlanFinding[] | null,
  failOn: Severity,
): JudgedFinding[] {
  const known = before === null ? null : findKnown(findings, before);
  return findings.map((each, at) => ({
    ...each,
    known: known?.[at] ?? null,
    fails: known?.[at] !== true && SEVERITIES.indexOf(each.severity) <= SEVERITIES.indexOf(failOn),
  }));
}

/** Whether any finding makes the answer no. */
export const anyFails = (findings: readonly JudgedFinding[]): boolean => findings.some(({ fails }) => fails);

/** The verdict over all plans and the line. */
export function outcomeOf(
  plans: readonly Pick<CheckedFile, "isWrong">[],
  isLineWrong: boolean,
  refused: readonly JudgedFinding[],
): CheckResult["outcome"] {
  if (refused.length > 0) return "refused";
  return isLineWrong || plans.some(({ isWrong }) => isWrong) ? "wrong" : "fine";
}
