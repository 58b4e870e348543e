import { addTo } from "../../findings/add-to.js";
import { SEVERITIES, type Severity } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import type { Plan } from "../plan.js";
import type { CheckedPlan } from "./check-plan.js";
import type { BenchOfPlan } from "./check-subject.js";
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
  /** The plan files that could not be read, in the order in which they were given. */
  readonly unread: readonly UnreadFile[];
}

/** A plan file that could not be read. */
export interface UnreadFile {
  readonly file: string;
  /** Why, and what else is wrong; some of it may be about the line file. */
  readonly findings: readonly JudgedFinding[];
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
  unread: readonly UnreadFile[],
): CheckResult["outcome"] {
  if (unread.length > 0) return "refused";
  return isLineWrong || plans.some(({ isWrong }) => isWrong) ? "wrong" : "fine";
}

/**
 * For each finding whether it was there before and is no worse now: the same rule, station and task, not a larger amount. Each
 * finding of before stands for one of now.
 */
export function findKnown(now: readonly PlanFinding[], before: readonly PlanFinding[]): boolean[] {
  const left = new Map<string, PlanFinding[]>();
  for (const each of before) addTo(left, keyOf(each), each);
  const known = now.map(() => false);
  // The worst first, so that it does not find its match taken by one that a smaller would have matched.
  const worstFirst = [...now.keys()].sort((one, two) => compareAmounts(now[two]!, now[one]!) || one - two);
  for (const at of worstFirst) {
    const candidates = left.get(keyOf(now[at]!)) ?? [];
    const match = candidates.findIndex((each) => compareAmounts(now[at]!, each) <= 0);
    if (match < 0) continue;
    candidates.splice(match, 1);
    known[at] = true;
  }
  return known;
}

function compareAmounts(one: PlanFinding, two: PlanFinding): number {
  return one.amount === null || two.amount === null ? 0 : compare(one.amount, two.amount);
}

const keyOf = ({ rule, severity, station, task }: PlanFinding): string =>
  JSON.stringify([rule, severity, idKey(station ?? ""), idKey(task ?? "")]);
