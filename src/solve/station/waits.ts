import type { Work } from "../work.js";
import type { Carry, Constraint, Site } from "./constraint.js";

/** Between some blocks so many stations lie, also where only a time does: what waits for a block never stands at its station. */
export class Waits implements Constraint {
  private position = 0;
  /** Where the first block of each wait stands; null where somebody else sees to waits. */
  private placed: readonly number[] | null = null;
  private readonly here = new Set<number>();
  private readonly touched = new Set<number>();
  private readonly waitsOf = new Map<number, number[]>();
  readonly carry: Carry;
  readonly supports = {
    isFree: (block: number) => !this.touched.has(block),
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) => !this.touched.has(two) && !this.touched.has(one),
    classOf: (block: number) => (this.touched.has(block) ? null : ""),
    anyOrder: false,
  };

  constructor(private readonly work: Work) {
    this.carry = {
      first: work.waits.map(() => NOWHERE),
      after: (carried) => this.after(carried as readonly number[]),
      isNoWorse: (one, two) => isNoLater(one as readonly number[], two as readonly number[]),
    };
    for (const [at, { from, to }] of work.waits.entries()) {
      this.touched.add(from).add(to);
      this.waitsOf.set(to, [...(this.waitsOf.get(to) ?? []), at]);
    }
  }

  static of(work: Work): Waits | null {
    return work.waits.length > 0 ? new Waits(work) : null;
  }

  start({ position }: Site, carried: unknown): void {
    this.position = position;
    this.placed = carried as readonly number[] | null;
    this.here.clear();
  }

  allows(block: number): boolean {
    for (const at of this.waitsOf.get(block) ?? []) {
      const { from, stations } = this.work.waits[at]!;
      if (this.here.has(from)) return false;
      if (this.placed === null) continue;
      const before = this.placed[at]!;
      if (before === NOWHERE || this.position - before < stations) return false;
    }
    return true;
  }

  join(block: number): void {
    if (this.touched.has(block)) this.here.add(block);
  }

  leave(block: number): void {
    this.here.delete(block);
  }

  private after(carried: readonly number[]): readonly number[] {
    return this.work.waits.map(({ from }, at) => (this.here.has(from) ? this.position : carried[at]!));
  }
}

function isNoLater(one: readonly number[], two: readonly number[]): boolean {
  return one.every((position, at) => position <= two[at]!);
}

/** The block waited for is not placed yet. */
const NOWHERE = -1;
