import { LONGEST_TEXT, readNumber } from "../time/exact-number.js";
import { quoted } from "../time/quoted.js";
import { add, compare, multiply, ONE, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { readSurplus } from "../time/share.js";
import type { Micros } from "../time/units.js";

export const STATISTICS = ["mean", "median", "lowest-repeated"] as const;
export const CLOCKS = ["restart", "continuous"] as const;
export const ALLOWANCE_BASES = ["job", "shift"] as const;
export const QUANTILES = ["t", "z"] as const;

/** An allowance by name: personal 5 %. */
export interface AllowancePart {
  readonly name: string;
  readonly share: Ratio;
}

/** How a study is worked out. */
export interface StudyTerms {
  readonly statistic: (typeof STATISTICS)[number];
  /** A snapback watch starts again with each element, a continuous one runs on. Null where it is not said: snapback then. */
  readonly clock: (typeof CLOCKS)[number] | null;
  /** Of readings that have none of their own; null where nothing is said, which is 100 %. */
  readonly rating: Ratio | null;
  readonly allowances: readonly AllowancePart[];
  /** What allowances are a share of: job, standard = normal x (1 + a); shift, standard = normal / (1 - a). Null without allowances. */
  readonly allowanceBase: (typeof ALLOWANCE_BASES)[number] | null;
  readonly confidence: Ratio;
  /** How near the mean is to be: a share of it, or a time. */
  readonly within: { readonly share: Ratio } | { readonly time: Micros };
  /** Null for t below 30 readings and z from there on. */
  readonly by: (typeof QUANTILES)[number] | null;
}

/** All allowances together. */
export const allowanceInAll = (parts: readonly AllowancePart[]): Ratio =>
  parts.reduce((sum, { share }) => add(sum, share), ZERO);

/** What normal times are multiplied by to give standard times. */
export function allowanceFactor({ allowances, allowanceBase }: StudyTerms): Ratio {
  const share = allowanceInAll(allowances);
  if (allowanceBase !== "shift") return add(ONE, share);
  return ratio(share.den, share.den - share.num);
}

/** A name and a share, as in `personal 5 %`. */
export function readAllowance(text: string): Reading<AllowancePart> {
  const found = /^(.*\S)\s+(\S+(?:\s*%)?)$/u.exec(text.trim().replace(/\s+%$/u, "%"));
  if (found === null || !/\d/u.test(found[2]!))
    return refuse(`${quoted(text)} is not an allowance: write a name and a share, such as personal 5 %`);
  const share = readSurplus(found[2]!);
  return share.ok ? accept({ name: found[1]!, share: share.value }) : share;
}

/** Ratings that people give; what is far from them is a slip of the pen. */
const [LEAST, MOST] = [ratio(1, 2), ratio(3, 2)];
const HUNDREDTH = ratio(1, 100);

/** A rating such as 110 %, 110 or 1.1, which are the same: from 50 % to 150 %. */
export function readRating(text: string): Reading<Ratio> {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a rating`);
  const isShare = trimmed.endsWith("%");
  const number = readNumber(isShare ? trimmed.slice(0, -1) : trimmed);
  const expected = "a rating from 50 % to 150 % is expected, such as 110 %";
  if (number === null) return refuse(`${quoted(trimmed)} is not a rating: ${expected}`);
  const isFraction = !isShare && compare(number, ratio(2)) <= 0;
  const rating = isFraction ? number : multiply(number, HUNDREDTH);
  if (compare(rating, LEAST) < 0 || compare(rating, MOST) > 0)
    return refuse(`${quoted(trimmed)} is too far from 100 %: ${expected}`);
  return accept(rating);
}
