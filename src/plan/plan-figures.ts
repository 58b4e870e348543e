import type { Line } from "../line/line.js";
import { availableTime, availableTimeOfDay } from "../time/calendar.js";
import type { Micros } from "../time/duration.js";
import type { Pace } from "../time/pace.js";
import {
  add,
  compare,
  divide,
  floor,
  larger,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  toNumber,
  ZERO,
} from "../time/ratio.js";
import { MICROS_IN } from "../time/units.js";
import type { Plan, Station } from "./plan.js";
import { idleTime, operators, overload, personTime, stationCycle, workingTime } from "./station-figures.js";

/** Person-time of one unit: sum of task time x people, in microseconds. */
export function workContent(line: Line, plan: Plan): Ratio {
  return plan.stations.reduce((sum, station) => add(sum, personTime(line, station)), ZERO);
}

export function peopleOf(plan: Plan): number {
  return plan.stations.reduce((sum, station) => sum + operators(station), 0);
}

/** People on the payroll of a day: every shift has its own; null without a calendar. */
export function peoplePerDay(line: Line, plan: Plan): number | null {
  return line.calendar === null ? null : peopleOf(plan) * line.calendar.shifts.length;
}

/** Cycle of the plan = largest (station time + handling) / places, in microseconds. */
export function cycleOfPlan(line: Line, pace: Pace, plan: Plan): Ratio {
  return plan.stations.map((station) => stationCycle(line, pace, station)).reduce(larger, ZERO);
}

/** The first station whose cycle is the cycle of the plan. Throws a RangeError for a plan without stations. */
export function slowestStation(line: Line, pace: Pace, plan: Plan): Station {
  const slowest = cycleOfPlan(line, pace, plan);
  const found = plan.stations.find((each) => compare(stationCycle(line, pace, each), slowest) === 0);
  if (found === undefined) throw new RangeError("a plan without stations has no slowest station");
  return found;
}

export function isOverloaded(line: Line, pace: Pace, plan: Plan): boolean {
  return plan.stations.some((station) => compare(overload(line, pace, station), ZERO) > 0);
}

/** Work content / sum of crew x working time at the given line cycle; null where that sum is 0. */
function efficiencyAt(line: Line, pace: Pace, plan: Plan, lineCycle: Ratio): Ratio | null {
  const paid = plan.stations
    .map((station) => multiply(ratio(station.crew), workingTime(pace, station, lineCycle)))
    .reduce(add, ZERO);
  return compare(paid, ZERO) > 0 ? divide(workContent(line, plan), paid) : null;
}

/** Efficiency at the pace, 0 to 1; null when a station is overloaded. */
export function efficiencyAtPace(line: Line, pace: Pace, plan: Plan): Ratio | null {
  return isOverloaded(line, pace, plan) ? null : efficiencyAt(line, pace, plan, pace.lineCycle);
}

/** Efficiency with the cycle of the plan in place of the line cycle, 0 to 1; null for a plan without work. */
export function efficiencyAtSlowest(line: Line, pace: Pace, plan: Plan): Ratio | null {
  return efficiencyAt(line, pace, plan, cycleOfPlan(line, pace, plan));
}

/** Balance delay = 1 - efficiency; not known where the efficiency is not. */
export function balanceDelay(efficiency: Ratio | null): Ratio | null {
  return efficiency === null ? null : subtract(ONE, efficiency);
}

/** Square root of the sum over stations of (cycle of the plan - cycle of the station)^2, in microseconds. */
export function smoothness(line: Line, pace: Pace, plan: Plan): number {
  const slowest = cycleOfPlan(line, pace, plan);
  const squares = plan.stations
    .map((station) => subtract(slowest, stationCycle(line, pace, station)))
    .map((gap) => multiply(gap, gap))
    .reduce(add, ZERO);
  return Math.sqrt(toNumber(squares, 0));
}

/** Idle time of all stations for one unit, in microseconds. */
export function idlePerUnit(line: Line, pace: Pace, plan: Plan): Ratio {
  return plan.stations.map((station) => idleTime(line, pace, station)).reduce(add, ZERO);
}

/** The available time that every shift of the calendar has, in microseconds; null without a calendar or where shifts differ. */
export function shiftTime(line: Line): Micros | null {
  const times = (line.calendar?.shifts ?? []).map(availableTime);
  const [first] = times;
  return first !== undefined && times.every((each) => each === first) ? first : null;
}

/** Idle per unit x units started in a shift at the pace (available time x uptime / line cycle), in microseconds. */
export function idlePerShift(line: Line, pace: Pace, plan: Plan): Ratio | null {
  const available = shiftTime(line);
  if (available === null || compare(pace.lineCycle, ZERO) === 0) return null;
  const started = divide(multiply(ratio(available), line.uptime), pace.lineCycle);
  return multiply(idlePerUnit(line, pace, plan), started);
}

/** The same of all shifts of a day; null without a calendar. */
export function idlePerDay(line: Line, pace: Pace, plan: Plan): Ratio | null {
  return idlePerDayOf(line, pace, idlePerUnit(line, pace, plan));
}

/** The same for an idle time per unit, in microseconds. */
export function idlePerDayOf(line: Line, pace: Pace, perUnit: Ratio): Ratio | null {
  if (line.calendar === null || compare(pace.lineCycle, ZERO) === 0) return null;
  const available = ratio(availableTimeOfDay(line.calendar));
  return multiply(perUnit, divide(multiply(available, line.uptime), pace.lineCycle));
}

/** Good units per hour of available time: 1 h x uptime x yield / cycle of the plan; null for a plan without work. */
export function unitsPerHour(line: Line, pace: Pace, plan: Plan): Ratio | null {
  return unitsPerHourAt(line, cycleOfPlan(line, pace, plan));
}

/** The same at a given line cycle, in microseconds. */
export function unitsPerHourAt(line: Line, lineCycle: Ratio): Ratio | null {
  if (compare(lineCycle, ZERO) <= 0) return null;
  return divide(multiply(multiply(ratio(MICROS_IN.h), line.uptime), line.yield), lineCycle);
}

/** Whole good units of a shift: floor(available time x uptime x yield / cycle of the plan). */
export function outputPerShift(line: Line, pace: Pace, plan: Plan): number | null {
  return outputPerShiftAt(line, cycleOfPlan(line, pace, plan));
}

/** The same at a given line cycle, in microseconds. */
export function outputPerShiftAt(line: Line, lineCycle: Ratio): number | null {
  const available = shiftTime(line);
  if (available === null || compare(lineCycle, ZERO) <= 0) return null;
  return unitsIn(line, lineCycle, available);
}

/** Whole good units of one shift. */
export interface ShiftOutput {
  readonly shift: string;
  readonly units: number;
}

/** Whole good units of each shift of a day at a line cycle, in microseconds; null without a calendar or a cycle. */
export function outputByShiftAt(line: Line, lineCycle: Ratio): ShiftOutput[] | null {
  const shifts = line.calendar?.shifts ?? [];
  if (shifts.length === 0 || compare(lineCycle, ZERO) <= 0) return null;
  return shifts.map((shift) => ({
    shift: shift.name,
    units: unitsIn(line, lineCycle, availableTime(shift)),
  }));
}

/** Good units of a day: the whole ones of each shift. */
export const outputOfDay = (byShift: readonly ShiftOutput[]): number =>
  byShift.reduce((sum, { units }) => sum + units, 0);

function unitsIn(line: Line, lineCycle: Ratio, available: Micros): number {
  const running = multiply(multiply(ratio(available), line.uptime), line.yield);
  return Number(floor(divide(running, lineCycle)));
}
