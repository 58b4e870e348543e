import { type Finding, type Place, sortFindings } from "./finding.js";
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
  const linesOf = new Map<string, string[]>();
  for (const [file, text] of sources) linesOf.set(file, splitLines(text));
  return sortFindings(findings)
    .map((each) => formatFinding(each, linesOf.get(each.file ?? ""), width))
    .join("");
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
