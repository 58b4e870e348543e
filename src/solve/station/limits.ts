import type { Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";

/**
 * What the blocks here take of each limit of the line, added up, stays within it. Where people share what is taken, a block that takes more
 * of them may make up for one that was too much: only a station that is closed is held against the people it has.
 */
export class Limits implements Constraint {
  private readonly used: bigint[];
  /** The most people that a place may have, whatever joins. */
  private readonly mostPeople: number;
  /** Whether more people can share what is taken, so that a limit hangs on who else is here. */
  private readonly isShared: boolean;
  private kind = 0;
  readonly supports: Constraint["supports"];

  constructor(private readonly work: Work) {
    const { limits, people } = work;
    this.used = limits.map(() => 0n);
    this.mostPeople = Math.max(1, ...people, ...work.kinds.map(({ maxCrew }) => maxCrew));
    const isCrew = people.some((each) => each > 1) || work.kinds.some(({ maxCrew }) => maxCrew > 1);
    this.isShared = limits.some((each) => each.isPerPerson) && isCrew;
    const takes = (block: number) => limits.some(({ uses }) => uses[block] !== 0n);
    const mayShare = (block: number) => this.isShared && people[block]! > 1;
    const crew = (block: number) => (this.isShared ? people[block]! : 0);
    this.supports = {
      isFree: (block) => !takes(block) && !mayShare(block),
      mayMoveUp: (block) => !mayShare(block),
      mayLeave: (block) => !mayShare(block),
      mayStandFor: (two, one) =>
        crew(two) === crew(one) && limits.every(({ uses }) => uses[two]! <= uses[one]!),
      classOf: (block) => (mayShare(block) ? null : limits.map(({ uses }) => uses[block]).join(" ")),
      anyOrder: limits.every(({ most }) => most.every((each) => each === most[0])),
    };
  }

  static of(work: Work): Limits | null {
    return work.limits.length > 0 ? new Limits(work) : null;
  }

  start({ kind }: Site): void {
    this.kind = kind;
    this.used.fill(0n);
  }

  allows(block: number): boolean {
    this.join(block);
    const isAllowed = this.holds(this.work.kinds[this.kind]!.limits.length);
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    for (const [at, { uses }] of this.work.limits.entries()) this.used[at]! += uses[block]!;
  }

  leave(block: number): void {
    for (const [at, { uses }] of this.work.limits.entries()) this.used[at]! -= uses[block]!;
  }

  /** With as many people as any block takes, since blocks to come may bring them. */
  holds(places: number): boolean {
    return this.isWithin(places, this.mostPeople);
  }

  suits(places: number, crew: number): boolean {
    return this.isWithin(places, crew);
  }

  private isWithin(places: number, crew: number): boolean {
    return this.work.limits.every(({ most, isPerPlace, isPerPerson }, at) => {
      const own = most[this.kind]!;
      return (
        own === null || this.used[at]! <= own * BigInt((isPerPlace ? places : 1) * (isPerPerson ? crew : 1))
      );
    });
  }
}
