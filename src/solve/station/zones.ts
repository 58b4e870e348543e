import type { Work } from "../work.js";
import type { Constraint } from "./constraint.js";

/** Blocks of different zones never share a station. */
export class Zones implements Constraint {
  /** The zone of the station, null while no block here has one. */
  zone: string | null = null;
  private zoned = 0;
  readonly supports = {
    isFree: (block: number) => this.work.zones[block] === null,
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) =>
      this.work.zones[two] === null || this.work.zones[two] === this.work.zones[one],
    classOf: (block: number) => this.work.zones[block] ?? "",
    anyOrder: true,
  };

  constructor(private readonly work: Work) {}

  /** Null where no two blocks are in different zones. */
  static of(work: Work): Zones | null {
    return new Set(work.zones.filter((zone) => zone !== null)).size > 1 ? new Zones(work) : null;
  }

  start(): void {
    this.zone = null;
    this.zoned = 0;
  }

  allows(block: number): boolean {
    const own = this.work.zones[block]!;
    return own === null || this.zone === null || own === this.zone;
  }

  join(block: number): void {
    const own = this.work.zones[block]!;
    if (own === null) return;
    this.zone = own;
    this.zoned++;
  }

  leave(block: number): void {
    if (this.work.zones[block] === null) return;
    if (--this.zoned === 0) this.zone = null;
  }
}
