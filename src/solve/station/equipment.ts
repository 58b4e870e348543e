import type { Counted, Work } from "../work.js";
import type { Carry, Constraint } from "./constraint.js";

/** Equipment of which only so many exist on the whole line: each place of a station that works on it has one, or more where it runs for long. */
export class Equipment implements Constraint {
  private used: readonly number[] = [];
  private readonly blocks: number[] = [];
  private readonly touched: readonly boolean[];
  readonly carry: Carry = {
    first: [] as readonly number[],
    after: (carried, places) => {
      const units = this.unitsAt(places);
      return units === null ? null : units.map((each, at) => (this.usedOf(carried)[at] ?? 0) + each);
    },
    isNoWorse: (one, two) =>
      this.work.equipment.every((_, at) => (this.usedOf(one)[at] ?? 0) <= (this.usedOf(two)[at] ?? 0)),
  };
  readonly supports = {
    isFree: (block: number) => !this.touched[block],
    mayMoveUp: (block: number) => !this.touched[block],
    mayStandFor: (two: number, one: number) => !this.touched[two] && !this.touched[one],
    classOf: (block: number) => (this.touched[block] ? null : ""),
    anyOrder: true,
  };

  constructor(private readonly work: Work) {
    this.touched = work.loads.map((_, block) => work.equipment.some(({ needs }) => needs[block]!));
  }

  /** Null where none is counted that anything needs. */
  static of(work: Work): Equipment | null {
    return work.equipment.some(({ needs }) => needs.includes(true)) ? new Equipment(work) : null;
  }

  start(_site: unknown, carried: unknown): void {
    this.used = this.usedOf(carried);
    this.blocks.length = 0;
  }

  allows(block: number): boolean {
    if (!this.touched[block]) return true;
    this.blocks.push(block);
    const isAllowed = this.unitsAt(1) !== null;
    this.blocks.pop();
    return isAllowed;
  }

  join(block: number): void {
    if (this.touched[block]) this.blocks.push(block);
  }

  leave(block: number): void {
    if (this.touched[block]) this.blocks.splice(this.blocks.lastIndexOf(block), 1);
  }

  holds(places: number): boolean {
    return this.unitsAt(places) !== null;
  }

  /** Units of each that the station uses at so many places; null where there are not so many left. */
  unitsAt(places: number): number[] | null {
    const units: number[] = [];
    for (const [at, counted] of this.work.equipment.entries()) {
      const needed = this.unitsOf(counted, places);
      if ((this.used[at] ?? 0) + needed > counted.count) return null;
      units.push(needed);
    }
    return units;
  }

  private unitsOf({ needs, runs, cycle }: Counted, places: number): number {
    let needed = 0;
    let run = 0n;
    for (const block of this.blocks) {
      if (!needs[block]) continue;
      needed = places;
      run += runs[block]!;
    }
    return cycle > 0n ? Math.max(needed, Number((run + cycle - 1n) / cycle)) : needed;
  }

  private usedOf(carried: unknown): readonly number[] {
    return carried as readonly number[];
  }
}
