import { countOf } from "../../findings/count-of.js";
import { SEVERITIES } from "../../findings/finding.js";
import type { CheckResult, JudgedFinding } from "../../plan/check/check-result.js";

/** "2 errors, 1 warning"; nothing for none. */
export function countWords(findings: readonly JudgedFinding[]): string {
  return SEVERITIES.map(
    (severity) => [severity, findings.filter((each) => each.severity === severity).length] as const,
  )
    .filter(([, count]) => count > 0)
    .map(([severity, count]) => countOf(count, severity))
    .join(", ");
}

/** What is shown of the line file: notes on it belong to it and not to its plans, unless they make the answer no. */
export function shownOfLine({ findings }: CheckResult): JudgedFinding[] {
  return findings.filter(({ severity, fails }) => severity !== "note" || fails);
}

const SINGULAR = { hold: "holds", fail: "fails", "not read": "not read" } as const;

/** All that is said of plan files that could not be read. */
export const refusedOf = ({ unread }: Pick<CheckResult, "unread">): JudgedFinding[] =>
  unread.flatMap(({ findings }) => findings);

/** "3 plans: 2 hold, 1 fails (2 errors, 1 warning)": the last line of a report. */
export function summaryWords(result: CheckResult): string {
  const { plans, isLineWrong } = result;
  const unread = result.unread.length;
  const wrong = plans.filter(({ isWrong }) => isWrong).length;
  const counts = [
    [plans.length - wrong, "hold"],
    [wrong, "fail"],
    [unread, "not read"],
  ] as const;
  const told = counts
    .filter(([count]) => count > 0)
    .map(([count, word]) => `${count} ${count === 1 ? SINGULAR[word] : word}`);
  const all = countWords([
    ...shownOfLine(result),
    ...refusedOf(result),
    ...plans.flatMap((plan) => plan.findings),
  ]);
  // Those of the line and of the plans together.
  const [line, inAll] = isLineWrong ? ["; the line file fails", " in all"] : ["", ""];
  return `${countOf(plans.length + unread, "plan")}: ${told.join(", ")}${line}${all === "" ? "" : ` (${all}${inAll})`}`;
}
