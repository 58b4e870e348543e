import type { Pace } from "../../time/pace.js";
import type { Ratio } from "../../time/ratio.js";

/** Times as whole numbers of equal parts of a microsecond. */
export interface WholeTimes {
  readonly amounts: readonly bigint[];
  /** Parts in a microsecond. */
  readonly parts: bigint;
}

/** Times over their least common denominator. */
export function wholeTimes(times: readonly Ratio[]): WholeTimes {
  const parts = times.reduce((common, { den }) => (common / divisor(common, den)) * den, 1n);
  return { amounts: times.map(({ num, den }) => num * (parts / den)), parts };
}

function divisor(one: bigint, two: bigint): bigint {
  return two === 0n ? one : divisor(two, one % two);
}

/** A most that times are held against, as amount / parts microseconds. */
export interface Most {
  readonly amount: bigint;
  readonly parts: bigint;
}

/** (Places x line cycle - handling) x a share. */
export function shareOfWorkingTime(pace: Pace, places: number, share: Ratio): Most {
  const { num, den } = pace.lineCycle;
  const working = BigInt(places) * num - BigInt(pace.handling) * den;
  return { amount: working * share.num, parts: den * share.den };
}

export function isWithin(amount: bigint, parts: bigint, most: Most): boolean {
  return amount * most.parts <= most.amount * parts;
}

export const isWholeCount = (count: number): boolean => Number.isSafeInteger(count) && count >= 1;

export const sumOf = ({ amounts }: WholeTimes): bigint => amounts.reduce((sum, each) => sum + each, 0n);

/** The sum of times. */
export function addUp(times: readonly Ratio[]): Ratio {
  const whole = wholeTimes(times);
  return { num: sumOf(whole), den: whole.parts };
}
