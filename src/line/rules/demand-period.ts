import { countsOf } from "../../time/calendar.js";
import { draftCalendar } from "../draft-calendar.js";
import { found, type LineRule } from "./line-rule.js";

const name = "demand-period";

export const demandPeriod: LineRule = {
  name,
  purpose: "The calendar knows the period that demand is stated for.",
  check(draft) {
    const { demand } = draft.keys;
    if (demand === undefined || demand.value.period === "hour") return [];
    const { period } = demand.value;
    const refuse = (problem: string) => [
      found(name, draft, { severity: "error", message: problem, place: demand.place }),
    ];
    if (draft.places.calendar === undefined) {
      return refuse(`a demand per ${period} needs a \`calendar:\` that says how long the line works`);
    }
    const calendar = draftCalendar(draft.keys);
    if (calendar === null) return [];
    const counts = countsOf(calendar, period);
    return counts.ok || hasFaultyCount(draft.keys.calendar!) ? [] : refuse(counts.problem);
  },
};

/** A count that is given but faulty has its own finding. */
function hasFaultyCount({ at, keys }: { at: object; keys: object }): boolean {
  return Object.keys(keys).some(
    (key) => key !== "shifts" && (at as Record<string, unknown>)[key] === undefined,
  );
}
