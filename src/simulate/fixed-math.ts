/*
 * Logarithm and exponential function of +, -, x and / alone, which give the same bits on every machine; those of the platform may differ in
 * the last one. Both are right to about 15 digits.
 */

/** 1, 1/3, 1/5, ..., the last one first. */
const ODD_PARTS = Array.from({ length: 12 }, (_, at) => 1 / (23 - 2 * at));

/** The natural logarithm of a finite number above 0: that of x = m x 2^k is k ln 2 + 2 artanh((m - 1) / (m + 1)). */
export function naturalLog(x: number): number {
  let [mantissa, exponent] = [x, 0];
  for (; mantissa > Math.SQRT2; exponent++) mantissa /= 2;
  for (; mantissa < Math.SQRT2 / 2; exponent--) mantissa *= 2;
  const part = (mantissa - 1) / (mantissa + 1);
  const square = part * part;
  let sum = 0;
  for (const each of ODD_PARTS) sum = sum * square + each;
  return exponent * Math.LN2 + 2 * part * sum;
}

/** Terms of the series of the exponential function that count below ln 2 / 2. */
const TERMS = 16;

/** e^x: x = k ln 2 + r, and e^r by its series. */
export function exponential(x: number): number {
  const exponent = Math.round(x / Math.LN2);
  const rest = x - exponent * Math.LN2;
  let power = 1;
  for (let term = TERMS; term > 0; term--) power = 1 + (rest / term) * power;
  for (let left = exponent; left > 0; left--) power *= 2;
  for (let left = exponent; left < 0; left++) power /= 2;
  return power;
}
