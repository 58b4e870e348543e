import { countsOf } from "../../time/calendar.js";
import { draftCalendar } from "../draft-calendar.js";
import { found, type LineRule } from "./line-rule.js";

const name = "supply-period";

export const supplyPeriod: LineRule = {
  name,
  purpose: "The calendar knows the period that a supply is stated for.",
  check(draft) {
    return (draft.keys.supply?.entries ?? []).flatMap(({ id, value }) => {
      if (value === undefined || value.value.period === "hour") return [];
      const { period } = value.value;
      const refuse = (problem: string) => {
        const message = `supply, ${id}: ${problem.replace(/^a demand/u, "a supply")}`;
        return [found(name, draft, { severity: "error", message, place: value.place })];
      };
      if (draft.places.calendar === undefined)
        return refuse(`a supply per ${period} needs a \`calendar:\` that says how long the line works`);
      const calendar = draftCalendar(draft.keys);
      if (calendar === null) return [];
      const counts = countsOf(calendar, period);
      return counts.ok ? [] : refuse(counts.problem);
    });
  },
};
