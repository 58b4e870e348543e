import { countOf } from "../findings/count-of.js";
import { readDuration, roundedTime, type TimeUnit } from "../time/duration.js";
import { clockSlip } from "../time/duration-slips.js";
import { readNumber } from "../time/exact-number.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import type { Micros } from "../time/units.js";

/** A reading as written: what the watch showed, and whether it is marked as foreign to the work. */
export interface WrittenReading {
  readonly shown: Micros | null;
  readonly isMarked: boolean;
  /** What is taken for a number that is finer than a microsecond, with its unit; null where nothing was rounded. */
  readonly rounded: string | null;
}

/** Reads what stands in one place: a time, the mark of foreign work beside it, or the mark alone where no time was taken. */
export function readWritten(
  text: string,
  unit: TimeUnit | null,
  mark: string | null,
): Reading<WrittenReading> {
  const trimmed = text.trim();
  const marked = mark === null ? null : withoutMark(trimmed, mark);
  if (marked === "") return accept({ shown: null, isMarked: true, rounded: null });
  const time = marked ?? trimmed;
  const read = readDuration(time, unit);
  const rounded = read.ok ? null : roundedTime(time, unit);
  if (rounded !== null)
    return accept({ shown: rounded.micros, isMarked: marked !== null, rounded: rounded.text });
  if (!read.ok) return refuse(`${read.problem}${noteOf(time, mark)}`);
  const slip = clockSlip(time, read.value);
  if (slip !== null) return refuse(slip);
  if (read.value === 0) return refuse(`${quoted(trimmed)} is no reading: work takes time`);
  return accept({ shown: read.value, isMarked: marked !== null, rounded: null });
}

/** What is said of a reading that was rounded, and of so many more. */
export function roundedWords(text: string, rounded: string, more: number): string {
  const others = more === 0 ? "" : `; so ${more === 1 ? "is" : "are"} ${countOf(more, "further reading")}`;
  return `${quoted(text)} is rounded to ${rounded}, a whole number of microseconds${others}`;
}

/** Whether a reading is a bare number, which means nothing without a unit; told once, not at every reading. */
export const isBare = (text: string, mark: string | null): boolean =>
  readNumber((mark === null ? null : withoutMark(text.trim(), mark)) ?? text) !== null;

export const UNIT_MISSING = "bare numbers need a unit; give --unit s, min or cmin, or `unit` in the file";

/** Why a unit that the file gives for all of it does not go with that of the command line; null where it does. */
export const otherUnit = (ofFile: TimeUnit | null, given: TimeUnit | null): string | null =>
  ofFile === null || given === null || ofFile === given
    ? null
    : `the file says ${ofFile} here, and --unit says ${given}; leave out the one that is wrong`;

/** The rest of a text that begins or ends with the mark; null for one that does neither. */
function withoutMark(text: string, mark: string): string | null {
  if (text.endsWith(mark)) return text.slice(0, -mark.length).trim();
  return text.startsWith(mark) ? text.slice(mark.length).trim() : null;
}

/** What to do about a number with a sign beside it, as people mark readings that do not count. */
function noteOf(text: string, mark: string | null): string {
  const found = /^[\d.]+\s*([^\d\s.:]{1,2})$/u.exec(text);
  if (found === null || mark === found[1]) return "";
  return `. If ${quoted(found[1]!)} marks a reading that does not count, give --leave-out ${inShell(found[1]!)}`;
}

/** The mark as it is typed on a command line, where a bare * is all files of the folder. */
const inShell = (mark: string): string =>
  /^[\p{L}\p{N}]+$/u.test(mark) ? mark : mark.includes("'") ? `"${mark}"` : `'${mark}'`;
