import { DoublingPower } from "../time/doubling-power.js";
import type { Ratio } from "../time/ratio.js";
import type { Micros } from "../time/units.js";
import type { Learning } from "./line.js";

/** Units are counted no further than this. */
export const MOST_UNITS = 1_000_000;

/**
 * How long a task takes at each unit, where people learn it. By unit (Crawford), the n-th unit takes first x n^b with b = log2(share).
 * By average (Wright), the first n units take first x n^b each on average, so the n-th takes first x (n^(1 + b) - (n - 1)^(1 + b)).
 * `first` is such that the unit `timeAt` takes the time that is stated. No unit takes less than `least` of that.
 */
export class LearningCurve {
  private readonly power: DoublingPower;
  /** What is left at `timeAt`. */
  private readonly leftAt: bigint;

  constructor(private readonly learning: Omit<Learning, "built">) {
    this.power = powerOf(learning.share);
    this.leftAt = this.leftOf(learning.timeAt);
  }

  /** The time of the n-th unit, in whole microseconds, rounded half up: the one place where times that are learned are rounded. */
  timeOf(time: Micros, unit: number): Micros {
    const { num, den } = this.learning.least;
    const [left, whole] = this.isAtLeast(unit) ? [num, den] : [this.leftOf(unit), this.leftAt];
    return Number((2n * BigInt(time) * left + whole) / (2n * whole));
  }

  /** The first unit that takes the least time there is; null where learning goes on beyond the last unit that is counted. */
  settlesAt(): number | null {
    if (!this.isAtLeast(MOST_UNITS)) return null;
    let [before, from] = [0, MOST_UNITS];
    while (from - before > 1) {
      const middle = Math.floor((before + from) / 2);
      if (this.isAtLeast(middle)) from = middle;
      else before = middle;
    }
    return from;
  }

  private isAtLeast(unit: number): boolean {
    const { num, den } = this.learning.least;
    return this.leftOf(unit) * den <= num * this.leftAt;
  }

  /** What is left of the time of the first unit, in the parts of `DoublingPower`. */
  private leftOf(unit: number): bigint {
    const left = this.power.of(unit);
    if (this.learning.by === "unit" || unit === 1) return left;
    return BigInt(unit) * left - BigInt(unit - 1) * this.power.of(unit - 1);
  }
}

/** One for each share, as each keeps what it has worked out. */
const powers = new Map<string, DoublingPower>();

function powerOf(share: Ratio): DoublingPower {
  const key = `${share.num}/${share.den}`;
  const power = powers.get(key) ?? new DoublingPower(share);
  powers.set(key, power);
  return power;
}
