import { ceiling, compare, divide, multiply, type Ratio, ratio } from "../time/ratio.js";
import { type Interval, meanOf } from "./intervals.js";
import type { Within } from "./simulation-answer.js";
import type { Run } from "./watched-line.js";

/** Whether half of an interval is no more than that share of its mean. */
export const isWithin = ({ mean, halfWidth }: Interval, share: Ratio): boolean =>
  halfWidth !== null && compare(halfWidth, multiply(share, mean)) <= 0;

/**
 * Replications until the interval of the output is as narrow as asked for, or as many as there may be: after each part of them as many as
 * the last half-width makes needed, n x (half-width / wanted)^2, a tenth more at least and twice as many at most. Sequential intervals:
 * Y. S. Chow, H. Robbins, Annals of Mathematical Statistics 36 (1965), from memory.
 *
 * @param first replications that are run in any case
 * @param collect runs from one to before another; fewer where the work was ended
 * @returns with how many were to be run
 */
export async function runUntilNarrow(
  first: number,
  { share, most }: Within,
  confidence: Ratio,
  collect: (from: number, to: number) => Promise<readonly Run[]>,
): Promise<{ readonly runs: readonly Run[]; readonly wanted: number }> {
  const runs: Run[] = [];
  for (let wanted = first; ; wanted = Math.min(most, nextCount(runs, share, confidence))) {
    runs.push(...(await collect(runs.length, wanted)));
    if (runs.length < wanted || wanted >= most || isWithin(intervalIn(runs, confidence), share))
      return { runs, wanted };
  }
}

const intervalIn = (runs: readonly Run[], confidence: Ratio): Interval =>
  meanOf(
    runs.map(({ left }) => left),
    confidence,
  );

function nextCount(runs: readonly Run[], share: Ratio, confidence: Ratio): number {
  const { mean, halfWidth } = intervalIn(runs, confidence);
  const most = 2 * runs.length;
  if (halfWidth === null || mean.num === 0n) return most;
  const times = divide(halfWidth, multiply(share, mean));
  const needed = Number(ceiling(multiply(ratio(runs.length), multiply(times, times))));
  return Math.min(most, Math.max(needed, Math.ceil(runs.length * 1.1)));
}
