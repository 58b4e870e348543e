import type { Calendar, CalendarFault, Shift } from "./calendar.js";
import { readClock } from "./read-calendar.js";
import { longTime } from "./show-values.js";
import { MICROS_IN, type Micros } from "./units.js";

const DAY = 24 * MICROS_IN.h;

/**
 * Shifts that work at the same time of day, overtime included, told at the later of each two in the order of names. A line works one
 * shift after another, so the time that two of them share would count twice. Shifts given by their length alone are not compared.
 */
export function overlappingShifts({ shifts }: Calendar): CalendarFault[] {
  return shifts.flatMap((other, at) =>
    shifts.slice(0, at).flatMap((one) => {
      const shared = sharedTime(one, other);
      if (shared === 0) return [];
      const problem =
        `it overlaps shift ${one.name} by ${longTime(shared)} (${hoursWords(other)}, and ${hoursWords(one)}); ` +
        "let one end where the other begins; two crews at the same time need two line files";
      return [{ shift: other.name, problem }];
    }),
  );
}

/** "22:00 to 05:00", "06:00 to 14:00 with 30 min of overtime". */
function hoursWords({ from, to, overtime }: Shift): string {
  return `${from} to ${to}${overtime === 0 ? "" : ` with ${longTime(overtime)} of overtime`}`;
}

/** How long both work in one day; a shift over midnight goes on in the morning. 0 where one has no clock times. */
function sharedTime(one: Shift, other: Shift): Micros {
  const [first, second] = [startOf(one), startOf(other)];
  if (first === null || second === null) return 0;
  const within = (turn: Micros): Micros => {
    const start = Math.max(first, second + turn);
    const end = Math.min(first + one.gross + one.overtime, second + turn + other.gross + other.overtime);
    return Math.max(0, end - start);
  };
  return within(-DAY) + within(0) + within(DAY);
}

/** When it begins, since midnight; null where the file gives a length only. */
function startOf({ from }: Shift): Micros | null {
  const read = from === null ? null : readClock(from);
  return read?.ok ? read.value % DAY : null;
}
