import type { StationLimits, Work } from "../work.js";
import { type Constraint, EVERY_BLOCK_COUNTS, type Site } from "./constraint.js";

/**
 * Handling at each pass of a unit: a station has less time for its blocks where one of them is done more than once for a good unit, as
 * the unit is moved and positioned each time. Where people of a place are at work of
 * their own, this is only the sum of all.
 */
export class Passes implements Constraint {
  private load = 0;
  private timed = 0;
  private aloneId = 0;
  private readonly modelLoads: Float64Array;
  /** How many blocks here are done so often, by `Work.passes`. */
  private readonly counts: Int32Array;
  private kind = 0;
  readonly supports = {
    ...EVERY_BLOCK_COUNTS,
    mayStandFor: (two: number, one: number) =>
      this.work.passes[two]! <= this.work.passes[one]! &&
      (this.work.mayStandAlone[two]! || !this.mayExceed(two)),
    classOf: (block: number) => (this.mayExceed(block) ? null : `${this.work.passes[block]}`),
  };

  constructor(private readonly work: Work) {
    this.modelLoads = new Float64Array(work.modelLoads.length);
    this.counts = new Int32Array(Math.max(...work.passes) + 1);
  }

  /** Null where units pass every station once. */
  static of(work: Work): Passes | null {
    return work.passes.some((each) => each > 0) ? new Passes(work) : null;
  }

  start({ kind }: Site): void {
    this.kind = kind;
    this.load = 0;
    this.timed = 0;
    this.aloneId = 0;
    this.modelLoads.fill(0);
    this.counts.fill(0);
  }

  allows(block: number): boolean {
    this.join(block);
    const isAllowed = this.holds(this.work.kinds[this.kind]!.limits.length);
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    this.add(block, 1);
  }

  leave(block: number): void {
    this.add(block, -1);
  }

  holds(places: number): boolean {
    const { limits, alone, modelLimits, atOnce } = this.limitsHere;
    const isAlone = this.timed === 1 && this.work.mayStandAlone[this.aloneId]!;
    const most = isAlone ? Math.max(limits[places - 1]!, alone[places - 1]!) : limits[places - 1]!;
    return (
      this.load <= atOnce * most && this.modelLoads.every((load) => load <= atOnce * modelLimits[places - 1]!)
    );
  }

  private add(block: number, sign: 1 | -1): void {
    const { loads, modelLoads, passes } = this.work;
    this.counts[passes[block]!]! += sign;
    for (const [model, own] of modelLoads.entries()) this.modelLoads[model]! += sign * own[block]!;
    const load = loads[block]!;
    if (load === 0) return;
    this.load += sign * load;
    this.timed += sign;
    // The sum of one number is that number.
    this.aloneId += sign * block;
  }

  private get limitsHere(): StationLimits {
    const kind = this.work.kinds[this.kind]!;
    let most = this.counts.length - 1;
    while (most > 0 && this.counts[most] === 0) most--;
    return most === 0 ? kind : kind.morePasses[most - 1]!;
  }

  /** Longer than what some station holds, so what it may share with is not a matter of sums. */
  private mayExceed(block: number): boolean {
    return this.work.kinds.some((kind) =>
      [kind, ...kind.morePasses].some(({ limits }) =>
        limits.some((limit) => this.work.loads[block]! > limit),
      ),
    );
  }
}
