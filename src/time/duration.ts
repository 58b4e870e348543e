import { explainDurationSlip } from "./duration-slips.js";
import { LONGEST_TEXT, NUMBER, readNumber } from "./exact-number.js";
import { quoted } from "./quoted.js";
import { add, multiply, type Ratio, ratio, toDecimal, ZERO } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { MICROS_IN, type Micros, TIME_UNITS, type TimeUnit, unitNamed } from "./units.js";

export { type Micros, TIME_UNITS, type TimeUnit };

const PARTS = new RegExp(`(${NUMBER})\\s*([a-z]+)\\s*`, "iuy");
const COLONS = /^(?:(\d+):)?(\d+):(\d{2}(?:\.\d+)?)$/u;

/**
 * A time as people write it, in whole microseconds: `60 s`, `1.5 min`, `7 1/2 h`, `60 cmin`, `1000 TMU`,
 * `1 min 20 s`, `mm:ss` or `h:mm:ss` whatever the unit. A bare number is in `bareUnit`; where that is null only a
 * bare 0 needs no unit. 0 is a time; blank is not. Refused: what is finer than a microsecond, what 2^53 cannot
 * hold, and every form that has two readings.
 */
export function readDuration(text: string, bareUnit: TimeUnit | null): Reading<Micros> {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a time`);
  const exact = readColons(trimmed) ?? readBare(trimmed, bareUnit) ?? readParts(trimmed);
  return exact === null ? refuse(explainDurationSlip(trimmed, bareUnit)) : wholeMicros(trimmed, exact);
}

/**
 * A bare number that is finer than a microsecond, as a spreadsheet works out 1/3 to sixteen digits, rounded to a whole one; null for what is
 * no time for another reason. `text` is what the time is then, as in `0.333333 s`.
 */
export function roundedTime(
  text: string,
  bareUnit: TimeUnit | null,
): { readonly text: string; readonly micros: Micros } | null {
  const number = bareUnit === null ? null : readNumber(text);
  if (number === null) return null;
  const seconds = multiply(number, ratio(MICROS_IN[bareUnit!], MICROS_IN.s));
  const rounded = `${toDecimal(seconds, 6).replace(/\.?0+$/u, "")} s`;
  const read = readDuration(rounded, null);
  return read.ok && read.value > 0 ? { text: rounded, micros: read.value } : null;
}

function readColons(text: string): Ratio | null {
  const found = COLONS.exec(text);
  if (!found) return null;
  const [, hours, minutes = "", seconds = ""] = found;
  if (Number(seconds) >= 60) return null;
  if (hours !== undefined && (minutes.length !== 2 || Number(minutes) >= 60)) return null;
  const whole = multiply(ratio(BigInt(hours ?? 0) * 60n + BigInt(minutes)), ratio(MICROS_IN.min));
  return add(whole, multiply(readNumber(seconds)!, ratio(MICROS_IN.s)));
}

function readBare(text: string, bareUnit: TimeUnit | null): Ratio | null {
  const number = readNumber(text);
  if (number === null) return null;
  if (bareUnit === null) return number.num === 0n ? ZERO : null;
  return multiply(number, ratio(MICROS_IN[bareUnit]));
}

/** One or more numbers with their units, the larger unit first: 7 h 30 min. */
function readParts(text: string): Ratio | null {
  let [sum, smallest]: [Ratio, number] = [ZERO, Number.POSITIVE_INFINITY];
  PARTS.lastIndex = 0;
  for (let at = 0; at < text.length; at = PARTS.lastIndex) {
    const part = PARTS.exec(text);
    const [number, unit] = [readNumber(part?.[1] ?? ""), unitNamed(part?.[2] ?? "")];
    if (number === null || unit === null || MICROS_IN[unit] >= smallest) return null;
    smallest = MICROS_IN[unit];
    sum = add(sum, multiply(number, ratio(smallest)));
  }
  return smallest === Number.POSITIVE_INFINITY ? null : sum;
}

function wholeMicros(text: string, exact: Ratio): Reading<Micros> {
  if (exact.num > BigInt(Number.MAX_SAFE_INTEGER) * exact.den) {
    return refuse(`${quoted(text)} is too long: a time is at most 9007199254 s, about 285 years`);
  }
  if (exact.den === 1n) return accept(Number(exact.num));
  const near = toDecimal(multiply(exact, ratio(1, MICROS_IN.s)), 6);
  const advice = Number(near) > 0 ? `write ${near} s, the nearest` : "the least above 0 is 0.000001 s";
  return refuse(`${quoted(text)} is finer than a microsecond, the smallest step kept: ${advice}`);
}
