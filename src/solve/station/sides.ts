import type { Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";
import { limitOf, modelLimitOf } from "./sides/schedule-sides.js";
import { SideCrews } from "./sides/side-crews.js";
import { SideSet } from "./sides/side-sets.js";

/** A wide product worked from its sides: the order of work at the station, found by a search of its own, keeps its limits. */
export class Sides implements Constraint {
  private readonly crews: SideCrews;
  private readonly set: SideSet;
  private readonly blocks: number[] = [];
  private position = 0;
  readonly supports = {
    isFree: () => false,
    mayMoveUp: () => true,
    mayStandFor: () => false,
    classOf: () => null,
    anyOrder: true,
  };

  constructor(
    private readonly work: Work,
    sides: NonNullable<Work["sides"]>,
  ) {
    this.crews = new SideCrews(work, sides);
    this.set = new SideSet(work.size);
  }

  static of(work: Work): Sides | null {
    return work.sides === null || work.schedule !== null ? null : new Sides(work, work.sides);
  }

  /** What was asked last is not known, since the steps allowed were used up; what was answered then means nothing. */
  get isUndecided(): boolean {
    return this.crews.isUndecided;
  }

  /** Tasks put to a side so far. */
  get steps(): number {
    return this.crews.steps;
  }

  /** Lets questions take so many further steps; without a word there is no limit. What was begun goes on. */
  allowSteps(most: number): void {
    this.crews.allow(most);
  }

  start({ position }: Site): void {
    this.position = position;
    this.blocks.length = 0;
    this.set.clear();
  }

  allows(): boolean {
    return true;
  }

  join(block: number): void {
    this.blocks.push(block);
    this.set.add(block);
  }

  leave(block: number): void {
    this.blocks.splice(this.blocks.lastIndexOf(block), 1);
    this.set.remove(block);
  }

  holds(places: number): boolean {
    return this.crewAt(places) > 0;
  }

  /** Sides in use at so many places; 0 where they cannot keep the limits. */
  crewAt(places: number): number {
    const station = { position: this.position, blocks: this.blocks, places };
    const [mean, most] = [limitOf(this.work, station), modelLimitOf(this.work, station)];
    return this.crews.of(this.set.key, this.blocks, mean, most);
  }
}
