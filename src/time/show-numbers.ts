import {
  compare,
  divide,
  floor,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  toDecimal,
  toNumber,
  ZERO,
} from "./ratio.js";
import { MICROS_IN } from "./units.js";

/*
 * How exact numbers become what is printed: plain numbers for machines, signs, and lengths of bars. Nothing here is a figure of a
 * line or a plan.
 */

const MICROS_IN_SECOND = ratio(1_000_000);

/** Microseconds as seconds, rounded half up to 6 decimals. */
export const secondsNumber = (value: Ratio | number): number =>
  toNumber(divide(typeof value === "number" ? ratio(value) : value, MICROS_IN_SECOND));

/** Microseconds as hours, rounded half up to 6 decimals. */
export const hoursNumber = (value: number): number => toNumber(ratio(value, MICROS_IN.h));

/** The same as an exact ratio. */
export const inSeconds = (value: Ratio): Ratio => divide(value, MICROS_IN_SECOND);

/** An exact number, rounded half up to 6 decimals. */
export const plainNumber = (value: Ratio): number => toNumber(value);

/** -1, 0 or 1. */
export const signOf = (value: Ratio): number => Math.sign(compare(value, ZERO));

/** Without its sign. */
export const sizeOf = (value: Ratio): Ratio => (compare(value, ZERO) < 0 ? subtract(ZERO, value) : value);

/** Whether a share is above, or below, so many per cent. */
export const shareAbove = (share: Ratio, percent: number): boolean => compare(share, ratio(percent, 100)) > 0;
export const shareBelow = (share: Ratio, percent: number): boolean => compare(share, ratio(percent, 100)) < 0;

/** A share of 100 %, or a factor that changes nothing. */
export const isOne = (value: Ratio): boolean => compare(value, ONE) === 0;

/** Above 0 where the first is the larger, 0 where both are the same. */
export const difference = (one: Ratio, two: Ratio): number => Math.sign(compare(one, two));

/** The number that a text begins with, exactly: what people read and take from another. */
export function numberShown(text: string): Ratio {
  const [digits = "0", after = ""] = /^-?[\d.,]+/u.exec(text)?.[0].replaceAll(",", "").split(".") ?? [];
  return ratio(BigInt(digits + after), 10n ** BigInt(after.length));
}

/** What is left of one number that is shown when another is taken from it. */
export const shownDifference = (one: Ratio, other: Ratio): Ratio => subtract(one, other);

/** One number that is shown divided by another. */
export const quotientShown = (one: Ratio, other: Ratio): Ratio => divide(one, other);

/** So many of `length` signs show a share, to the nearest one. */
export const lengthOf = (share: Ratio, length: number): number =>
  Number(toDecimal(multiply(share, ratio(length)), 0));

/** The column of a value on an axis of so many, 0 at its start. */
export function columnOf(value: Ratio, from: Ratio, to: Ratio, columns: number): number {
  const length = subtract(to, from);
  if (length.num === 0n) return 0;
  return Number(floor(divide(multiply(subtract(value, from), ratio(columns)), length)));
}
