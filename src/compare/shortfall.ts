import { shiftTime, unitsPerHour } from "../plan/figures/output.js";
import { compare, type Ratio, ratio } from "../time/ratio.js";
import {
  outputPerDay,
  outputPerShift,
  slowestCycle,
  wantedPerDay,
  wantedPerHour,
  wantedPerShift,
} from "./figures.js";
import type { OptionAnswer } from "./option-answer.js";

/** What an option makes of what it is asked for, where that is less. */
export interface Shortfall {
  /** What the units are counted in: the day where shifts differ, the hour without a calendar; null where only a line cycle is given. */
  readonly period: "shift" | "day" | "hour" | null;
  /** Good units wanted in the period; without a period the line cycle asked for, in microseconds. */
  readonly wanted: Ratio;
  /** Good units made in it, whole ones of a shift; without a period the cycle of the slowest post. */
  readonly made: Ratio;
}

/** Null where the slowest post keeps the line cycle, as every unit wanted is then made; and without a plan. */
export function shortfallOf(answer: OptionAnswer): Shortfall | null {
  const { line, pace, takt } = answer.asked;
  const slowest = slowestCycle(answer);
  if (slowest === null || compare(slowest, pace.lineCycle) <= 0) return null;
  if (takt === null) return { period: null, wanted: pace.lineCycle, made: slowest };
  if (line.calendar === null) {
    return { period: "hour", wanted: wantedPerHour(answer)!, made: unitsPerHour(line, slowest)! };
  }
  const isEven = shiftTime(line) !== null;
  const [wanted, made] = isEven
    ? [wantedPerShift(answer), outputPerShift(answer)]
    : [wantedPerDay(answer), outputPerDay(answer)];
  return { period: isEven ? "shift" : "day", wanted: wanted!, made: ratio(made!) };
}
