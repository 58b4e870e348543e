import { cycleOfPost } from "../../plan/figures/cycle.js";
import { shiftTime, unitsPerHour } from "../../plan/figures/output.js";
import { ceiling, compare, divide, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { mostTables } from "./answer-option.js";
import {
  outputCycle,
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
  /** Good units made in it, whole ones of a shift; without a period how often a unit comes. */
  readonly made: Ratio;
  /** Wanted and not made; without a period the time by which the cycle is too long. */
  readonly lacking: Ratio;
  /** Waits hold the line up longer than its slowest post does. */
  readonly isHeld: boolean;
  /** People at tables who would keep up; null where none work there, or fewer have the skills. */
  readonly atTables: bigint | null;
}

/** Null where units come as often as the line cycle, as every unit wanted is then made; and without a plan. */
export function shortfallOf(answer: OptionAnswer): Shortfall | null {
  const { line, pace, takt } = answer.asked;
  const cycle = outputCycle(answer);
  if (cycle === null || compare(cycle, pace.lineCycle) <= 0) return null;
  const atTables = tablesNeeded(answer);
  const isHeld = compare(cycle, slowestCycle(answer)!) > 0;
  const miss = (period: Shortfall["period"], wanted: Ratio, made: Ratio): Shortfall => {
    const lacking = period === null ? subtract(made, wanted) : subtract(wanted, made);
    return { period, wanted, made, lacking, isHeld, atTables };
  };
  if (takt === null) return miss(null, pace.lineCycle, cycle);
  if (line.calendar === null) {
    return miss("hour", wantedPerHour(answer)!, unitsPerHour(line, cycle)!);
  }
  const isEven = shiftTime(line) !== null;
  const [wanted, made] = isEven
    ? [wantedPerShift(answer), outputPerShift(answer)]
    : [wantedPerDay(answer), outputPerDay(answer)];
  return miss(isEven ? "shift" : "day", wanted!, ratio(made!));
}

function tablesNeeded({ asked: { line, pace }, posts }: OptionAnswer): bigint | null {
  const [post] = posts;
  if (post?.kind !== "tables" || compare(pace.lineCycle, ZERO) <= 0) return null;
  const needed = ceiling(divide(multiply(cycleOfPost(post), ratio(post.places)), pace.lineCycle));
  const most = mostTables(line);
  return most !== null && needed > BigInt(most) ? null : needed;
}
