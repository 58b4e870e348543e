import type { Calendar, CalendarFault, Shift } from "./calendar.js";
import { readClock } from "./read-calendar.js";
import { longTime } from "./show-values.js";
import { MICROS_IN, type Micros } from "./units.js";

const DAY = 24 * MICROS_IN.h;

/** Of a shift that overlaps many, so many are told: the rest shows when these are mended. */
const MOST_TOLD = 3;

/**
 * Shifts that work at the same time of day, overtime included, told at the later of each two in the order of names. A line works one
 * shift after another, so the time that two of them share would count twice. Shifts given by their length alone are not compared.
 */
export function overlappingShifts({ shifts }: Calendar): CalendarFault[] {
  const turns = shifts.flatMap((shift) => {
    const start = startOf(shift);
    const length = shift.gross + shift.overtime;
    return start === null || length <= 0 ? [] : [{ shift, start, end: start + length }];
  });
  return turns.flatMap((other, at) => {
    const shared = firstOf(MOST_TOLD + 1, at, (before) => {
      const one = turns[before]!;
      const time = sharedTime(one, other);
      return time === 0 ? null : { one: one.shift, time };
    });
    return shared.slice(0, MOST_TOLD).map(({ one, time }, told) => {
      const hasMore = told === MOST_TOLD - 1 && shared.length > MOST_TOLD;
      const problem =
        `it overlaps shift ${one.name} by ${longTime(time)} (${hoursWords(other.shift)}, and ${hoursWords(one)})` +
        `${hasMore ? ", and more shifts than these" : ""}; ` +
        "let one end where the other begins; two crews at the same time need two line files";
      return { shift: other.shift.name, problem };
    });
  });
}

/** What is found first for the numbers below one, no more than so many. */
function firstOf<Found>(most: number, below: number, find: (number: number) => Found | null): Found[] {
  const all: Found[] = [];
  for (let number = 0; number < below && all.length < most; number++) {
    const found = find(number);
    if (found !== null) all.push(found);
  }
  return all;
}

/** "22:00 to 05:00", "06:00 to 14:00 with 30 min of overtime". */
function hoursWords({ from, to, overtime }: Shift): string {
  return `${from} to ${to}${overtime === 0 ? "" : ` with ${longTime(overtime)} of overtime`}`;
}

/** Of a shift, in time since midnight; the end may lie in the morning after. */
interface Turn {
  readonly start: Micros;
  readonly end: Micros;
}

/** How long both work in one day; a shift over midnight goes on in the morning. */
function sharedTime(one: Turn, other: Turn): Micros {
  const within = (turn: Micros): Micros =>
    Math.max(0, Math.min(one.end, other.end + turn) - Math.max(one.start, other.start + turn));
  return within(-DAY) + within(0) + within(DAY);
}

/** When it begins, since midnight; null where the file gives a length only. */
function startOf({ from }: Shift): Micros | null {
  const read = from === null ? null : readClock(from);
  return read?.ok ? read.value % DAY : null;
}
