import { visibleText } from "../../findings/visible-text.js";
import type { CheckResult, JudgedFinding } from "../../plan/check/check-result.js";
import { shownOfLine } from "./count-findings.js";

interface Suite {
  readonly name: string;
  readonly findings: readonly JudgedFinding[];
  /** The file could not be read. */
  readonly isRefused: boolean;
  /** A finding makes the answer no. */
  readonly isWrong: boolean;
}

/** A test suite a file and a test case a finding; a file in which nothing fails has one case that passes. */
export function junitXml(result: CheckResult): string {
  const ofLine = shownOfLine(result);
  return junitOf([
    ...(ofLine.length > 0
      ? [{ name: result.line.file, findings: ofLine, isRefused: false, isWrong: result.isLineWrong }]
      : []),
    ...result.unread.map(({ file, findings }) => refusedSuite(file, findings)),
    ...result.plans.map(({ file, findings, isWrong }) => ({
      name: file,
      findings,
      isRefused: false,
      isWrong,
    })),
  ]);
}

/** The same where the line file itself could not be read. */
export function refusedJunit(file: string, findings: readonly JudgedFinding[]): string {
  return junitOf([refusedSuite(file, findings)]);
}

function refusedSuite(name: string, findings: readonly JudgedFinding[]): Suite {
  return { name, findings, isRefused: true, isWrong: true };
}

function junitOf(suites: readonly Suite[]): string {
  const written = suites.map(suiteXml);
  const sum = (of: (suite: { readonly counts: Counts }) => number) =>
    written.reduce((all, suite) => all + of(suite), 0);
  const counts = {
    tests: sum((suite) => suite.counts.tests),
    failures: sum((suite) => suite.counts.failures),
    errors: sum((suite) => suite.counts.errors),
  };
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    `<testsuites name="linepoise check"${countsXml(counts)}>\n`,
    ...written.map(({ xml }) => xml),
    "</testsuites>\n",
  ].join("");
}

interface Counts {
  readonly tests: number;
  readonly failures: number;
  readonly errors: number;
}

function suiteXml({ name, findings, isRefused, isWrong }: Suite): {
  readonly xml: string;
  readonly counts: Counts;
} {
  const failing = findings.filter(({ fails }) => fails).length;
  const passes = isWrong ? [] : [`${caseStart(name, "nothing fails")}/>\n`];
  const cases = [...passes, ...findings.map((each) => caseXml(name, each, isRefused))];
  const counts = {
    tests: cases.length,
    failures: isRefused ? 0 : failing,
    errors: isRefused ? failing : 0,
  };
  const xml = `  <testsuite name="${escapeXml(name)}"${countsXml(counts)}>\n${cases.join("")}  </testsuite>\n`;
  return { xml, counts };
}

function caseXml(file: string, each: JudgedFinding, isRefused: boolean): string {
  const { rule, severity, message, station, task, place, fails, known } = each;
  const name = [rule, station, task].filter((part) => part !== null).join(" ");
  const where = place === null ? "" : `line ${place.line}, column ${place.column}: `;
  const told = visibleText(message);
  const words = `${where}${told}`;
  const start = `${caseStart(file, name)}>\n`;
  const end = "    </testcase>\n";
  if (!fails) {
    const how = known === true ? `${severity}, as before` : severity;
    return `${start}      <system-out>${escapeXml(`${how}: ${words}`)}</system-out>\n${end}`;
  }
  const kind = isRefused ? "error" : "failure";
  const head = `<${kind} type="${escapeXml(rule)}" message="${escapeXml(told)}">`;
  return `${start}      ${head}${escapeXml(`${severity}: ${words}`)}</${kind}>\n${end}`;
}

const caseStart = (file: string, name: string): string =>
  `    <testcase classname="${escapeXml(file)}" name="${escapeXml(name)}"`;

const countsXml = ({ tests, failures, errors }: Counts): string =>
  ` tests="${tests}" failures="${failures}" errors="${errors}"`;

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&apos;",
  "\t": "&#9;",
  "\n": "&#10;",
  "\r": "&#13;",
};

/** XML 1.0 has no place for other control characters, lone surrogates and noncharacters: they are left out. */
function escapeXml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: leaving them out is the purpose
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, "")
      .replace(/[&<>"'\t\n\r]/gu, (character) => ENTITIES[character]!)
  );
}
