import { type Ratio, ratio } from "../time/ratio.js";

/** The smallest whole number that makes every one of the ratios whole when multiplied by it; 1 for none. */
export function commonDenominator(ratios: readonly Ratio[]): bigint {
  return ratios.reduce((common, { den }) => common * ratio(den, common).num, 1n);
}
