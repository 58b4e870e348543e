import { countOf } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import type { LevelledSequence } from "../models/levelled-sequence.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** Spacings that even the proposed sequence breaks: none keeps them, or none was found that does. */
export function findSpacing(line: Line, { measure, isImpossible, longest }: LevelledSequence): PlanFinding[] {
  if (measure.broken === 0) return [];
  const all = line.spacings.map(({ name, most, of }) => `${name} ${most} in ${of}`).join(", ");
  const message = isImpossible
    ? `no order of up to ${longest} units keeps the spacing (${all})`
    : `no order was found that keeps the spacing (${all}), and one may exist`;
  const broken = `the proposed one breaks it in ${countOf(measure.broken, "row")} of units`;
  return [
    planFinding({
      rule: "spacing",
      severity: "warning",
      message: `${message}; ${broken}: build fewer of them, or allow more in a row`,
      file: line.file,
    }),
  ];
}
