import { divide, type Ratio, ratio, toNumber } from "../../time/ratio.js";

const MICROS_IN_SECOND = ratio(1_000_000);

/** Microseconds as seconds, rounded half up to 6 decimals; null stays null. */
export function secondsJson(value: Ratio | number | null): number | null {
  if (value === null) return null;
  return toNumber(divide(typeof value === "number" ? ratio(value) : value, MICROS_IN_SECOND));
}

/** A share as a fraction, or any other exact number, rounded half up to 6 decimals; null stays null. */
export const numberJson = (value: Ratio | null): number | null => (value === null ? null : toNumber(value));
