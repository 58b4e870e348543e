import type { Work } from "../work.js";
import { type Constraint, EVERY_BLOCK_COUNTS, type Site } from "./constraint.js";

/** No model takes a station more than its share above the working time. Where people of a place are at work of their own, this is only the sum of all. */
export class ModelLoads implements Constraint {
  private readonly loads: Float64Array;
  private kind = 0;
  readonly supports = {
    ...EVERY_BLOCK_COUNTS,
    mayStandFor: (two: number, one: number) =>
      this.work.modelLoads.every((loads) => loads[two]! <= loads[one]!),
  };

  constructor(private readonly work: Work) {
    this.loads = new Float64Array(work.modelLoads.length);
  }

  /** Null where models are held on average only. */
  static of(work: Work): ModelLoads | null {
    return work.modelLoads.length > 0 ? new ModelLoads(work) : null;
  }

  start({ kind }: Site): void {
    this.kind = kind;
    this.loads.fill(0);
  }

  allows(block: number): boolean {
    const most = this.limitAt(this.work.kinds[this.kind]!.limits.length);
    for (const [model, loads] of this.work.modelLoads.entries())
      if (this.loads[model]! + loads[block]! > most) return false;
    return true;
  }

  join(block: number): void {
    for (const [model, loads] of this.work.modelLoads.entries()) this.loads[model]! += loads[block]!;
  }

  leave(block: number): void {
    for (const [model, loads] of this.work.modelLoads.entries()) this.loads[model]! -= loads[block]!;
  }

  holds(places: number): boolean {
    const most = this.limitAt(places);
    return this.loads.every((load) => load <= most);
  }

  private limitAt(places: number): number {
    const { modelLimits, atOnce } = this.work.kinds[this.kind]!;
    return atOnce * modelLimits[places - 1]!;
  }
}
