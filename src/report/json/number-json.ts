import type { Ratio } from "../../time/ratio.js";
import { plainNumber, secondsNumber } from "../../time/show-numbers.js";

/** Microseconds as seconds, rounded half up to 6 decimals; null stays null. */
export function secondsJson(value: Ratio | number): number;
export function secondsJson(value: Ratio | number | null): number | null;
export function secondsJson(value: Ratio | number | null): number | null {
  return value === null ? null : secondsNumber(value);
}

/** A share as a fraction, or any other exact number, rounded half up to 6 decimals; null stays null. */
export function numberJson(value: Ratio): number;
export function numberJson(value: Ratio | null): number | null;
export function numberJson(value: Ratio | null): number | null {
  return value === null ? null : plainNumber(value);
}
