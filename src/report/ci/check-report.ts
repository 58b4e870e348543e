import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { CheckResult, JudgedFinding } from "../../plan/check/check-result.js";
import { checkJson } from "../json/check-json.js";
import { refusedJson } from "../json/finding-json.js";
import { checkText, findingsText } from "../terminal/check-text.js";
import type { Look } from "../terminal/style.js";
import { refusedOf } from "./count-findings.js";
import { githubAnnotations, refusedAnnotations } from "./github-annotations.js";
import { junitXml, refusedJunit } from "./junit-xml.js";

/** The forms in which `check` reports, the default one first. */
export const CHECK_FORMATS = ["text", "csv", "json", "github", "junit"] as const;
export type CheckFormat = (typeof CHECK_FORMATS)[number];

/** A report for standard output, and what a person is told beside it. */
export interface CheckReport {
  readonly report: string;
  readonly beside: string;
}

/** What all formats but the data need. */
interface Shown {
  /** The text of each file by the name that findings call it. */
  readonly sources: ReadonlyMap<string, string>;
  readonly look: Look;
}

/** @param answers the plans in the shape of `balance`, in the same order */
export function checkReport(
  format: CheckFormat,
  result: CheckResult,
  answers: readonly ShownBalance[],
  { sources, look }: Shown,
): CheckReport {
  switch (format) {
    case "json":
      return { report: checkJson(result, answers), beside: "" };
    case "github":
      return { report: githubAnnotations(result), beside: "" };
    case "junit":
      return { report: junitXml(result), beside: "" };
    case "csv":
    case "text":
      return {
        report: checkText(result, answers, sources, look),
        beside: findingsText(refusedOf(result), sources, look),
      };
  }
}

/** The report where the line file itself is wrong, so that no plan could be looked at. */
export function refusedReport(
  format: CheckFormat,
  file: string,
  findings: readonly JudgedFinding[],
  { sources, look }: Shown,
): CheckReport {
  switch (format) {
    case "json":
      return { report: refusedJson("check", findings), beside: "" };
    case "github":
      return { report: refusedAnnotations(findings), beside: "" };
    case "junit":
      return { report: refusedJunit(file, findings), beside: "" };
    case "csv":
    case "text":
      return { report: "", beside: findingsText(findings, sources, look) };
  }
}
