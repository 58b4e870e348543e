import { studentQuantile } from "../study/quantiles.js";
import { squareRoot } from "../time/normal-share.js";
import { multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";

/** A mean over replications with what it may be off by. */
export interface Interval {
  readonly mean: Ratio;
  /** Half of the confidence interval; null where one replication says nothing of that. */
  readonly halfWidth: Ratio | null;
}

/** The mean of counts with its confidence interval by Student's t: mean +- t s / root n. */
export function meanOf(counts: readonly number[], confidence: Ratio): Interval {
  const sum = counts.reduce((all, each) => all + BigInt(each), 0n);
  const squares = counts.reduce((all, each) => all + BigInt(each) * BigInt(each), 0n);
  const count = BigInt(counts.length);
  const mean = ratio(sum, count);
  // Squared deviations, all times the count, are a whole number.
  const scatter = count * squares - sum * sum;
  if (scatter === 0n && counts.length > 1) return { mean, halfWidth: ZERO };
  if (counts.length === 1) return { mean, halfWidth: null };
  const variance = ratio(scatter, count * count * (count - 1n));
  return {
    mean,
    halfWidth: multiply(studentQuantile(confidence, counts.length - 1), rootOf(variance)),
  };
}

/** The square root, to 9 decimals. */
export function rootOf(square: Ratio): Ratio {
  const scale = 10n ** 9n;
  return ratio(squareRoot((square.num * scale * scale) / square.den), scale);
}

/** Whether an interval leaves out 0, so that a difference is shown; never by one replication. */
export const isShown = ({ mean, halfWidth }: Interval): boolean =>
  halfWidth !== null && (mean.num < 0n ? -mean.num : mean.num) * halfWidth.den > halfWidth.num * mean.den;

/** Both in another unit. */
export const scaled = ({ mean, halfWidth }: Interval, by: Ratio): Interval => ({
  mean: multiply(mean, by),
  halfWidth: halfWidth && multiply(halfWidth, by),
});
