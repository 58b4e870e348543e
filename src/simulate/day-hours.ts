import type { Line } from "../line/line.js";
import { availableTime, availableTimeOfDay, type Shift } from "../time/calendar.js";
import { readClock } from "../time/read-calendar.js";
import { MICROS_IN, type Micros } from "../time/units.js";

/** A stretch of a day in which somebody works, in microseconds from the start of its first shift. */
interface Stretch {
  readonly from: Micros;
  readonly to: Micros;
}

/** When somebody works in the course of days that are all alike: the way from time that is worked to the clock and back. Microseconds from the start of the first day. */
export class Hours {
  /** Worked in a day before each stretch, and in all of them. */
  private readonly before: readonly Micros[];

  constructor(
    private readonly stretches: readonly Stretch[],
    private readonly day: Micros,
  ) {
    let worked = 0;
    this.before = [0, ...stretches.map(({ from, to }) => (worked += to - from))];
  }

  /** The moment at which so much has been worked; where a pause follows, the one before it. */
  clockAt(worked: Micros): Micros {
    const whole = this.before.at(-1)!;
    const days = Math.max(0, Math.ceil(worked / whole) - 1);
    const left = worked - days * whole;
    let at = 0;
    while (at < this.stretches.length - 1 && left > this.before[at + 1]!) at++;
    return days * this.day + this.stretches[at]!.from + left - this.before[at]!;
  }

  /** How much has been worked by then. */
  workedAt(clock: Micros): Micros {
    const days = Math.floor(clock / this.day);
    const left = clock - days * this.day;
    let at = this.stretches.length - 1;
    while (at > 0 && left < this.stretches[at]!.from) at--;
    const { from, to } = this.stretches[at]!;
    return days * this.before.at(-1)! + this.before[at]! + Math.max(0, Math.min(left, to) - from);
  }

  /** When something ends that takes so long and needs nobody: in a pause it goes on. Time that is worked, both. */
  unattendedUntil(worked: Micros, takes: Micros): Micros {
    return Math.max(worked, this.workedAt(this.clockAt(worked) + takes));
  }

  /** Whether anybody works between two moments of a day. */
  isWorkedIn(from: Micros, to: Micros): boolean {
    return this.stretches.some((each) => each.from < to && each.to > from);
  }
}

/** A day of a line, and of a bench that works other shifts. */
export interface DayHours {
  readonly line: Hours;
  readonly bench: Hours;
  /** From the start of the first shift to that of the next day. */
  readonly length: Micros;
  /** When the first shift starts, in microseconds since midnight; null where shifts have lengths only. */
  readonly starts: Micros | null;
}

/**
 * When a line works, and a bench of so many shifts: the first ones with the line, those beyond them behind its last one, each of their mean
 * available time. Shifts without clock times follow each other. Breaks, stops and changeovers part a shift into equal stretches, the longest
 * of them in its middle.
 */
export function dayHours(line: Line, shifts: number | null): DayHours | null {
  const { calendar } = line;
  if (calendar === null) return null;
  const placed = placeShifts(calendar.shifts);
  const worked = shifts ?? placed.length;
  const end = Math.max(...placed.map(({ from, shift }) => from + shift.gross + shift.overtime));
  const mean = Math.round(availableTimeOfDay(calendar) / placed.length);
  const beyond = Array.from({ length: Math.max(0, worked - placed.length) }, (_, at) => ({
    from: end + at * mean,
    to: end + (at + 1) * mean,
  }));
  const length = Math.max(24 * MICROS_IN.h, beyond.at(-1)?.to ?? end);
  const ofLine = inOrder(placed.flatMap(stretchesOf));
  // The shifts of a bench are counted as the calendar lists them.
  const first = placed.filter(({ shift }) => calendar.shifts.indexOf(shift) < worked);
  return {
    line: new Hours(ofLine, length),
    bench: new Hours(inOrder([...first.flatMap(stretchesOf), ...beyond]), length),
    length,
    starts: placed[0]!.starts,
  };
}

interface PlacedShift {
  readonly shift: Shift;
  /** From the start of the day. */
  readonly from: Micros;
  readonly starts: Micros | null;
}

const inOrder = (stretches: readonly Stretch[]): Stretch[] =>
  [...stretches].sort((one, two) => one.from - two.from);

/** By the clock where every shift has its times, else one after another. */
function placeShifts(shifts: readonly Shift[]): PlacedShift[] {
  const clocks = shifts.map(({ from }) => (from === null ? null : readClock(from)));
  if (clocks.every((clock) => clock?.ok)) {
    const starts = clocks.map((clock) => (clock?.ok ? clock.value : 0));
    const earliest = Math.min(...starts);
    return shifts
      .map((shift, at) => ({ shift, from: starts[at]! - earliest, starts: earliest }))
      .sort((one, two) => one.from - two.from);
  }
  let from = 0;
  return shifts.map((shift) => {
    const placed = { shift, from, starts: null };
    from += shift.gross + shift.overtime;
    return placed;
  });
}

/** Pauses of one name beyond this number are taken together. */
const MOST_PAUSES = 100;

function stretchesOf({ shift, from }: PlacedShift): Stretch[] {
  const pauses = [...shift.breaks, ...shift.stops, ...shift.changeovers].flatMap(({ count, each }) => {
    const parts = Math.min(count, MOST_PAUSES);
    const long = Math.floor((count * each) / parts);
    return Array.from({ length: parts }, (_, at) => (at > 0 ? long : count * each - (parts - 1) * long));
  });
  const ordered = longestInTheMiddle(pauses.filter((each) => each > 0));
  const available = availableTime(shift);
  const long = Math.floor(available / (ordered.length + 1));
  let now = from;
  return [...ordered, 0].map((pause, at) => {
    const to = now + (at < ordered.length ? long : available - at * long);
    const stretch = { from: now, to };
    now = to + pause;
    return stretch;
  });
}

function longestInTheMiddle(pauses: readonly Micros[]): Micros[] {
  const [front, back]: [Micros[], Micros[]] = [[], []];
  for (const [at, pause] of [...pauses].sort((one, two) => one - two).entries())
    (at % 2 === 0 ? front : back).push(pause);
  return [...front, ...back.reverse()];
}
