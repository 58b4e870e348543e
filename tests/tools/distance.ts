import { type Ratio, toNumber } from "../../src/time/ratio.js";

/** The distance of a squared one, rounded to 6 decimals, as published sequences print it. */
export const distance = (squared: Ratio): number => Math.round(Math.sqrt(toNumber(squared, 12)) * 1e6) / 1e6;
