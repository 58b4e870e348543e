import {
  add,
  ceiling,
  compare,
  divide,
  larger,
  multiply,
  type Ratio,
  ratio,
  subtract,
  ZERO,
} from "../time/ratio.js";

export const meanOf = (values: readonly Ratio[]): Ratio =>
  divide(values.reduce(add, ZERO), ratio(values.length));

export function medianOf(values: readonly Ratio[]): Ratio {
  const sorted = [...values].sort(compare);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : meanOf(sorted.slice(half - 1, half + 1));
}

/** The lowest value that comes more than once; null where none does. */
export function lowestRepeated(values: readonly Ratio[]): Ratio | null {
  const sorted = [...values].sort(compare);
  return sorted.find((value, at) => at > 0 && compare(value, sorted[at - 1]!) === 0) ?? null;
}

/** Of a sample: the squared deviations from the mean / (n - 1). Null below two values. */
export function varianceOf(values: readonly Ratio[]): Ratio | null {
  if (values.length < 2) return null;
  const mean = meanOf(values);
  const squares = values.map((value) => square(subtract(value, mean)));
  return divide(squares.reduce(add, ZERO), ratio(values.length - 1));
}

export const square = (value: Ratio): Ratio => multiply(value, value);

/** Parts of one in which roots are kept. */
const PARTS = 1_000_000n;

/** The square root of a number from 0, rounded half up to a millionth. */
export function squareRoot(value: Ratio): Ratio {
  // The root of 4 x parts^2 x value is twice the root in parts; half of it, rounded up, is the root rounded half up.
  const scaled = (4n * PARTS * PARTS * value.num) / value.den;
  return ratio((wholeRoot(scaled) + 1n) / 2n, PARTS);
}

/** The largest whole number whose square is not above the value. */
function wholeRoot(value: bigint): bigint {
  if (value < 2n) return value;
  let root = 1n << BigInt(Math.ceil(value.toString(2).length / 2));
  for (;;) {
    const next = (root + value / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
}

/**
 * How many readings bring the mean within a time with the confidence that the quantile stands for: (quantile x deviation / time)^2, rounded
 * up. It is not worked out again for the degrees of freedom of the readings that it asks for.
 */
export function readingsNeeded(variance: Ratio, quantile: Ratio, within: Ratio): number {
  return Math.max(1, Number(ceiling(divide(multiply(square(quantile), variance), square(within)))));
}

/** Fewer say nothing of what is usual. */
const FEWEST = 4;
/** 0.6745 and 3.5: Iglewicz & Hoaglin (1993), as given in the NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.17. */
const [SCALE, LIMIT] = [ratio(6_745, 10_000), ratio(35, 10)];
/** For values of which most are the same: the same from the mean of the deviations, which is 0.7979 of a standard deviation. */
const MEAN_SCALE = ratio(7_979, 10_000);

/**
 * Which values are odd: 0.6745 x their deviation from the median is more than 3.5 times the median of all such deviations. The values that
 * are odd themselves hardly move either, so that one of five is seen.
 */
export function oddValues(values: readonly Ratio[]): boolean[] {
  const median = medianOf(values);
  const deviations = values.map((value) => larger(subtract(value, median), subtract(median, value)));
  const usual = medianOf(deviations);
  const [scale, by] = usual.num > 0n ? [SCALE, usual] : [MEAN_SCALE, meanOf(deviations)];
  return deviations.map(
    (each) =>
      values.length >= FEWEST && by.num > 0n && compare(multiply(scale, each), multiply(LIMIT, by)) > 0,
  );
}
