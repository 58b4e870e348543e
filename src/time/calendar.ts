import type { Period } from "./demand.js";
import { compare, multiply, type Ratio, ratio } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { decimal, longTime } from "./show-values.js";
import { MICROS_IN, type Micros } from "./units.js";

/** A named stretch of a shift that is taken off the available time, such as 3 changeovers of 10 min. */
export interface NamedTime {
  readonly name: string;
  readonly count: number;
  readonly each: Micros;
}

export interface Shift {
  readonly name: string;
  /** Clock times as typed; null where the file gives a length. */
  readonly from: string | null;
  readonly to: string | null;
  /** From start to end, over midnight where `to` is before `from`. */
  readonly gross: Micros;
  readonly breaks: readonly NamedTime[];
  readonly stops: readonly NamedTime[];
  readonly changeovers: readonly NamedTime[];
  readonly overtime: Micros;
}

export interface Calendar {
  /** One or more, in natural order of names. */
  readonly shifts: readonly Shift[];
  /** Counts as given; null where the file is silent. */
  readonly daysPerWeek: Ratio | null;
  readonly daysPerMonth: Ratio | null;
  readonly daysPerYear: Ratio | null;
  readonly weeksPerYear: Ratio | null;
}

/** A count of the calendar that a sum used, under its key in the file. */
export interface CalendarCount {
  readonly key: "days-per-week" | "days-per-month" | "days-per-year" | "weeks-per-year";
  readonly count: Ratio;
}

/** count x each. */
export const totalOf = (named: NamedTime): Micros => named.count * named.each;

/** Shift time less breaks, planned stops and changeovers, plus overtime; not above 0 in a faulty calendar. */
export function availableTime(shift: Shift): Micros {
  const lost = [...shift.breaks, ...shift.stops, ...shift.changeovers];
  return lost.reduce((left, each) => left - totalOf(each), shift.gross + shift.overtime);
}

/** Available time of a day: all its shifts together. */
export function availableTimeOfDay(calendar: Calendar): Micros {
  return calendar.shifts.reduce((sum, shift) => sum + availableTime(shift), 0);
}

/**
 * Available time in a period, in microseconds: an hour is an hour of available time and needs no calendar, a shift
 * is the mean shift of a day. Refused, naming the key, where the calendar lacks a count that the period needs.
 */
export function availableTimeOf(calendar: Calendar | null, period: Period): Reading<Ratio> {
  if (period === "hour") return accept(ratio(MICROS_IN.h));
  if (calendar === null) {
    return refuse(`a demand per ${period} needs a \`calendar:\` that says how long the line works`);
  }
  const day = ratio(availableTimeOfDay(calendar));
  if (period === "shift") return accept(multiply(day, ratio(1, calendar.shifts.length)));
  const counts = countsOf(calendar, period);
  return counts.ok ? accept(counts.value.reduce((sum, each) => multiply(sum, each.count), day)) : counts;
}

/** The counts that lead from a day to the period, in the order of the sum; none for an hour, a shift and a day. */
export function countsOf(calendar: Calendar, period: Period): Reading<readonly CalendarCount[]> {
  const { daysPerWeek: week, daysPerMonth: month, daysPerYear: year, weeksPerYear: weeks } = calendar;
  const days = (key: CalendarCount["key"], count: Ratio | null): Reading<readonly CalendarCount[]> =>
    count === null ? refuse(missing(period, `\`${key}\``)) : accept([{ key, count }]);
  if (period === "week") return days("days-per-week", week);
  if (period === "month") return days("days-per-month", month);
  if (period !== "year") return accept([]);
  if (year !== null) return days("days-per-year", year);
  if (week === null || weeks === null) return refuse(missing(period, missingForYear(week, weeks)));
  return accept([
    { key: "days-per-week", count: week },
    { key: "weeks-per-year", count: weeks },
  ]);
}

const missing = (period: Period, keys: string): string =>
  `a demand per ${period} needs ${keys} in the calendar; how many days are worked is never guessed`;

function missingForYear(week: Ratio | null, weeks: Ratio | null): string {
  if (week !== null) return "`weeks-per-year` (beside `days-per-week`) or `days-per-year`";
  if (weeks !== null) return "`days-per-week` (beside `weeks-per-year`) or `days-per-year`";
  return "`days-per-year`, or `days-per-week` and `weeks-per-year`,";
}

/** What is wrong with a calendar as a whole; `shift` names the one at fault, null where it is the calendar. */
export interface CalendarFault {
  readonly shift: string | null;
  readonly problem: string;
}

/** Shifts without available time, days of more than 24 h, and two answers to how many days a year has. */
export function calendarFaults(calendar: Calendar): CalendarFault[] {
  return [...emptyShifts(calendar), ...longDay(calendar), ...twoYears(calendar)];
}

function emptyShifts(calendar: Calendar): CalendarFault[] {
  const empty = calendar.shifts.filter((shift) => availableTime(shift) <= 0);
  return empty.map((shift) => {
    const all = shift.gross + shift.overtime;
    const taken = longTime(all - availableTime(shift));
    return {
      shift: shift.name,
      problem: `breaks, stops and changeovers of ${taken} leave nothing of the ${longTime(all)} of the shift; less than that is expected`,
    };
  });
}

function longDay(calendar: Calendar): CalendarFault[] {
  const day = calendar.shifts.reduce((sum, shift) => sum + shift.gross + shift.overtime, 0);
  if (day <= 24 * MICROS_IN.h) return [];
  return [{ shift: null, problem: `the shifts of a day take ${longTime(day)} together; a day has 24 h` }];
}

/** How many shifts like those of a calendar a day has room for; its own at the least. */
export function mostShifts({ shifts }: Pick<Calendar, "shifts">): number {
  const gross = shifts.reduce((sum, shift) => sum + shift.gross + shift.overtime, 0);
  return gross === 0
    ? shifts.length
    : Math.max(shifts.length, Math.floor((24 * MICROS_IN.h * shifts.length) / gross));
}

function twoYears(calendar: Calendar): CalendarFault[] {
  const { daysPerWeek: week, daysPerYear: year, weeksPerYear: weeks } = calendar;
  if (week === null || year === null || weeks === null) return [];
  const product = multiply(week, weeks);
  if (compare(product, year) === 0) return [];
  const sum = `${decimal(week, 3)} x ${decimal(weeks, 3)} = ${decimal(product, 3)}`;
  const problem = `days-per-year is ${decimal(year, 3)}, but days-per-week x weeks-per-year is ${sum}; give one of the two`;
  return [{ shift: null, problem }];
}
