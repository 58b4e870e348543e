import type { Line } from "../line/line.js";
import { availableTime, availableTimeOfDay } from "../time/calendar.js";
import { add, divide, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";

/** When a bench works beside its line. It starts with the line; shifts beyond those of the line follow, each of their mean length. */
export interface BenchHours {
  /** Shifts a day; null without a calendar: the bench then works when the line works. */
  readonly shifts: number | null;
  /** Available time of the bench / available time of the line, each of a day. */
  readonly ofLine: Ratio;
  /** Whether the bench works whenever the line works. */
  readonly coversLine: boolean;
}

/** Shifts that a day has: 1 where no calendar says more, so that people at a time and people per day are the same. */
export const shiftsOf = (line: Line): number => line.calendar?.shifts.length ?? 1;

export function hoursOf(line: Line, shifts: number | null): BenchHours {
  if (line.calendar === null) return { shifts: null, ofLine: ONE, coversLine: true };
  const worked = shifts ?? shiftsOf(line);
  const own = stretchesOf(line, worked)
    .map(({ bench }) => bench)
    .reduce(add, ZERO);
  return {
    shifts: worked,
    ofLine: divide(own, ratio(availableTimeOfDay(line.calendar))),
    coversLine: worked >= shiftsOf(line),
  };
}

/** The mean available time of a shift of the line, in microseconds; null without a calendar. */
export function meanShift(line: Line): Ratio | null {
  return line.calendar === null ? null : ratio(availableTimeOfDay(line.calendar), shiftsOf(line));
}

/** A shift that a bench works, with its available time in microseconds. */
export interface BenchShift {
  /** Its name; null for one beyond those of the line. */
  readonly name: string | null;
  readonly available: Ratio;
}

/** The shifts that a bench works, its first ones with the line; empty without a calendar. */
export function shiftsWorked(line: Line, { shifts }: BenchHours): BenchShift[] {
  const ofLine = line.calendar?.shifts ?? [];
  const mean = meanShift(line) ?? ZERO;
  return Array.from({ length: shifts ?? 0 }, (_, at) => {
    const shift = ofLine[at];
    return shift === undefined
      ? { name: null, available: mean }
      : { name: shift.name, available: ratio(availableTime(shift)) };
  });
}

/** Available time in each stretch of a day, for the line and for a bench of so many shifts; in microseconds. */
export function stretchesOf(line: Line, worked: number): { readonly line: Ratio; readonly bench: Ratio }[] {
  const shifts = line.calendar?.shifts ?? [];
  const mean = meanShift(line) ?? ZERO;
  return Array.from({ length: Math.max(shifts.length, worked) }, (_, at) => {
    const shift = shifts[at];
    const own = shift === undefined ? mean : ratio(availableTime(shift));
    return { line: shift === undefined ? ZERO : own, bench: at < worked ? own : ZERO };
  });
}
