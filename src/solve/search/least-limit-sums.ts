import { ceilingDivision, wholeDivision } from "../bounds/whole-numbers.js";
import { commonDivisor } from "./exact-sums.js";

/**
 * The station times that are possible at all: sums of task times. Where they are too many to list, every multiple of
 * the greatest common divisor of the task times counts as possible.
 */
export class StationSums {
  private readonly step: number;
  /** Ascending; null where they are too many. */
  private readonly listed: readonly number[] | null;

  constructor(times: readonly number[]) {
    this.step = commonDivisor(times);
    this.listed = listSums(times);
  }

  /** The smallest possible station time from `amount` on; at most the work content is ever asked for. */
  atLeast(amount: number): number {
    if (this.listed === null) return ceilingDivision(amount, this.step) * this.step;
    return this.listed[firstFrom(this.listed, amount)]!;
  }

  /** The largest possible station time up to `amount`, which is 0 or more. */
  atMost(amount: number): number {
    if (this.listed === null) return wholeDivision(amount, this.step) * this.step;
    return this.listed[firstFrom(this.listed, amount + 1) - 1]!;
  }
}

const MOST_SUMS = 10_000;

function listSums(times: readonly number[]): number[] | null {
  const sums = new Set([0]);
  for (const own of times) {
    for (const sum of [...sums]) sums.add(sum + own);
    if (sums.size > MOST_SUMS) return null;
  }
  return [...sums].sort((one, two) => one - two);
}

/** The place of the first number that is not below `amount`. */
function firstFrom(ascending: readonly number[], amount: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle]! < amount) low = middle + 1;
    else high = middle;
  }
  return low;
}
