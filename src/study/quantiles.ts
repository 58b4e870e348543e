import { type Ratio, ratio, toNumber } from "../time/ratio.js";

/*
 * Two-sided quantiles, with four decimals as tables print them: whoever works a count of readings out again with a table gets the same.
 * From there on everything is exact.
 */

const DECIMALS = 10_000;

/** How many standard deviations on either side of the mean hold that share of a normal distribution: 1.96 for 95 %. */
export const normalQuantile = (confidence: Ratio): Ratio =>
  solve((x) => normalWithin(x), toNumber(confidence, 12));

/** The same for Student's t: 2.2622 for 95 % and 9 degrees of freedom. */
export const studentQuantile = (confidence: Ratio, freedom: number): Ratio =>
  solve((t) => studentWithin(t, freedom), toNumber(confidence, 12));

/** Where a function that rises from 0 to 1 comes to a share, rounded. */
function solve(within: (x: number) => number, share: number): Ratio {
  let [low, high] = [0, 1];
  while (within(high) < share) [low, high] = [high, 2 * high];
  for (let middle = (low + high) / 2; middle > low && middle < high; middle = (low + high) / 2) {
    if (within(middle) < share) low = middle;
    else high = middle;
  }
  return ratio(Math.round(low * DECIMALS), DECIMALS);
}

/** The share of a normal distribution within x standard deviations: Abramowitz & Stegun (1964) 26.2.10 with 7.1.6, whose terms are all positive. */
function normalWithin(x: number): number {
  let [term, sum] = [x, x];
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= (x * x) / odd;
    sum += term;
  }
  return Math.sqrt(2 / Math.PI) * Math.exp((-x * x) / 2) * sum;
}

/** The share of Student's distribution within t, for whole degrees of freedom: Abramowitz & Stegun (1964) 26.7.3 and 26.7.4. */
function studentWithin(t: number, freedom: number): number {
  const angle = Math.atan(t / Math.sqrt(freedom));
  const [sine, square] = [Math.sin(angle), Math.cos(angle) ** 2];
  const isOdd = freedom % 2 === 1;
  let [term, sum] = isOdd ? [Math.cos(angle), Math.cos(angle)] : [1, 1];
  for (let number = isOdd ? 3 : 2; number <= freedom - 2; number += 2) {
    term *= (square * (number - 1)) / number;
    sum += term;
  }
  if (!isOdd) return sine * sum;
  return (2 / Math.PI) * (angle + (freedom === 1 ? 0 : sine * sum));
}
