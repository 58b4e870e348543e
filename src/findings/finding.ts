import { compareNaturally } from "./natural-order.js";

/** How much a finding matters: an error stops the command, a warning does not, a note only informs. The worst first. */
export const SEVERITIES = ["error", "warning", "note"] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A stretch of one source line; lines and columns count from 1, `endColumn` is the first column after it. */
export interface Place {
  readonly line: number;
  readonly column: number;
  readonly endColumn: number;
}

/** What a finding tells, for decisions that rest on it: these read neither its rule nor its sentence. Only what some decision asks for. */
export type Fact =
  /** Of a plan: a task that the line does not have, that is in the plan not at all, or twice. */
  | { readonly kind: "unknown-task" | "missing-task" | "task-twice" }
  /** Of a plan: a task that needs another before it, by its id. */
  | { readonly kind: "out-of-order"; readonly needs: string }
  /** Of a plan: too little for what its stations and benches need at a time. */
  | { readonly kind: "short-of"; readonly what: "equipment" | "machines" | "skills" }
  /** Of a plan: a crew that its tasks do not ask for. */
  | { readonly kind: "crew" }
  /** Of a plan: a station that takes more than its limit, than one that the line names, or than a model may. */
  | { readonly kind: "overfull"; readonly what: "load" | "keep-pace" | "dwell" | "limit" | "model-overload" }
  /** Of an answer: a task stands alone above the limit of its station. */
  | { readonly kind: "alone-over-limit" }
  /** Of an answer: there is no plan, none was found, or none that keeps what was asked of it. */
  | { readonly kind: "no-plan" | "no-plan-kept" }
  /** Of an answer: fewer people would do where those of a place share the work of a unit. */
  | { readonly kind: "could-share" }
  /** Of an answer: blocks that were not looked at, or that cannot leave the line. */
  | { readonly kind: "blocks-left-out" | "cannot-go" }
  /** Of an answer: what models or machines make a plan slower than its stations. */
  | { readonly kind: "pace-need"; readonly who: "models" | "machines" }
  /** Of an answer: shifts differ, so that no figure is one of every shift. */
  | { readonly kind: "shifts-differ" };

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
  /** Absent where no decision asks for it. */
  readonly fact?: Fact;
}

/** A finding with every field that is not given set to "not known". */
export function finding(given: Pick<Finding, "rule" | "severity" | "message"> & Partial<Finding>): Finding {
  return { file: null, place: null, station: null, task: null, ...given };
}

/** Whether a finding tells a fact of this kind. */
export const tells = ({ fact }: Finding, kind: Fact["kind"]): boolean => fact?.kind === kind;

/** Whether a finding is among these, by all that is printed of it. */
export function isAmong(findings: readonly Finding[]): (found: Finding) => boolean {
  const printed = (each: Finding) => JSON.stringify(keyOf(each));
  const known = new Set(findings.map(printed));
  return (found) => known.has(printed(found));
}

/** Whether two findings tell of the same thing, each in words of its own. */
export const isOfSameThing = (one: Finding, two: Finding): boolean =>
  one.rule === two.rule && one.station === two.station && one.task === two.task;

/** Whether any finding stops the command. */
export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((each) => each.severity === "error");
}

/** Sorted by file, line, column, rule and message, S2 before S10, without doubles: the order in which people mend a file. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
  const sorted = findings.map((each) => ({ each, key: keyOf(each) }));
  sorted.sort((one, two) => compareKeys(one.key, two.key));
  const single = sorted.filter(({ key }, at) => at === 0 || compareKeys(key, sorted[at - 1]!.key) !== 0);
  return single.map(({ each }) => each);
}

const keyOf = ({ file, place, rule, message }: Finding) =>
  [file ?? "", place?.line ?? 0, place?.column ?? 0, rule, message] as const;

function compareKeys(one: readonly (string | number)[], two: readonly (string | number)[]): number {
  for (let at = 0; at < one.length; at++) {
    const [left, right] = [one[at]!, two[at]!];
    if (left === right) continue;
    const difference =
      typeof left === "number" ? left - Number(right) : compareNaturally(left, String(right));
    if (difference !== 0) return difference;
  }
  return 0;
}
