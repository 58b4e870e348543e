import type { Work } from "../work.js";
import type { Carry, Constraint } from "./constraint.js";

/**
 * Equipment of which only so many exist on the whole line: each station that works on it has one at the least; how many more its schedule
 * needs is told when it is closed.
 */
export class Equipment implements Constraint {
  private used: readonly number[] = [];
  private readonly blocks: number[] = [];
  private readonly touched: readonly boolean[];
  readonly carry: Carry = {
    first: [] as readonly number[],
    after: (carried, { equipment }) => {
      const used = equipment.map((each, at) => (this.usedOf(carried)[at] ?? 0) + each);
      return used.every((each, at) => each <= this.work.equipment[at]!.count) ? used : null;
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
    return this.work.equipment.every(({ needs }, at) => !needs[block] || this.left[at]! > 0);
  }

  join(block: number): void {
    if (this.touched[block]) this.blocks.push(block);
  }

  leave(block: number): void {
    if (this.touched[block]) this.blocks.splice(this.blocks.lastIndexOf(block), 1);
  }

  /** Units of each that other stations do not use. */
  get left(): number[] {
    return this.work.equipment.map(({ count }, at) => count - (this.used[at] ?? 0));
  }

  /** One of each that some block here needs. */
  get needed(): number[] {
    return this.work.equipment.map(({ needs }) => (this.blocks.some((block) => needs[block]!) ? 1 : 0));
  }

  private usedOf(carried: unknown): readonly number[] {
    return carried as readonly number[];
  }
}
