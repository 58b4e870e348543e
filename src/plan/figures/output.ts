import type { Line } from "../../line/line.js";
import { availableTime, availableTimeOfDay } from "../../time/calendar.js";
import type { Micros } from "../../time/duration.js";
import { compare, divide, floor, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import type { TaktSum } from "../../time/takt.js";
import { MICROS_IN } from "../../time/units.js";

/** The available time that every shift of the calendar has, in microseconds; null without a calendar or where shifts differ. */
export function shiftTime(line: Line): Micros | null {
  const times = (line.calendar?.shifts ?? []).map(availableTime);
  const [first] = times;
  return first !== undefined && times.every((each) => each === first) ? first : null;
}

/** Units started in an available time = time x uptime / line cycle; null without a line cycle. */
export function unitsStarted(line: Line, available: Ratio, lineCycle: Ratio): Ratio | null {
  if (compare(lineCycle, ZERO) <= 0) return null;
  return divide(multiply(available, line.uptime), lineCycle);
}

/** What of an available time goes into good units = time x uptime x yield, in microseconds: line cycles of so many units fill it. */
export const timeForGoodUnits = (line: Line, available: Ratio): Ratio =>
  multiply(multiply(available, line.uptime), line.yield);

/** Available time that so many line cycles of good units take, in microseconds: the inverse. */
export const availableTimeFor = (line: Line, cycles: Ratio): Ratio =>
  divide(cycles, multiply(line.uptime, line.yield));

/** What of the units started so many good ones take = good units / yield; the same for the work of units. */
export const startedFor = (line: Line, good: Ratio): Ratio => divide(good, line.yield);

/** Good units of an available time = time x uptime x yield / line cycle, in parts of a unit; null without a line cycle. */
export function goodUnits(line: Line, available: Ratio, lineCycle: Ratio): Ratio | null {
  const started = unitsStarted(line, available, lineCycle);
  return started && multiply(started, line.yield);
}

/** Good units per hour of available time at a line cycle in microseconds; null without one. */
export const unitsPerHour = (line: Line, lineCycle: Ratio): Ratio | null =>
  goodUnits(line, ratio(MICROS_IN.h), lineCycle);

/**
 * Output per shift = whole good units of its available time, rounded down. What a plan makes is told at the cycle of the plan; null
 * without a calendar, where shifts differ, and without a cycle.
 */
export function outputPerShift(line: Line, lineCycle: Ratio): number | null {
  const available = shiftTime(line);
  return available === null ? null : wholeUnits(line, available, lineCycle);
}

/** Good units wanted in a shift = its available time / takt; null without a demand and where shifts differ. */
export function wantedPerShift(line: Line, takt: TaktSum | null): Ratio | null {
  const available = shiftTime(line);
  return takt === null || available === null ? null : divide(ratio(available), takt.takt);
}

/** Good units wanted in a day = available time of all its shifts / takt; null without a demand and a calendar. */
export const wantedPerDay = (line: Line, takt: TaktSum | null): Ratio | null =>
  takt === null || line.calendar === null
    ? null
    : divide(ratio(availableTimeOfDay(line.calendar)), takt.takt);

/** Whole good units of one shift. */
export interface ShiftOutput {
  readonly shift: string;
  readonly units: number;
}

/** Whole good units of each shift of a day at a line cycle, in microseconds; null without a calendar or a cycle. */
export function outputByShift(line: Line, lineCycle: Ratio): ShiftOutput[] | null {
  const shifts = line.calendar?.shifts ?? [];
  if (shifts.length === 0 || compare(lineCycle, ZERO) <= 0) return null;
  return shifts.map((shift) => ({
    shift: shift.name,
    units: wholeUnits(line, availableTime(shift), lineCycle)!,
  }));
}

/** Good units of a day: the whole ones of each shift. */
export const outputOfDay = (byShift: readonly ShiftOutput[]): number =>
  byShift.reduce((sum, { units }) => sum + units, 0);

function wholeUnits(line: Line, available: Micros, lineCycle: Ratio): number | null {
  const units = goodUnits(line, ratio(available), lineCycle);
  return units && Number(floor(units));
}
