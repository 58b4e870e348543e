import { type Fact, type Finding, finding } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { type Ratio, ratio } from "../../time/ratio.js";
import { showTimesApart } from "../../time/show-in-unit.js";
import type { PlanView, StationView } from "./plan-view.js";

/** One rule of the shop floor: a finding for each fault of the plan. */
export type Check = (view: PlanView) => readonly Finding[];

export function fault(
  rule: string,
  message: string,
  station: string | null,
  task: string | null,
  fact?: Fact,
): Finding {
  return finding({ rule, severity: "error", message, station, task, ...(fact && { fact }) });
}

/** A fault of one task at the station that holds it. */
export function taskFault(
  rule: string,
  view: PlanView,
  at: StationView,
  task: number,
  words: string,
  fact?: Fact,
): Finding {
  const { id } = view.line.tasks[task]!;
  return fault(rule, `${id} ${words}`, at.id, id, fact);
}

/** Two times in the unit of the line, told apart where they differ. */
export function showBoth(line: Line, one: Ratio, two: Ratio): readonly [string, string] {
  const [first, second] = showTimesApart(line.unit, one, two);
  return [first!, second!];
}

export const asTime = (amount: bigint, parts: bigint): Ratio => ratio(amount, parts);

/** "a", "a and b", "a, b and c". */
export function listOf(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
