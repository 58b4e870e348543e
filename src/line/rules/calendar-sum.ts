import { calendarFaults } from "../../time/calendar.js";
import { draftCalendar, shiftEntries } from "../draft-calendar.js";
import { found, type LineRule } from "./line-rule.js";

const name = "calendar-sum";

export const calendarSum: LineRule = {
  name,
  purpose: "Shifts, breaks and counts of the calendar go together.",
  check(draft) {
    const calendar = draftCalendar(draft.keys);
    if (calendar === null) return [];
    return calendarFaults(calendar).map(({ shift, problem }) => {
      const entry = shiftEntries(draft.keys).find((each) => each.id === shift);
      const message = `${shift === null ? "calendar" : `shift ${shift}`}: ${problem}`;
      const place = entry?.place ?? draft.places.calendar ?? null;
      return found(name, draft, { severity: "error", message, place });
    });
  },
};
