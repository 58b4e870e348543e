import type { LeastLimitBound } from "./search/least-limit.js";
import { verifyBound } from "./verify-bound.js";

/**
 * Checks the arithmetic of a proof that no plan with so many stations has a shorter longest station, in whole-number
 * arithmetic of its own. Returns what is wrong, in words. What a search ruled out is not arithmetic that can be done again
 * here; the tests hold it against brute force.
 */
export function verifyLimitBound(
  times: readonly number[],
  before: readonly (readonly number[])[],
  bound: LeastLimitBound,
): string[] {
  const exact = times.map(BigInt);
  const limit = BigInt(bound.limit);
  switch (bound.kind) {
    case "longest-task":
      return exact[bound.task] === limit ? [] : [`task ${bound.task} does not take ${limit}`];
    case "work-content": {
      const work = exact.reduce((sum, each) => sum + each, 0n);
      const share = (work + BigInt(bound.count) - 1n) / BigInt(bound.count);
      const sum = work === BigInt(bound.workContent) ? [] : [`work content: ${work} is right`];
      return [...sum, ...noSumBetween(exact, share - 1n, limit)];
    }
    case "stations": {
      const problem = { times, limit: bound.shorter, before };
      const many =
        bound.bound.stations > bound.count ? [] : ["the stations at the shorter limit are not too many"];
      return [
        ...many,
        ...verifyBound(problem, bound.bound),
        ...noSumBetween(exact, BigInt(bound.shorter), limit),
      ];
    }
    case "search":
      return noSumBetween(exact, BigInt(bound.shorter), limit);
  }
}

/** Sums of task times kept before only their common divisor is looked at. */
const MOST_SUMS = 50_000;

/** No station time lies strictly between two amounts; where sums are too many to list, no multiple of their divisor may. */
function noSumBetween(times: readonly bigint[], low: bigint, high: bigint): string[] {
  const step = times.reduce(commonDivisor, 0n);
  const next = step === 0n ? high : (low / step + 1n) * step;
  if (low + 1n >= high || next >= high) return [];
  const sums = sumsBelow(times, high);
  if (sums === null) return [`a station may take ${next}`];
  const found = [...sums].find((sum) => sum > low);
  return found === undefined ? [] : [`a station may take ${found}`];
}

function sumsBelow(times: readonly bigint[], high: bigint): Set<bigint> | null {
  const sums = new Set([0n]);
  for (const own of times) {
    for (const sum of [...sums]) if (sum + own < high) sums.add(sum + own);
    if (sums.size > MOST_SUMS) return null;
  }
  return sums;
}

function commonDivisor(one: bigint, two: bigint): bigint {
  return two === 0n ? one : commonDivisor(two, one % two);
}
