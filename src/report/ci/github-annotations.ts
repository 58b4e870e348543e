import type { Severity } from "../../findings/finding.js";
import { visibleText } from "../../findings/visible-text.js";
import type { CheckResult, JudgedFinding } from "../../plan/check/check-result.js";
import { refusedOf, shownOfLine, summaryWords } from "./count-findings.js";

const COMMANDS: Readonly<Record<Severity, string>> = { error: "error", warning: "warning", note: "notice" };

/** One annotation a finding at its place in the files of a pull request, then a line for the log. */
export function githubAnnotations(result: CheckResult): string {
  const all = [
    ...shownOfLine(result),
    ...refusedOf(result),
    ...result.plans.flatMap((plan) => plan.findings),
  ];
  return [...all.map(annotation), summaryWords(result), ""].join("\n");
}

/** The annotations alone, for files that could not be read. */
export function refusedAnnotations(findings: readonly JudgedFinding[]): string {
  return findings.map((each) => `${annotation(each)}\n`).join("");
}

function annotation({ severity, rule, message, file, place, known }: JudgedFinding): string {
  const properties = [
    ...(file === null ? [] : [["file", file]]),
    ...(place === null
      ? []
      : [
          ["line", String(place.line)],
          ["col", String(place.column)],
          ["endColumn", String(place.endColumn - 1)],
        ]),
    ["title", rule],
  ].map(([name, value]) => `${name}=${escapeProperty(value!)}`);
  const command = known === true ? "notice" : COMMANDS[severity];
  const words = known === true ? `${message} (as before)` : message;
  return `::${command} ${properties.join(",")}::${escapeData(visibleText(words))}`;
}

/** As the platform documents it: what would end a command or its properties is written as %XX. */
const escapeData = (text: string): string =>
  text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");

const escapeProperty = (text: string): string =>
  escapeData(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
