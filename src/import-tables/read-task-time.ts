import { type DecimalMark, withPoint } from "../table/decimal-mark.js";
import type { Cell } from "../table/table.js";
import { readDuration, roundedTime } from "../time/duration.js";
import { clockSlip, unitMeant } from "../time/duration-slips.js";
import { LONGEST_TEXT } from "../time/exact-number.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import type { Micros, TimeUnit } from "../time/units.js";

/** A time of a table as a line file takes it. */
export interface TaskTime {
  /** As it is written into a line file: a bare number in the unit of the column, or a time with its own. */
  readonly text: string;
  readonly micros: Micros;
  /** A form with another reading: parts of minutes and seconds, a number finer than a microsecond that was rounded, a point that may part thousands. */
  readonly read: "mm:ss" | "h:mm:ss" | "rounded" | "point" | null;
}

/** Reads the cell of a time; the unit is that of a bare number, null where there is none. */
export function readTaskTime(cell: Cell, unit: TimeUnit | null, decimals: DecimalMark): Reading<TaskTime> {
  if (cell.text.trim() === "") return refuse("the time is missing in this row (blank is never 0)");
  if (cell.kind === "date" || cell.kind === "yes-no")
    return refuse(`the spreadsheet keeps ${cell.text} here, which is no time; type it again as text`);
  const pointed = withPoint(cell, decimals);
  if (!pointed.ok) return pointed;
  const bare = pointed.value.trim();
  const text = bare.length > LONGEST_TEXT ? bare : usualUnit(bare);
  const read = readDuration(text, unit);
  if (!read.ok) {
    const rounded = roundedTime(text, unit);
    return rounded === null ? read : accept({ ...rounded, read: "rounded" });
  }
  const slip = clockSlip(text, read.value);
  if (slip !== null) return refuse(slip);
  const mayBeThousands =
    cell.kind === "text" && decimals.mark === null && /^[1-9]\d{0,2}\.\d{3}(?!\d)/u.test(text);
  const parts = text.split(":").length;
  const form = parts > 2 ? "h:mm:ss" : parts > 1 ? "mm:ss" : mayBeThousands ? "point" : null;
  return accept({ text, micros: read.value, read: form });
}

/** `12 sec` and `2 mins` with the units that line files have. */
const usualUnit = (text: string): string =>
  text.replace(/(?<=\d\s*)[a-z]{2,}(?![a-z])/giu, (word) => unitMeant(word) ?? word);
