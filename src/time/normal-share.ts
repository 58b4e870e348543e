import { compare, type Ratio, ratio } from "./ratio.js";

/*
 * The standard normal distribution in whole numbers alone, so that a quantile has the same digits on every machine. Numbers are
 * fixed-precision, counted in 10^-40.
 */
const SCALE = 10n ** 40n;

/** Pi, Abramowitz & Stegun (1964) table 1.1. */
const PI = 31_415_926_535_897_932_384_626_433_832_795_028_841_971n;

/** Decimals of a quantile. */
const DECIMALS = 10;

/** So many standard deviations hold all but 10^-22 of a normal distribution. */
const FARTHEST = 10n;

/**
 * The share of a normal distribution below z standard deviations above its mean, to 20 decimals: 1/2 + (z + z^3/3 + z^5/(3 x 5) + ...) x
 * e^(-z^2/2) / root (2 pi), Abramowitz & Stegun (1964) 26.2.11, whose terms are all positive.
 *
 * @param z 0 or more; from 10 on the share is 1
 */
export function normalShare(z: Ratio): Ratio {
  if (z.num >= FARTHEST * z.den) return ratio(1);
  const x = (z.num * SCALE) / z.den;
  const square = (x * x) / SCALE;
  let [term, sum] = [x, 0n];
  for (let odd = 3n; term > 0n; odd += 2n) {
    sum += term;
    term = (term * square) / (SCALE * odd);
  }
  const height = (SCALE * SCALE) / exponential(square / 2n);
  const within = (sum * height) / squareRoot(2n * PI * SCALE);
  return ratio(SCALE / 2n + within, SCALE);
}

/**
 * How many standard deviations above its mean a normal distribution has that share below: 1.6448536270 for 95 %. To 10 decimals, rounded
 * half up.
 *
 * @param share from 1/2 to below 1 - 10^-12
 */
export function normalScore(share: Ratio): Ratio {
  // Twice the last decimal, so that what is found is rounded.
  const scale = 2n * 10n ** BigInt(DECIMALS);
  let [low, high] = [0n, FARTHEST * scale];
  while (high - low > 1n) {
    const middle = (low + high) / 2n;
    if (compare(normalShare(ratio(middle, scale)), share) <= 0) low = middle;
    else high = middle;
  }
  return ratio((low + 1n) / 2n, scale / 2n);
}

/** e^y by its series, for y from 0 to 50. */
function exponential(y: bigint): bigint {
  let [term, sum] = [SCALE, 0n];
  for (let at = 1n; term > 0n; at++) {
    sum += term;
    term = (term * y) / (SCALE * at);
  }
  return sum;
}

/** The largest whole number whose square is no more. */
export function squareRoot(square: bigint): bigint {
  if (square < 2n) return square;
  let root = 1n << BigInt(Math.ceil(square.toString(2).length / 2));
  for (;;) {
    const next = (root + square / root) / 2n;
    if (next >= root) return root;
    root = next;
  }
}
