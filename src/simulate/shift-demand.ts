import type { Line } from "../line/line.js";
import { shiftTime, timeForGoodUnits } from "../plan/figures/output.js";
import { availableTimeOfDay } from "../time/calendar.js";
import { normalScore } from "../time/normal-share.js";
import {
  add,
  ceiling,
  divide,
  floor,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../time/ratio.js";
import { rootOf } from "./intervals.js";
import type { Run } from "./watched-line.js";

/** How many simulated shifts make what is wanted in one. */
export interface ShiftDemand {
  /** Days where the shifts of a day differ. */
  readonly each: "shift" | "day";
  /** Good units wanted in one. */
  readonly wanted: Ratio;
  /** Whole ones in the hours that are watched, all replications together, and those that make it. */
  readonly count: number;
  readonly met: number;
  readonly share: Ratio;
  /** Ends of the interval of the share that makes it; null where nothing varies. */
  readonly interval: readonly [Ratio, Ratio] | null;
}

/** A shift of a line, or a day where shifts differ, in the hours in which the line runs. */
export interface ShiftOfRun {
  readonly each: ShiftDemand["each"];
  /** In microseconds. */
  readonly length: number;
  readonly wanted: Ratio;
  /** Units that must leave the line in it. */
  readonly needed: number;
}

/**
 * Null without a calendar and where nothing gives the pace. Whole units only: a shift that lacks a part of one does not make it.
 *
 * @param lineCycle in microseconds, not rounded
 */
export function shiftOfRun(line: Line, lineCycle: Ratio | null): ShiftOfRun | null {
  if (line.calendar === null || lineCycle === null || lineCycle.num <= 0n) return null;
  const shift = shiftTime(line);
  const available = ratio(shift ?? availableTimeOfDay(line.calendar));
  const runs = timeForGoodUnits({ ...line, yield: ONE }, available);
  return {
    each: shift === null ? "day" : "shift",
    length: Number(floor(runs)),
    wanted: divide(timeForGoodUnits(line, available), lineCycle),
    needed: Number(ceiling(divide(runs, lineCycle))),
  };
}

/** Null where no whole shift was watched. */
export function shiftDemandOf(
  runs: readonly Run[],
  { each, wanted, needed }: ShiftOfRun,
  confidence: Ratio,
  varies: boolean,
): ShiftDemand | null {
  const left = runs.flatMap(({ shifts = [] }) => shifts);
  if (left.length === 0) return null;
  const met = left.filter((units) => units >= needed).length;
  const interval = varies ? wilsonInterval(met, left.length, confidence) : null;
  return { each, wanted, count: left.length, met, share: ratio(met, left.length), interval };
}

/** The interval of a share of which so many of a count were seen: E. B. Wilson, Journal of the American Statistical Association 22 (1927). */
export function wilsonInterval(seen: number, count: number, confidence: Ratio): [Ratio, Ratio] {
  const z = normalScore(divide(add(ONE, confidence), ratio(2)));
  const square = divide(multiply(z, z), ratio(count));
  const share = ratio(seen, count);
  const whole = add(ONE, square);
  const middle = divide(add(share, divide(square, ratio(2))), whole);
  const variance = add(
    divide(multiply(share, subtract(ONE, share)), ratio(count)),
    divide(square, ratio(4 * count)),
  );
  const half = divide(multiply(z, rootOf(variance)), whole);
  // A share of none or of all is an end itself; the root is rounded.
  return [seen === 0 ? ZERO : subtract(middle, half), seen === count ? ONE : add(middle, half)];
}
