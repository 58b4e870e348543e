import type { CalendarCount, NamedTime } from "./calendar.js";
import { readDuration } from "./duration.js";
import { LONGEST_TEXT, readNumber } from "./exact-number.js";
import { explainNumberSlip } from "./number-slips.js";
import { quoted } from "./quoted.js";
import { compare, type Ratio, ratio } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { longTime } from "./show-values.js";
import { MICROS_IN, type Micros, type TimeUnit } from "./units.js";

const DAY = 24 * MICROS_IN.h;

/** A named time of a shift: `30 min`, or `3 x 10 min` for one that comes several times. The text may be 0. */
export function readNamedTime(name: string, text: string): Reading<NamedTime> {
  if (text.length > LONGEST_TEXT) return refuse(`${quoted(text)} is too long a text for a time`);
  const found = /^\s*(?!0x[\da-f]+\s*$)(\d+)\s*[x×]\s*(\S.*)$/iu.exec(text);
  const each = readWithUnit(found?.[2] ?? text, ["min", "s"]);
  if (!each.ok) return turnedRound(text) ?? each;
  const count = found ? Number(found[1]) : 1;
  if (count < 1)
    return refuse(`${quoted(text.trim())} is no time: the number before the x is a whole number from 1`);
  if (count * each.value > DAY) return refuse(`${quoted(text.trim())} is more than the 24 h of a day`);
  return accept({ name, count, each: each.value });
}

/** A duration whose unit must be written out: the unit of the file is for task times only. */
function readWithUnit(text: string, near: readonly [TimeUnit, TimeUnit]): Reading<Micros> {
  const trimmed = text.trim();
  const bare = readNumber(trimmed);
  if (bare === null || bare.num === 0n) return readDuration(text, null);
  return refuse(
    `${quoted(trimmed)} is not a time: it needs a unit; write ${near.map((unit) => `${trimmed} ${unit}`).join(" or ")}`,
  );
}

function turnedRound(text: string): Reading<never> | null {
  const found = /^\s*(\S.*?)\s*[x×*]\s*(\d+)\s*$/iu.exec(text);
  if (!found || !readDuration(found[1]!, null).ok) return null;
  return refuse(`${quoted(text.trim())} is not a time: write ${found[2]} x ${found[1]}`);
}

/** A length of a shift or of overtime: at most 24 h. */
export function readShiftLength(text: string): Reading<Micros> {
  const read = readHours(text);
  if (read.ok && read.value > DAY) return refuse(`${quoted(text.trim())} is more than the 24 h of a day`);
  return read;
}

/** A time of some hours, with its unit. `7:30` is refused here, because it would be 7 min 30 s. */
export function readHours(text: string): Reading<Micros> {
  const trimmed = text.trim();
  const two = /^(\d+):(\d{2})$/u.exec(trimmed);
  const read = readWithUnit(trimmed, ["h", "min"]);
  if (two && read.ok) {
    const hours = `${two[1]} h${two[2] === "00" ? "" : ` ${Number(two[2])} min`}`;
    return refuse(
      `${quoted(trimmed)} would be ${longTime(read.value)} (a:b is mm:ss); write ${hours} or ${trimmed}:00`,
    );
  }
  return read;
}

/** A time of day in 24-hour form, `06:00` to `24:00`, in microseconds since midnight. */
export function readClock(text: string): Reading<Micros> {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a time of day`);
  const found = /^(\d{1,2}):(\d{2})$/u.exec(trimmed);
  const [hours, minutes] = [Number(found?.[1] ?? Number.NaN), Number(found?.[2] ?? Number.NaN)];
  if (minutes < 60 && hours * 60 + minutes <= 24 * 60)
    return accept(hours * MICROS_IN.h + minutes * MICROS_IN.min);
  const near = nearClock(trimmed);
  return refuse(
    `${quoted(trimmed)} is not a time of day: write ${near ?? "hours and minutes from 00:00 to 24:00, such as 06:00"}`,
  );
}

/** 6, 0600, 6.30, 6:00 pm and 06:00:00, in the form that is read. */
function nearClock(text: string): string | null {
  const found = /^(\d{1,2})(?:[:.h]?(\d{2}))?(?::00)?\s*([ap])?\.?m?\.?$/iu.exec(text);
  if (!found) return null;
  const half = found[3]?.toLowerCase();
  const hour = half ? (Number(found[1]) % 12) + (half === "p" ? 12 : 0) : Number(found[1]);
  const minute = found[2] ?? "00";
  return hour < 24 && Number(minute) < 60 ? `${String(hour).padStart(2, "0")}:${minute}` : null;
}

/** From one time of day to another, over midnight where the end is not after the start. */
export function grossBetween(from: string, to: string): Reading<Micros> {
  const [start, end] = [readClock(from), readClock(to)];
  if (!start.ok) return start;
  if (!end.ok) return end;
  const length = end.value - start.value;
  if (length === DAY) return accept(DAY);
  const within = ((length % DAY) + DAY) % DAY;
  if (within > 0) return accept(within);
  return refuse(
    `a shift from ${from.trim()} to ${to.trim()} has no length; if it runs round the clock, write \`length: 24 h\``,
  );
}

const MOST: Readonly<Record<CalendarCount["key"], number>> = {
  "days-per-week": 7,
  "days-per-month": 31,
  "days-per-year": 366,
  "weeks-per-year": 53,
};

/** A count of working days or weeks, such as 5 or 21.67: above 0 and possible. */
export function readCalendarCount(key: CalendarCount["key"], text: string): Reading<Ratio> {
  const trimmed = text.trim();
  const expected = `a number above 0, at most ${MOST[key]}, is expected`;
  if (trimmed === "") return refuse(`${key} is missing (blank is never 0): ${expected}`);
  if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a number`);
  const count = readNumber(trimmed);
  if (count === null)
    return refuse(`${quoted(trimmed)} is not a number: ${explainNumberSlip(trimmed) ?? expected}`);
  if (count.num === 0n || compare(count, ratio(MOST[key])) > 0)
    return refuse(`${quoted(trimmed)} cannot be: ${expected}`);
  return accept(count);
}
