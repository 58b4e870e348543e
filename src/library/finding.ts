import { type Finding as InnerFinding, sortFindings } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { type FindingFacts, findingJson } from "../report/json/finding-json.js";
import { UsageError } from "./usage-error.js";

export type { FindingFacts as Finding };

/** A finding of a text that was read. */
export interface PlacedFinding extends FindingFacts {
  /** The first column behind what is meant; absent where no place is known. */
  readonly endColumn?: number;
}

/** Findings of reading a text, in the order in which people mend it. */
export const findingsOfText = (findings: readonly InnerFinding[]): PlacedFinding[] =>
  sortFindings(findings).map((each) => ({
    ...findingJson(each),
    ...(each.place === null ? {} : { endColumn: each.place.endColumn }),
  }));

/**
 * The text of findings as the command line prints it: sorted by place, each as `file:line:column: message [rule]`, with its source line
 * underlined where its text is given. Empty where there are none; else it ends in a line feed.
 *
 * @param sources the text of each file, by the name that findings call it
 * @param width columns that a source line may take; 100 where left out
 * @throws UsageError where the width is below 20, and for anything but findings
 */
export function findingsText(
  findings: readonly PlacedFinding[],
  sources: Readonly<Record<string, string>> = {},
  width = 100,
): string {
  if (!(width >= 20)) throw new UsageError(`width: at least 20 columns are expected, not ${width}`);
  if (!Array.isArray(findings) || findings.some((each) => typeof each?.message !== "string"))
    throw new UsageError("findings: a list of findings is expected that a function gave");
  const placed = findings.map(({ line, column, endColumn, ...each }): InnerFinding => {
    if (line === null || column === null) return { ...each, place: null };
    return { ...each, place: { line, column, endColumn: endColumn ?? column + 1 } };
  });
  return formatFindings(placed, new Map(Object.entries(sources)), width);
}
