import type { Work } from "../work.js";
import type { Constraint } from "./constraint.js";

/** Blocks that may not share a station. */
export class Apart implements Constraint {
  /** For each block, how many of those here it may not share a station with. */
  private readonly against: Int32Array;
  private readonly here: number[] = [];
  private readonly others: readonly ReadonlySet<number>[];
  readonly supports = {
    isFree: (block: number) => this.work.apart[block]!.length === 0,
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) =>
      this.work.apart[two]!.every((each) => this.others[one]!.has(each)),
    classOf: (block: number) => this.work.apart[block]!.join(" "),
    anyOrder: true,
    partedFrom: (block: number) => this.work.apart[block]!,
  };

  constructor(private readonly work: Work) {
    this.against = new Int32Array(work.size);
    this.others = work.apart.map((blocks) => new Set(blocks));
  }

  static of(work: Work): Apart | null {
    return work.apart.some((blocks) => blocks.length > 0) ? new Apart(work) : null;
  }

  start(): void {
    for (const block of this.here.splice(0))
      for (const each of this.work.apart[block]!) this.against[each] = 0;
  }

  allows(block: number): boolean {
    return this.against[block] === 0;
  }

  join(block: number): void {
    this.here.push(block);
    for (const each of this.work.apart[block]!) this.against[each]!++;
  }

  leave(block: number): void {
    this.here.splice(this.here.lastIndexOf(block), 1);
    for (const each of this.work.apart[block]!) this.against[each]!--;
  }
}
