import { answerOfPlan } from "../answer/balance/answer-of-plan.js";
import { type LineToCheck, PlanChecker, type ReadPlan } from "../answer/balance/check-against-line.js";
import { shownBalance } from "../answer/balance/shown-balance.js";
import { SEVERITIES } from "../findings/finding.js";
import { checkInPart } from "../plan/check/check-in-part.js";
import {
  anyFails,
  type CheckedFile,
  judgeFindings,
  outcomeOf,
  type UnreadFile,
} from "../plan/check/check-result.js";
import type { PlanFinding } from "../plan/check/plan-finding.js";
import { findOtherLine } from "../plan/file/find-other-line.js";
import { checkDocument } from "../report/json/check-json.js";
import { knownLine, type Line } from "./line.js";
import { type DemandOptions, PACE_OPTIONS, paceFor } from "./pace.js";
import { type Plan, planReading } from "./plan.js";
import { type Refused, refuse } from "./result.js";
import { limitsOf, SEARCH_OPTIONS, type SearchOptions } from "./search.js";
import { checkOptions, UsageError, wordOption } from "./usage-error.js";

/** What plans are checked for. */
export interface CheckOptions extends DemandOptions, SearchOptions {
  /** The least severity that makes a plan wrong; "error" where left out. */
  readonly failOn?: "error" | "warning" | "note";
  /** Fail only on what is new or worse than in this plan of the line. */
  readonly against?: Plan;
}

/** Each plan as `balance` shows one, with its findings and its verdict, "fine" or "wrong"; `outcome` is that of all. */
export type CheckResult = ReturnType<typeof checkDocument>;

/**
 * Whether plans still hold: every task once, precedence, the rules of the shop floor, loads, policy, supply, and what they were made for. The
 * arithmetic shares nothing with what makes plans.
 *
 * @param plans one plan or several
 * @returns the JSON of `linepoise check`; refused with findings where nothing gives the pace, or `against` is no plan of the line
 * @throws UsageError for options that do not exist or cannot be read
 */
export async function check(
  line: Line,
  plans: Plan | readonly Plan[],
  options: CheckOptions = {},
): Promise<CheckResult | Refused> {
  checkOptions(options, [...PACE_OPTIONS, ...SEARCH_OPTIONS, "failOn", "against"]);
  const known = knownLine(line);
  const failOn = wordOption("failOn", options.failOn, SEVERITIES) ?? "error";
  const found = paceFor(known.line, options);
  if (!found.ok) return refuse("check", known.findings, [found.fault]);
  const asked = [plans].flat() as Plan[];
  if (asked.length === 0) throw new UsageError("check: a plan is expected, or several");
  const against = { asRead: known.line, ...found, findings: known.findings };
  const checker = new PlanChecker(against, limitsOf(options));
  const before = options.against === undefined ? null : await baseline(against, checker, options.against);
  if (before !== null && "faults" in before) return refuse("check", known.findings, before.faults);
  const checked: CheckedFile[] = [];
  const unread: UnreadFile[] = [];
  for (const plan of asked) {
    const reading = planReading(plan, found.line);
    if (reading.plan === null) {
      const inPart = await checkInPart(
        found.line,
        reading,
        async (read) => (await checker.check(read, null)).checked.findings,
      );
      unread.push({ file: plan.file, findings: judgeFindings(inPart, null, failOn) });
      continue;
    }
    const file = await checker.check(reading as ReadPlan, null);
    const findings = judgeFindings(file.checked.findings, before?.ofPlan ?? null, failOn);
    checked.push({ ...file, findings, isWrong: anyFails(findings) });
  }
  const findings = judgeFindings(checker.lineFindings, before?.ofLine ?? null, failOn);
  const isLineWrong = anyFails(findings);
  const { pace, takt } = found;
  const outcome = outcomeOf(checked, isLineWrong, unread);
  const result = { line: found.line, pace, takt, plans: checked, findings, isLineWrong, unread, outcome };
  const answers = checked.map(({ line: beside, plan, benches, checked: figures }) =>
    shownBalance(answerOfPlan(beside, pace, takt, plan, figures), benches),
  );
  return checkDocument(result, answers);
}

/** What was found before, of the line as it is now and of the plan; or why that is no plan of it. */
async function baseline(against: LineToCheck, checker: PlanChecker, plan: Plan) {
  const reading = planReading(plan, against.line);
  if (reading.plan === null) return { faults: reading.findings };
  const foreign = findOtherLine(against.line, reading);
  if (foreign !== null) return { faults: [foreign] };
  const { checked } = await checker.check(reading as ReadPlan, null);
  const ofPlan: readonly PlanFinding[] = checked.findings;
  return { ofLine: checker.lineFindings, ofPlan };
}
