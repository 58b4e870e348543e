import { InvalidArgumentError } from "commander";
import { nearestWords } from "../findings/nearest.js";
import { readDuration } from "../time/duration.js";
import { readNumber } from "../time/exact-number.js";
import { explainNumberSlip } from "../time/number-slips.js";
import { ceiling, floor } from "../time/ratio.js";
import type { Reading } from "../time/reading.js";
import { UsageError } from "./context.js";

/** What an option names, as it was looked up; throws a UsageError that says what is near. */
export function valueFor<Value>(option: string, reading: Reading<Value>): Value {
  if (!reading.ok) throw new UsageError(`${option}: ${reading.problem}`);
  return reading.value;
}

/** A whole number from 1 in plain digits, for an option such as `--stations`; anything else is refused. */
export function positiveWholeNumber(text: string): number {
  return wholeNumberFrom(1, text);
}

/** The same from 0, for an option such as `--max-moves`. */
export function wholeNumber(text: string): number {
  return wholeNumberFrom(0, text);
}

function wholeNumberFrom(least: number, text: string): number {
  const trimmed = text.trim();
  const expected = `A whole number from ${least} in plain digits is expected`;
  if (!/^\d+$/u.test(trimmed)) throw new InvalidArgumentError(`${expected}${nearWhole(trimmed)}.`);
  const value = Number(trimmed);
  if (value < least) throw new InvalidArgumentError(`${expected}.`);
  if (!Number.isSafeInteger(value))
    throw new InvalidArgumentError(`At most ${Number.MAX_SAFE_INTEGER} is possible.`);
  return value;
}

function nearWhole(text: string): string {
  const number = readNumber(text);
  if (number === null) {
    const slip = explainNumberSlip(text);
    return slip === null ? "" : `: ${slip}`;
  }
  const [below, above] = [floor(number), ceiling(number)];
  return below > 0n ? `; nearest: ${below}, ${above}` : `; nearest: ${above}`;
}

/** Seconds above 0, for `--seconds`; a bare number is in seconds, and other units are taken as well. */
export function positiveSeconds(text: string): number {
  const read = readDuration(text, "s");
  if (!read.ok) throw new InvalidArgumentError(`A time above 0 is expected: ${read.problem}.`);
  if (read.value === 0) throw new InvalidArgumentError("A time above 0 is expected, such as 30 s.");
  return read.value / 1e6;
}

/** An option read by one of our readers, whose problem is what the user is told. */
export const taking =
  <T>(read: (text: string) => Reading<T>) =>
  (text: string): T => {
    const value = read(text);
    if (value.ok) return value.value;
    throw new InvalidArgumentError(`${value.problem}.`);
  };

/** The same for one that may be given again. */
export const collected =
  <T>(read: (text: string) => Reading<T>) =>
  (text: string, before: readonly T[]): readonly T[] => [...before, taking(read)(text)];

/** One word of a short list, for an option such as `--format`. */
export function oneOf<Word extends string>(words: readonly Word[]): (text: string) => Word {
  return (text) => {
    const word = words.find((each) => each === text);
    if (word !== undefined) return word;
    throw new InvalidArgumentError(`One of ${words.join(", ")} is expected${nearestWords(text, words)}.`);
  };
}
