import type { CalendarCount } from "../../time/calendar.js";
import type { Period } from "../../time/demand.js";
import { compare, multiply, type Ratio } from "../../time/ratio.js";
import { wantedPerDay, wantedPerHour } from "./figures.js";
import type { OptionAnswer } from "./option-answer.js";

/*
 * What an option is asked for and when it works, beside the first option: what is made for other demand, or in other hours, is cheaper
 * or dearer for no merit of its own.
 */

/** Good units wanted by an option and by the first, in the same period. */
export interface WantedBeside {
  readonly now: Ratio;
  readonly before: Ratio;
  readonly period: Period;
}

/** Periods whose units do not depend on how many shifts are worked. */
const FIXED: readonly Period[] = ["day", "week", "month", "year"];

/**
 * In the period that both demands are stated for; else in a day, in a week where that has other days, or in an hour without a calendar.
 * Null where only a line cycle is given.
 */
export function wantedBeside(option: OptionAnswer, first: OptionAnswer): WantedBeside | null {
  const [now, before] = [option.asked.takt?.terms.demand, first.asked.takt?.terms.demand];
  if (now === undefined || before === undefined) return null;
  if (now.period === before.period && FIXED.includes(now.period)) {
    return { now: now.units, before: before.units, period: now.period };
  }
  const [ofDay, beforeOfDay] = [wantedPerDay(option), wantedPerDay(first)];
  if (ofDay !== null && beforeOfDay !== null) {
    const [days, daysBefore] = [option, first].map(({ asked }) => asked.line.calendar!.daysPerWeek);
    return days != null && daysBefore != null && compare(days, daysBefore) !== 0
      ? { now: multiply(ofDay, days), before: multiply(beforeOfDay, daysBefore), period: "week" }
      : { now: ofDay, before: beforeOfDay, period: "day" };
  }
  return { now: wantedPerHour(option)!, before: wantedPerHour(first)!, period: "hour" };
}

/** Below 0 where the option is asked for fewer units than the first, 0 for as many. */
export function demandBeside(option: OptionAnswer, first: OptionAnswer): number {
  const wanted = wantedBeside(option, first);
  return wanted === null ? 0 : compare(wanted.now, wanted.before);
}

/** Shifts of a day; null without a calendar. */
export const shiftsOf = ({ asked }: OptionAnswer): number | null =>
  asked.line.calendar?.shifts.length ?? null;

/** How many more shifts a day the option works; 0 where one of the two has no calendar. */
export function shiftsBeside(option: OptionAnswer, first: OptionAnswer): number {
  const [now, before] = [shiftsOf(option), shiftsOf(first)];
  return now === null || before === null ? 0 : now - before;
}

/** Working days, or weeks, of two calendars. */
export interface DaysBeside {
  readonly now: Ratio;
  readonly before: Ratio;
  readonly count: CalendarCount["key"];
}

/** Working days that both calendars count, where they differ. */
export function daysBeside(option: OptionAnswer, first: OptionAnswer): DaysBeside | null {
  const [now, before] = [option.asked.line.calendar, first.asked.line.calendar];
  if (now === null || before === null) return null;
  const counts: readonly (readonly [CalendarCount["key"], Ratio | null, Ratio | null])[] = [
    ["days-per-week", now.daysPerWeek, before.daysPerWeek],
    ["days-per-month", now.daysPerMonth, before.daysPerMonth],
    ["days-per-year", now.daysPerYear, before.daysPerYear],
    ["weeks-per-year", now.weeksPerYear, before.weeksPerYear],
  ];
  for (const [count, one, two] of counts) {
    if (one !== null && two !== null && compare(one, two) !== 0) return { now: one, before: two, count };
  }
  return null;
}

/** When an option works, where that differs from the first. */
export interface HoursBeside {
  /** Shifts of a day; null where they are as many. */
  readonly shifts: { readonly now: number; readonly before: number } | null;
  readonly days: DaysBeside | null;
}

export function hoursBeside(option: OptionAnswer, first: OptionAnswer): HoursBeside {
  const [now, before] = [shiftsOf(option), shiftsOf(first)];
  const isOther = now !== null && before !== null && now !== before;
  return { shifts: isOther ? { now, before } : null, days: daysBeside(option, first) };
}

/** Whether a line cycle is given and sets all aside that the option changes. */
export function isSetAside({ asked: { takt, option } }: OptionAnswer): boolean {
  if (takt !== null || option === null) return false;
  const { offLine, maxPlaces, stations, times, tables } = option;
  return (
    offLine.length === 0 && maxPlaces === null && stations === null && times.size === 0 && tables === null
  );
}

/** What money of an option is in; null where its file does not name it. */
export const currencyOf = ({ asked: { line, option } }: OptionAnswer): string | null =>
  line.rates?.currency ?? option?.once?.currency ?? null;

/** The currencies of the options that have rates or a one-off cost, each once, in their order; null is one that is not named. */
export function currenciesOf(options: readonly OptionAnswer[]): (string | null)[] {
  return [...new Set(options.flatMap((each) => (hasMoney(each) ? [currencyOf(each)] : [])))];
}

const hasMoney = ({ asked: { line, option } }: OptionAnswer): boolean =>
  line.rates !== null || option?.once != null;
