import {
  availableTime,
  availableTimeOfDay,
  type Calendar,
  type CalendarCount,
  countsOf,
  type NamedTime,
  type Shift,
  totalOf,
} from "./calendar.js";
import type { Demand } from "./demand.js";
import { type Pace, type PaceTerms, paceFromDemand, taktOf } from "./pace.js";
import { ceiling, divide, multiply, type Ratio, ratio, subtract } from "./ratio.js";
import { accept, type Reading } from "./reading.js";
import { MICROS_IN, type Micros } from "./units.js";

/** One line that is taken off a shift, with its total. */
export interface TakenOff extends NamedTime {
  readonly kind: "break" | "stop" | "changeover";
  readonly total: Micros;
}

/** A shift with every term of its available time: gross - the totals taken off + overtime = available. */
export interface ShiftSum {
  readonly shift: Shift;
  readonly takenOff: readonly TakenOff[];
  readonly available: Micros;
}

/** The day and the period of the demand as sums over the calendar. */
export interface CalendarSum {
  readonly shifts: readonly ShiftSum[];
  readonly availablePerDay: Micros;
  /** Days or weeks that lead from the day to the period; none for an hour, a shift and a day. */
  readonly counts: readonly CalendarCount[];
  /** Good units per day at that demand. */
  readonly demandPerDay: Ratio;
}

/** One step from takt to the station limit; times in microseconds. */
export interface PaceStep {
  readonly kind: "uptime" | "yield" | "handling" | "plan-to";
  /** The share, or the handling in microseconds. */
  readonly amount: Ratio | Micros;
  readonly before: Ratio;
  readonly after: Ratio;
  /** What the step takes off: before - after. */
  readonly less: Ratio;
}

/** Takt and what follows from it, with every term of the sum: a report shows these and computes nothing. */
export interface TaktSum {
  readonly terms: PaceTerms;
  /** Null where the demand is per hour of available time and no calendar is given. */
  readonly calendar: CalendarSum | null;
  /** Available time in the period of the demand, in microseconds. */
  readonly availablePerPeriod: Ratio;
  /** Good units per hour of available time. */
  readonly demandPerHour: Ratio;
  readonly pace: Pace;
  readonly takt: Ratio;
  /** In the order uptime, yield, handling, plan-to; each begins where the last one ended. */
  readonly steps: readonly PaceStep[];
  /** Units to start in the period so that the good ones meet demand: demand / yield, exact and rounded up. */
  readonly unitsToStart: Ratio;
  readonly wholeUnitsToStart: bigint;
  /** Working time / line cycle: Groover's repositioning efficiency. */
  readonly workingShare: Ratio;
}

/** The whole sum from calendar and demand to the station limit; refused for the reasons of `paceFromDemand`. */
export function taktSum(terms: PaceTerms): Reading<TaktSum> {
  const [takt, pace] = [taktOf(terms.demand, terms.calendar), paceFromDemand(terms)];
  if (!takt.ok) return takt;
  if (!pace.ok) return pace;
  const unitsToStart = divide(terms.demand.units, terms.yield);
  return accept({
    terms,
    calendar: terms.calendar && calendarSum(terms.calendar, terms.demand, takt.value),
    availablePerPeriod: multiply(takt.value, terms.demand.units),
    demandPerHour: divide(ratio(MICROS_IN.h), takt.value),
    takt: takt.value,
    pace: pace.value,
    steps: paceSteps(terms, takt.value, pace.value),
    unitsToStart,
    wholeUnitsToStart: ceiling(unitsToStart),
    workingShare: divide(pace.value.workingTime, pace.value.lineCycle),
  });
}

function calendarSum(calendar: Calendar, demand: Demand, takt: Ratio): CalendarSum {
  const availablePerDay = availableTimeOfDay(calendar);
  const counts = countsOf(calendar, demand.period);
  return {
    shifts: calendar.shifts.map(shiftSum),
    availablePerDay,
    counts: counts.ok ? counts.value : [],
    demandPerDay: divide(ratio(availablePerDay), takt),
  };
}

function shiftSum(shift: Shift): ShiftSum {
  const of = (kind: TakenOff["kind"], named: readonly NamedTime[]): TakenOff[] =>
    named.map((each) => ({ ...each, kind, total: totalOf(each) }));
  const takenOff = [
    ...of("break", shift.breaks),
    ...of("stop", shift.stops),
    ...of("changeover", shift.changeovers),
  ];
  return { shift, takenOff, available: availableTime(shift) };
}

function paceSteps(terms: PaceTerms, takt: Ratio, pace: Pace): PaceStep[] {
  const atUptime = multiply(takt, terms.uptime);
  const step = (
    kind: PaceStep["kind"],
    amount: PaceStep["amount"],
    before: Ratio,
    after: Ratio,
  ): PaceStep => ({
    kind,
    amount,
    before,
    after,
    less: subtract(before, after),
  });
  return [
    step("uptime", terms.uptime, takt, atUptime),
    step("yield", terms.yield, atUptime, pace.lineCycle),
    step("handling", terms.handling, pace.lineCycle, pace.workingTime),
    step("plan-to", terms.planTo, pace.workingTime, pace.stationLimit),
  ];
}
