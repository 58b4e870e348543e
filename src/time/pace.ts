import { availableTimeOf, type Calendar } from "./calendar.js";
import type { Demand } from "./demand.js";
import { compare, divide, multiply, ONE, type Ratio, ratio, subtract } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { seconds } from "./show-values.js";
import type { Micros } from "./units.js";

/** The pace of the line and what one place of a station may be loaded with; ratios are exact microseconds. */
export interface Pace {
  /** Customer's pace: available time / good units wanted in it; null where the line cycle was given instead. */
  readonly takt: Ratio | null;
  /** Pace the line must be set to so that good units meet demand: takt x uptime x yield. */
  readonly lineCycle: Ratio;
  /** Time per unit and station lost to moving and positioning. */
  readonly handling: Micros;
  /** Share of the working time that planners load. */
  readonly planTo: Ratio;
  /** Line cycle - handling, of a station with one place. */
  readonly workingTime: Ratio;
  /** Working time x plan-to: what a station with one place may be loaded with. */
  readonly stationLimit: Ratio;
}

export interface PaceTerms {
  readonly demand: Demand;
  readonly calendar: Calendar | null;
  readonly uptime: Ratio;
  readonly yield: Ratio;
  readonly handling: Micros;
  readonly planTo: Ratio;
}

/** Customer's pace, in microseconds: available time / good units wanted in it. Refused as `availableTimeOf` is. */
export function taktOf(demand: Demand, calendar: Calendar | null): Reading<Ratio> {
  const available = availableTimeOf(calendar, demand.period);
  return available.ok ? accept(divide(available.value, demand.units)) : available;
}

/**
 * The pace that meets a demand. Refused where the calendar lacks what the period needs, or where handling leaves no
 * working time. Formulas: 60 E / Rp for the cycle and Tc - Tr for the working time (Groover, manual assembly lines);
 * input needed = output / yield where operations scrap parts (Tompkins and White).
 */
export function paceFromDemand(terms: PaceTerms): Reading<Pace> {
  const takted = taktOf(terms.demand, terms.calendar);
  if (!takted.ok) return takted;
  const takt = takted.value;
  const lineCycle = multiply(takt, multiply(terms.uptime, terms.yield));
  if (compare(lineCycle, ratio(terms.handling)) <= 0) return refuse(noWorkingTime(terms.handling, lineCycle));
  return accept({ ...withLineCycle(terms, lineCycle), takt });
}

/** The same handling and reserve at another line cycle, in microseconds, no shorter than the handling; its takt is not told. */
export function withLineCycle(
  { handling, planTo }: Pick<Pace, "handling" | "planTo">,
  lineCycle: Ratio,
): Pace {
  const workingTime = subtract(lineCycle, ratio(handling));
  return {
    takt: null,
    lineCycle,
    handling,
    planTo,
    workingTime,
    stationLimit: multiply(workingTime, planTo),
  };
}

function noWorkingTime(handling: Micros, lineCycle: Ratio): string {
  const less = "handling must be below the line cycle; lower it, or the demand";
  return `handling of ${seconds(handling)} leaves no working time in a line cycle of ${seconds(lineCycle)}: ${less}`;
}

/** A given line cycle, which is then the working time and the station limit too: no handling, no reserve. */
export function paceFromCycle(lineCycle: Micros): Pace {
  const whole = ratio(lineCycle);
  return { takt: null, lineCycle: whole, handling: 0, planTo: ONE, workingTime: whole, stationLimit: whole };
}
