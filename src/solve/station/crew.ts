import type { Work } from "../work.js";
import type { Constraint } from "./constraint.js";

/** The people together at one place: the most that any block here takes. It forbids nothing; more people only cost more. */
export class Crew implements Constraint {
  /** How many blocks here take so many people. */
  private readonly counts: number[] = [];
  readonly supports = {
    isFree: (block: number) => this.work.people[block] === 1,
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) => this.work.people[two]! <= this.work.people[one]!,
    classOf: (block: number) => String(this.work.people[block]),
    anyOrder: true,
  };

  constructor(private readonly work: Work) {}

  /** Null where one person does everything. */
  static of(work: Work): Crew | null {
    return work.people.some((people) => people > 1) ? new Crew(work) : null;
  }

  start(): void {
    this.counts.length = 0;
  }

  allows(): boolean {
    return true;
  }

  join(block: number): void {
    const people = this.work.people[block]!;
    for (let most = this.counts.length; most <= people; most++) this.counts.push(0);
    this.counts[people]!++;
  }

  leave(block: number): void {
    this.counts[this.work.people[block]!]!--;
  }

  get most(): number {
    for (let people = this.counts.length - 1; people > 1; people--)
      if (this.counts[people]! > 0) return people;
    return 1;
  }
}
