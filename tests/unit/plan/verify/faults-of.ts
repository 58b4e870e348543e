import type { Line } from "../../../../src/line/line.js";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import { planFrom } from "../../../tools/floor-line.js";
import { paceOf } from "../../../tools/line-of.js";

/** Everything wrong with a plan at a line cycle of 60 s, as "rule: message". */
export function faultsOf(
  line: Line,
  rows: readonly string[],
  crews: Readonly<Record<string, number>> = {},
  pace = paceOf(60),
): string[] {
  return verifyPlan(line, pace, planFrom(line, rows, crews), false).map(
    ({ rule, message }) => `${rule}: ${message}`,
  );
}
