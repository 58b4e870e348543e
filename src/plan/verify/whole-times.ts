import type { Line } from "../../line/line.js";
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

/**
 * (Places x line cycle - handling x passes) x a share, where units pass as often as the task of these that is done most for a good
 * unit, and once at the least.
 */
export function shareOfWorkingTime(
  { tasks, models }: Line,
  pace: Pace,
  at: { readonly tasks: readonly number[]; readonly places: number },
  share: Ratio,
): Most {
  const once: Ratio = { num: 1n, den: 1n };
  const passes = at.tasks
    .map((task) => {
      const { visits } = tasks[task]!;
      if (visits.length === 1) return visits[0]!;
      return addUp(
        visits.map(({ num, den }, model) => {
          const { share: of } = models[model]!;
          return { num: num * of.num, den: den * of.den };
        }),
      );
    })
    .reduce((one, two) => (two.num * one.den > one.num * two.den ? two : one), once);
  const { num, den } = pace.lineCycle;
  const working = BigInt(at.places) * num * passes.den - BigInt(pace.handling) * den * passes.num;
  return { amount: working * share.num, parts: den * passes.den * share.den };
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
