import { leastCommonMultiple, type Ratio } from "../../time/ratio.js";

/** The smallest whole number that makes every one of the ratios whole when multiplied by it; 1 for none. */
export function commonDenominator(ratios: readonly Ratio[]): bigint {
  return ratios.reduce((common, { den }) => leastCommonMultiple(common, den), 1n);
}
