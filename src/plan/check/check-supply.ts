import type { Line } from "../../line/line.js";
import { availableTimeOf } from "../../time/calendar.js";
import { compare, divide, type Ratio, subtract } from "../../time/ratio.js";
import { beforeRounding, decimal, percent } from "../../time/show-values.js";
import { unitsToStart } from "../figures/units-tested.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/**
 * Supplies that do not last for the units that the line must start so that the good ones meet the demand.
 *
 * @param takt time between two good units that are wanted, in microseconds; null where no demand is given
 */
export function checkSupply(line: Line, takt: Ratio | null): PlanFinding[] {
  return line.supplies.flatMap((supply) => {
    const { name, units, period, place } = supply;
    const tell = (severity: "error" | "note", message: string, amount: Ratio | null) => [
      planFinding({ rule: "supply", severity, message, file: line.file, place, amount }),
    ];
    if (takt === null)
      return tell("note", `cannot tell whether the supply of ${name} is enough: no demand is given`, null);
    const available = availableTimeOf(line.calendar, period);
    if (!available.ok)
      return tell("note", `cannot tell whether the supply of ${name} is enough: ${available.problem}`, null);
    const good = divide(available.value, takt);
    const needed = unitsToStart(line, good);
    if (compare(units, needed) >= 0) return [];
    const isScrapped = compare(good, needed) !== 0;
    const sum = isScrapped
      ? ` are needed: ${decimal(good, 2)} good units, ${percent(divide(good, needed), 4)} of those started`
      : " good units are needed";
    const message = `the supply of ${name} covers ${decimal(units, 6)} units per ${period}; ${beforeRounding(needed)}${sum}`;
    return tell("error", message, subtract(needed, units));
  });
}
