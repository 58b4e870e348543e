/** How much a finding matters: an error stops the command, a warning does not, a note only informs. The worst first. */
export const SEVERITIES = ["error", "warning", "note"] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A stretch of one source line; lines and columns count from 1, `endColumn` is the first column after it. */
export interface Place {
  readonly line: number;
  readonly column: number;
  readonly endColumn: number;
}

/** The one type for everything worth telling about an input or an answer. */
export interface Finding {
  /** Stable name of the check, in kebab-case; tests, docs and CI hold on to it. */
  readonly rule: string;
  readonly severity: Severity;
  /** One sentence or two: what was found, what was expected, what is near. */
  readonly message: string;
  readonly file: string | null;
  readonly place: Place | null;
  readonly station: string | null;
  readonly task: string | null;
}

/** A finding with every field that is not given set to "not known". */
export function finding(given: Pick<Finding, "rule" | "severity" | "message"> & Partial<Finding>): Finding {
  return { file: null, place: null, station: null, task: null, ...given };
}

/** Whether any finding stops the command. */
export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((each) => each.severity === "error");
}

/** Sorted by file, line, column, rule and message, without doubles: the order in which people mend a file. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
  const key = (each: Finding) =>
    [each.file ?? "", each.place?.line ?? 0, each.place?.column ?? 0, each.rule, each.message] as const;
  const sorted = [...findings].sort((one, two) => compareKeys(key(one), key(two)));
  return sorted.filter((each, at) => at === 0 || compareKeys(key(each), key(sorted[at - 1]!)) !== 0);
}

function compareKeys(one: readonly (string | number)[], two: readonly (string | number)[]): number {
  for (const [at, left] of one.entries()) {
    const right = two[at]!;
    if (left !== right) return left < right ? -1 : 1;
  }
  return 0;
}
