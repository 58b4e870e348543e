import { type Finding, finding } from "../findings/finding.js";
import { type Calendar, totalOf } from "./calendar.js";
import { compare, ONE, type Ratio } from "./ratio.js";
import { percent } from "./show-values.js";

/**
 * The one warning that losses may be counted twice: uptime below 100 % while the calendar takes off stops or
 * changeovers by name. Null where there is nothing to ask.
 */
export function warnOfDoubleLosses(uptime: Ratio, calendar: Calendar | null): Finding | null {
  if (compare(uptime, ONE) >= 0) return null;
  const named = (calendar?.shifts ?? []).flatMap((shift) => [...shift.stops, ...shift.changeovers]);
  const names = [...new Set(named.filter((each) => totalOf(each) > 0).map((each) => each.name))];
  if (names.length === 0) return null;
  const message = `uptime is ${percent(uptime, 3)} and the calendar takes off ${names.join(", ")} as well: make sure that no loss is counted twice`;
  return finding({ rule: "losses-counted-twice", severity: "warning", message });
}
