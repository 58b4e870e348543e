import type { Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";

/**
 * What the blocks here take stays within the working time with the chance that is asked: mean + z x root of the summed variances is no
 * more, for each model where times differ between them. Squares are compared, so that nothing is rounded. Means and variances only grow as blocks join.
 */
export class KeepPace implements Constraint {
  /** By model. */
  private readonly mean: bigint[];
  private readonly variance: bigint[];
  /** How many blocks here units pass so often. */
  private readonly passes: Int32Array;
  private kind = 0;
  readonly supports: Constraint["supports"];

  constructor(
    private readonly work: Work,
    private readonly spread: NonNullable<Work["spread"]>,
  ) {
    const { models, scores } = spread;
    this.mean = models.map(() => 0n);
    this.variance = models.map(() => 0n);
    this.passes = new Int32Array(work.passes.reduce((most, each) => Math.max(most, each), 0) + 1);
    this.supports = {
      isFree: (block) =>
        models.every(({ means, variances }) => means[block] === 0n && variances[block] === 0n),
      mayMoveUp: () => true,
      mayStandFor: (two, one) =>
        models.every(
          ({ means, variances }) => means[two]! <= means[one]! && variances[two]! <= variances[one]!,
        ),
      classOf: (block) =>
        models.map(({ means, variances }) => `${means[block]} ${variances[block]}`).join(" "),
      anyOrder: scores.every((each) => each === scores[0]),
    };
  }

  /** Null where no station is asked for it. */
  static of(work: Work): KeepPace | null {
    return work.spread === null ? null : new KeepPace(work, work.spread);
  }

  start({ kind }: Site): void {
    this.kind = kind;
    this.mean.fill(0n);
    this.variance.fill(0n);
    this.passes.fill(0);
  }

  allows(block: number): boolean {
    this.join(block);
    const isAllowed = this.holds(this.work.kinds[this.kind]!.limits.length);
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    for (const [model, { means, variances }] of this.spread.models.entries()) {
      this.mean[model]! += means[block]!;
      this.variance[model]! += variances[block]!;
    }
    this.passes[this.work.passes[block]!]!++;
  }

  leave(block: number): void {
    for (const [model, { means, variances }] of this.spread.models.entries()) {
      this.mean[model]! -= means[block]!;
      this.variance[model]! -= variances[block]!;
    }
    this.passes[this.work.passes[block]!]!--;
  }

  holds(places: number): boolean {
    const { scores, scoreScale, rooms } = this.spread;
    const score = scores[this.kind]!;
    if (score === null) return true;
    let passes = this.passes.length - 1;
    while (passes > 0 && this.passes[passes] === 0) passes--;
    const room = rooms[passes]![places - 1]!;
    return this.mean.every((mean, model) => {
      const left = room - mean;
      return left >= 0n && (left * scoreScale) ** 2n >= score ** 2n * this.variance[model]!;
    });
  }
}
