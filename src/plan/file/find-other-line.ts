import { countOf } from "../../findings/count-of.js";
import { type Finding, finding, tells } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import type { PlanReading } from "./read-plan.js";

/**
 * A plan of another line: fewer than half of its tasks are of this line, and these are fewer than half of the line's. A line that has
 * changed since is still the same: a product that grew has all tasks of its plan, one that shrank has all its own in it.
 */
export function findOtherLine(
  line: Line,
  { file, findings, places }: Pick<PlanReading, "file" | "findings" | "places">,
): Finding | null {
  const unknown = findings.filter((each) => tells(each, "unknown-task")).length;
  const shared = line.tasks.filter((_, task) => places.task(task).length > 0).length;
  if (shared >= unknown || 2 * shared >= line.tasks.length) return null;
  const [has, its] = [countOf(line.tasks.length, "task"), countOf(shared + unknown, "task")];
  const are = shared === 0 ? "none is" : shared === 1 ? "only 1 is" : `only ${shared} are`;
  const message = `the plan is one of another line: of its ${its} ${are} of ${line.file}, which has ${has}`;
  return finding({ rule: "other-line", severity: "error", message, file, place: places.stations });
}
