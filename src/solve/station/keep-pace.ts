import type { Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";

/**
 * What the blocks here take stays within the working time with the chance that is asked: mean + z x root of the summed variances is no
 * more. Squares are compared, so that nothing is rounded. Means and variances only grow as blocks join.
 */
export class KeepPace implements Constraint {
  private mean = 0n;
  private variance = 0n;
  /** How many blocks here units pass so often. */
  private readonly passes: Int32Array;
  private kind = 0;
  readonly supports: Constraint["supports"];

  constructor(
    private readonly work: Work,
    private readonly spread: NonNullable<Work["spread"]>,
  ) {
    const { means, variances, scores } = spread;
    this.passes = new Int32Array(work.passes.reduce((most, each) => Math.max(most, each), 0) + 1);
    this.supports = {
      isFree: (block) => means[block] === 0n && variances[block] === 0n,
      mayMoveUp: () => true,
      mayStandFor: (two, one) => means[two]! <= means[one]! && variances[two]! <= variances[one]!,
      classOf: (block) => `${means[block]} ${variances[block]}`,
      anyOrder: scores.every((each) => each === scores[0]),
    };
  }

  /** Null where no station is asked for it. */
  static of(work: Work): KeepPace | null {
    return work.spread === null ? null : new KeepPace(work, work.spread);
  }

  start({ kind }: Site): void {
    this.kind = kind;
    this.mean = 0n;
    this.variance = 0n;
    this.passes.fill(0);
  }

  allows(block: number): boolean {
    this.join(block);
    const isAllowed = this.holds(this.work.kinds[this.kind]!.limits.length);
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    this.mean += this.spread.means[block]!;
    this.variance += this.spread.variances[block]!;
    this.passes[this.work.passes[block]!]!++;
  }

  leave(block: number): void {
    this.mean -= this.spread.means[block]!;
    this.variance -= this.spread.variances[block]!;
    this.passes[this.work.passes[block]!]!--;
  }

  holds(places: number): boolean {
    const { scores, scoreScale, rooms } = this.spread;
    const score = scores[this.kind]!;
    if (score === null) return true;
    let passes = this.passes.length - 1;
    while (passes > 0 && this.passes[passes] === 0) passes--;
    const left = rooms[passes]![places - 1]! - this.mean;
    return left >= 0n && (left * scoreScale) ** 2n >= score ** 2n * this.variance;
  }
}
