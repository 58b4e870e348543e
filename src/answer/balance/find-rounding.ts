import { type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { onePartIn } from "../../time/show-values.js";

/**
 * Says that a proof holds to within a part of the times only, as shares of the line have no common unit to count in.
 *
 * @param within one part in so many; null where nothing is open for that reason
 * @param open what that leaves open: "a cycle shorter by less than that is not ruled out"
 */
export function findRounding(line: Line, within: bigint | null, open: string): Finding[] {
  if (within === null) return [];
  const message = `times are counted to ${onePartIn(within)}, as the percentages of this line have no common unit; ${open}`;
  return [finding({ rule: "rounded-times", severity: "note", message, file: line.file })];
}
