import type { Ratio } from "./ratio.js";

/*
 * n to the power log2(share), in whole numbers alone: powers and logarithms of floating point differ from machine to machine. Numbers
 * are fixed-precision, counted in 10^-40; every step rounds half up.
 */
const SCALE = 10n ** 40n;

const rounded = (num: bigint, den: bigint): bigint => (2n * num + den) / (2n * den);
/** Both 0 or more. */
const times = (one: bigint, other: bigint): bigint => rounded(one * other, SCALE);

/** 2 artanh(num / den) = ln((den + num) / (den - num)), for 0 <= num < den: the series 2 (z + z^3/3 + z^5/5 + ...). */
function twiceArtanh(num: bigint, den: bigint): bigint {
  const square = rounded(num * num * SCALE, den * den);
  let [power, sum] = [rounded(num * SCALE, den), 0n];
  for (let odd = 1n; power > 0n; odd += 2n) {
    sum += rounded(2n * power, odd);
    power = times(power, square);
  }
  return sum;
}

const LN_2 = twiceArtanh(1n, 3n);

/** ln n of a whole number from 1: 2^k is taken out, and what is left of n lies between 1 and 2. */
function lnOf(n: number): bigint {
  const exponent = n.toString(2).length - 1;
  const [whole, two] = [BigInt(n), 1n << BigInt(exponent)];
  return BigInt(exponent) * LN_2 + twiceArtanh(whole - two, whole + two);
}

/** e^-y for y >= 0: whole multiples of ln 2 are halvings, and the rest is e^r / 2^k with 0 <= r < ln 2. */
function expOfMinus(y: bigint): bigint {
  const halvings = (y + LN_2 - 1n) / LN_2;
  const rest = halvings * LN_2 - y;
  let [term, sum] = [SCALE, 0n];
  for (let at = 1n; term > 0n; at++) {
    sum += term;
    term = rounded(term * rest, SCALE * at);
  }
  return rounded(sum, 1n << halvings);
}

/**
 * What is left of a time at the n-th unit when a share of it remains at each doubling: n^log2(share), as a multiple of 10^-40. Of n = 2^k it
 * is share^k; of any other n it is the product over its prime factors, so each n has one value however it is asked for.
 */
export class DoublingPower {
  private readonly share: bigint;
  /** -log2(share). */
  private readonly exponent: bigint;
  private readonly known = new Map<number, bigint>([[1, SCALE]]);

  /** @param share above 0 and at most 1 */
  constructor({ num, den }: Ratio) {
    this.share = rounded(num * SCALE, den);
    this.exponent = rounded(twiceArtanh(den - num, den + num) * SCALE, LN_2);
  }

  /** @param n a whole number from 1 */
  of(n: number): bigint {
    const known = this.known.get(n);
    if (known !== undefined) return known;
    const factor = leastFactor(n);
    const found =
      factor === 2
        ? times(this.share, this.of(n / 2))
        : factor < n
          ? times(this.of(factor), this.of(n / factor))
          : expOfMinus(times(this.exponent, lnOf(n)));
    this.known.set(n, found);
    return found;
  }
}

function leastFactor(n: number): number {
  if (n % 2 === 0) return 2;
  for (let factor = 3; factor * factor <= n; factor += 2) if (n % factor === 0) return factor;
  return n;
}
