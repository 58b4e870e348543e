import type { Work } from "../work.js";
import type { Carry, Constraint, Site } from "./constraint.js";

/** Between some blocks so many stations lie, also where only a time does: what waits for a block never stands at its station. */
export class Waits implements Constraint {
  private position = 0;
  private placed: readonly number[] = [];
  private readonly here = new Set<number>();
  private readonly touched = new Set<number>();
  private readonly waitsOf = new Map<number, number[]>();
  readonly carry: Carry = {
    first: null,
    after: (carried) => this.after(carried as readonly number[] | null),
    isNoWorse: (one, two) => this.isNoLater(one as readonly number[] | null, two as readonly number[] | null),
  };
  readonly supports = {
    isFree: (block: number) => !this.touched.has(block),
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) => !this.touched.has(two) && !this.touched.has(one),
    classOf: (block: number) => (this.touched.has(block) ? null : ""),
    anyOrder: false,
  };

  constructor(private readonly work: Work) {
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
    this.placed = (carried as readonly number[] | null) ?? [];
    this.here.clear();
  }

  allows(block: number): boolean {
    for (const at of this.waitsOf.get(block) ?? []) {
      const { from, stations } = this.work.waits[at]!;
      if (this.here.has(from)) return false;
      const before = this.placed[at] ?? NOWHERE;
      if (before !== NOWHERE && this.position - before < stations) return false;
    }
    return true;
  }

  join(block: number): void {
    if (this.touched.has(block)) this.here.add(block);
  }

  leave(block: number): void {
    this.here.delete(block);
  }

  /** Whether a block that is not placed may start later than here only because it waits. */
  isWaiting(isPlaced: (block: number) => boolean): boolean {
    return this.work.waits.some(({ to, stations }, at) => {
      const before = this.placed[at] ?? NOWHERE;
      return before !== NOWHERE && !isPlaced(to) && this.position - before < stations;
    });
  }

  private after(carried: readonly number[] | null): readonly number[] {
    return this.work.waits.map(({ from }, at) =>
      this.here.has(from) ? this.position : (carried?.[at] ?? NOWHERE),
    );
  }

  private isNoLater(one: readonly number[] | null, two: readonly number[] | null): boolean {
    return this.work.waits.every((_, at) => (one?.[at] ?? NOWHERE) <= (two?.[at] ?? NOWHERE));
  }
}

/** The block waited for is not placed yet. */
const NOWHERE = -1;
