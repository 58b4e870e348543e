import { calendarFaults, countsOf } from "../../time/calendar.js";
import { overlappingShifts } from "../../time/overlapping-shifts.js";
import { compare, ONE } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { draftCalendar, readGross, shiftEntries } from "../parts/calendar.js";
import { found, type LineRule } from "./line-rule.js";

export const shiftLength: LineRule = {
  name: "shift-length",
  purpose: "Every shift says how long it is, once.",
  check(draft) {
    return shiftEntries(draft.keys).flatMap((entry) => {
      const gross = readGross(entry);
      if (gross === null || gross.ok) return [];
      return [
        found("shift-length", draft, {
          severity: "error",
          message: `shift ${entry.id}: ${gross.problem}`,
          place: entry.place,
        }),
      ];
    });
  },
};

export const calendarSum: LineRule = {
  name: "calendar-sum",
  purpose: "Shifts, breaks and counts of the calendar go together.",
  check(draft) {
    const calendar = draftCalendar(draft.keys);
    if (calendar === null) return [];
    const faults = [...calendarFaults(calendar), ...overlappingShifts(calendar)];
    const placeOf = new Map(shiftEntries(draft.keys).map(({ id, place }) => [id, place]));
    return faults.map(({ shift, problem }) => {
      const message = `${shift === null ? "calendar" : `shift ${shift}`}: ${problem}`;
      const place = (shift === null ? null : placeOf.get(shift)) ?? draft.places.calendar ?? null;
      return found("calendar-sum", draft, { severity: "error", message, place });
    });
  },
};

export const demandPeriod: LineRule = {
  name: "demand-period",
  purpose: "The calendar knows the period that demand is stated for.",
  check(draft) {
    const { demand } = draft.keys;
    if (demand === undefined || demand.value.period === "hour") return [];
    const { period } = demand.value;
    const refuse = (problem: string) => [
      found("demand-period", draft, { severity: "error", message: problem, place: demand.place }),
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

export const supplyPeriod: LineRule = {
  name: "supply-period",
  purpose: "The calendar knows the period that a supply is stated for.",
  check(draft) {
    return (draft.keys.supply?.entries ?? []).flatMap(({ id, value }) => {
      if (value === undefined || value.value.period === "hour") return [];
      const { period } = value.value;
      const refuse = (problem: string) => {
        const message = `supply, ${id}: ${problem.replace(/^a demand/u, "a supply")}`;
        return [found("supply-period", draft, { severity: "error", message, place: value.place })];
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

export const lossesCountedTwice: LineRule = {
  name: "losses-counted-twice",
  purpose: "Warns where uptime and the calendar may take off the same losses.",
  check(draft) {
    const { uptime } = draft.keys;
    const shifts = draftCalendar(draft.keys)?.shifts ?? [];
    const taken = shifts
      .flatMap((shift) => [...shift.stops, ...shift.changeovers])
      .filter(({ each }) => each > 0);
    if (uptime === undefined || compare(uptime.value, ONE) >= 0 || taken.length === 0) return [];
    const names = [...new Set(taken.map((each) => each.name))].join(", ");
    const message = `uptime is ${percent(uptime.value, 3)} and the calendar takes off ${names}: each loss counts once, so make sure that uptime leaves these out`;
    return [found("losses-counted-twice", draft, { severity: "warning", message, place: uptime.place })];
  },
};
