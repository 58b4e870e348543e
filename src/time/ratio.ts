/** An exact ratio of whole numbers, always reduced, with a denominator above 0. */
export interface Ratio {
  readonly num: bigint;
  readonly den: bigint;
}

/** The largest whole number that divides both; 0 for two zeros. */
export function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** num / den, reduced. Whole JavaScript numbers are taken exactly. Throws a RangeError for den = 0. */
export function ratio(num: bigint | number, den: bigint | number = 1n): Ratio {
  const [n, d] = [BigInt(num), BigInt(den)];
  if (d === 0n) throw new RangeError("a ratio needs a denominator other than 0");
  const divisor = greatestCommonDivisor(n, d) * (d < 0n ? -1n : 1n);
  return { num: n / divisor, den: d / divisor };
}

/** The smallest whole number that both divide; both above 0. */
export const leastCommonMultiple = (one: bigint, two: bigint): bigint =>
  (one / greatestCommonDivisor(one, two)) * two;

export const ZERO: Ratio = ratio(0);
export const ONE: Ratio = ratio(1);

export const add = (a: Ratio, b: Ratio): Ratio => ratio(a.num * b.den + b.num * a.den, a.den * b.den);
export const subtract = (a: Ratio, b: Ratio): Ratio => ratio(a.num * b.den - b.num * a.den, a.den * b.den);
export const multiply = (a: Ratio, b: Ratio): Ratio => ratio(a.num * b.num, a.den * b.den);
export const divide = (a: Ratio, b: Ratio): Ratio => ratio(a.num * b.den, a.den * b.num);

/** Halves at a time: one after another, thousands of different denominators would make the sum as long from the start as it is in the end. */
export function sum(ratios: readonly Ratio[]): Ratio {
  if (ratios.length < 2) return ratios[0] ?? ZERO;
  const middle = ratios.length >> 1;
  return add(sum(ratios.slice(0, middle)), sum(ratios.slice(middle)));
}

/** Negative, 0 or positive as a is below, equal to or above b. */
export function compare(a: Ratio, b: Ratio): number {
  const difference = a.num * b.den - b.num * a.den;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

export const larger = (a: Ratio, b: Ratio): Ratio => (compare(a, b) >= 0 ? a : b);

/** The largest whole number not above the ratio. */
export function floor(a: Ratio): bigint {
  const quotient = a.num / a.den;
  return a.num < 0n && quotient * a.den !== a.num ? quotient - 1n : quotient;
}

/** The smallest whole number not below the ratio. */
export function ceiling(a: Ratio): bigint {
  return -floor({ num: -a.num, den: a.den });
}

/** Rounded half up to the given number of decimals, as text such as "136.418" or "-0.5" (never in exponent form). */
export function toDecimal(a: Ratio, decimals: number): string {
  const scale = 10n ** BigInt(decimals);
  const scaled = floor(ratio(a.num * scale * 2n + a.den, a.den * 2n));
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(decimals + 1, "0");
  const whole = digits.slice(0, digits.length - decimals);
  const rest = decimals === 0 ? "" : `.${digits.slice(digits.length - decimals)}`;
  return `${scaled < 0n ? "-" : ""}${whole}${rest}`;
}

/** The nearest JavaScript number to the ratio rounded half up to the given decimals; for output only. */
export function toNumber(a: Ratio, decimals = 6): number {
  return Number(toDecimal(a, decimals));
}
