import { countOf, thousands } from "./count-of.js";
import { type Finding, type Place, SEVERITIES, sortFindings } from "./finding.js";
import { listOf } from "./list-of.js";
import { underline } from "./underline.js";
import { visibleText } from "./visible-text.js";

/**
 * All findings as text, in the order in which people mend a file, each as `file:line:column: message [rule]` with
 * its source line underlined. `sources` holds the text of each file by the name used in the findings; `width` is
 * the number of columns that a source line may take. Ends in a newline unless there is nothing to say.
 */
export function formatFindings(
  findings: readonly Finding[],
  sources: ReadonlyMap<string, string>,
  width: number,
): string {
  return formatInOrder(sortFindings(findings), sources, width);
}

/** Nobody reads more at a time. */
const MOST_SHOWN = 1_000;

/** The same in the order in which they are given. Of more than a thousand the worst are shown, and the others are counted. */
export function formatInOrder(
  findings: readonly Finding[],
  sources: ReadonlyMap<string, string>,
  width: number,
): string {
  if (findings.length === 0) return "";
  const linesOf = new Map<string, string[]>();
  for (const [file, text] of sources) linesOf.set(file, splitLines(text));
  const shown = findings.length > MOST_SHOWN ? worstOf(findings) : new Set(findings);
  const told = [...shown].map((each) => formatFinding(each, linesOf.get(each.file ?? ""), width));
  return told.join("") + countOthers(findings, shown);
}

function worstOf(findings: readonly Finding[]): Set<Finding> {
  const bySeverity = SEVERITIES.flatMap((severity) => findings.filter((each) => each.severity === severity));
  const worst = new Set(bySeverity.slice(0, MOST_SHOWN));
  return new Set(findings.filter((each) => worst.has(each)));
}

function countOthers(findings: readonly Finding[], shown: ReadonlySet<Finding>): string {
  const others = findings.filter((each) => !shown.has(each));
  if (others.length === 0) return "";
  const counts = SEVERITIES.flatMap((severity) => {
    const count = others.filter((each) => each.severity === severity).length;
    return count === 0 ? [] : [countOf(count, `more ${severity}`)];
  });
  return `${listOf(counts)} not shown: these ${thousands(shown.size)} come first\n`;
}

function formatFinding(each: Finding, lines: readonly string[] | undefined, width: number): string {
  const severity = each.severity === "error" ? "" : `${each.severity}: `;
  const head = `${address(each.file, each.place)}${severity}${visibleText(each.message)} [${each.rule}]\n`;
  const sourceLine = each.place === null ? undefined : lines?.[each.place.line - 1];
  return sourceLine === undefined ? head : head + underline(sourceLine, each.place!, width);
}

function address(file: string | null, place: Place | null): string {
  if (file === null) return "";
  return place === null ? `${visibleText(file)}: ` : `${visibleText(file)}:${place.line}:${place.column}: `;
}

/** Lines as the reader counts them: a byte order mark is no character of the first line. */
function splitLines(text: string): string[] {
  return text.replace(/^\ufeff/, "").split(/\r?\n/);
}
