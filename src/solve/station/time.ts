import { distinctKinds, type StationKind, type Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";

/**
 * The load of a station within its limit by places; one timed block alone may take more where the line allows that. Where people of a
 * place are at work of their own, at its sides or sharing a unit, this is only the sum of all, and their schedule says the rest.
 */
export class StationTime implements Constraint {
  load = 0;
  private timed = 0;
  private aloneId = 0;
  private kind = 0;
  /** Every station has one place and the same limit. */
  private readonly isUniform: boolean;
  private readonly kinds: readonly StationKind[];
  readonly supports = {
    isFree: (block: number) => this.isUniform && !this.mayExceed(block),
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) => this.work.loads[two]! <= this.work.loads[one]!,
    classOf: (block: number) => (this.mayExceed(block) ? null : ""),
    anyOrder: true,
  };

  constructor(private readonly work: Work) {
    this.kinds = distinctKinds(work);
    const [first] = this.kinds;
    this.isUniform = this.kinds.every(({ limits }) => limits.length === 1 && limits[0] === first!.limits[0]);
  }

  start({ kind }: Site): void {
    this.kind = kind;
    this.load = 0;
    this.timed = 0;
    this.aloneId = 0;
  }

  allows(block: number): boolean {
    this.join(block);
    const isAllowed = this.holds(this.work.kinds[this.kind]!.limits.length);
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    const load = this.work.loads[block]!;
    this.load += load;
    if (load === 0) return;
    this.timed++;
    this.aloneId += block;
  }

  leave(block: number): void {
    const load = this.work.loads[block]!;
    this.load -= load;
    if (load === 0) return;
    this.timed--;
    this.aloneId -= block;
  }

  holds(places: number): boolean {
    return this.load <= this.work.kinds[this.kind]!.atOnce * this.limitAt(places);
  }

  /** The most that the blocks here may take at so many places, of each who is at work of their own. */
  limitAt(places: number): number {
    const { limits, alone } = this.work.kinds[this.kind]!;
    const [limit, most] = [limits[places - 1]!, alone[places - 1]!];
    // The sum of one number is that number.
    return this.timed === 1 && this.work.mayStandAlone[this.aloneId]! ? Math.max(limit, most) : limit;
  }

  /** Longer than the limit of some station, so what it may share with is not a matter of sums. */
  private mayExceed(block: number): boolean {
    return this.kinds.some(({ limits }) => limits.some((limit) => this.work.loads[block]! > limit));
  }
}
