import type { Work } from "../work.js";
import type { Carry, Constraint } from "./constraint.js";
import { mayBeStaffed } from "./staff-skills.js";

/** Skills that only some people have: one person at each place has all those of its blocks, and nobody stands at two places. */
export class Skills implements Constraint {
  /** The blocks here that need a skill. */
  private readonly skilled: number[] = [];
  private others: readonly bigint[] = [];
  readonly carry: Carry = {
    first: [] as readonly bigint[],
    after: (carried, { places }) => this.after(carried as readonly bigint[], places),
    isNoWorse: (one, two) => isPartOf(one as readonly bigint[], two as readonly bigint[]),
  };
  readonly supports = {
    isFree: (block: number) => this.needsOf(block) === 0n,
    mayMoveUp: (block: number) => this.needsOf(block) === 0n,
    mayStandFor: (two: number, one: number) => this.needsOf(two) === 0n && this.needsOf(one) === 0n,
    classOf: (block: number) => (this.needsOf(block) === 0n ? "" : null),
    anyOrder: true,
  };

  constructor(private readonly problem: NonNullable<Work["skills"]>) {}

  static of({ skills }: Work): Skills | null {
    return skills === null ? null : new Skills(skills);
  }

  start(_site: unknown, carried: unknown): void {
    this.skilled.length = 0;
    this.others = carried as readonly bigint[];
  }

  allows(block: number): boolean {
    if (this.needsOf(block) === 0n) return true;
    this.skilled.push(block);
    const isAllowed = mayBeStaffed(this.withPlaces(this.others, 1), this.problem.people);
    this.skilled.pop();
    return isAllowed;
  }

  join(block: number): void {
    if (this.needsOf(block) !== 0n) this.skilled.push(block);
  }

  leave(block: number): void {
    if (this.needsOf(block) !== 0n) this.skilled.splice(this.skilled.lastIndexOf(block), 1);
  }

  holds(places: number): boolean {
    return this.skilled.length === 0 || this.after(this.others, places) !== null;
  }

  private after(others: readonly bigint[], places: number): readonly bigint[] | null {
    const all = this.withPlaces(others, places);
    return mayBeStaffed(all, this.problem.people) ? all : null;
  }

  private needsOf(block: number): bigint {
    return this.problem.needs[block]!;
  }

  private withPlaces(others: readonly bigint[], places: number): readonly bigint[] {
    const needs = this.skilled.reduce((all, block) => all | this.needsOf(block), 0n);
    if (needs === 0n) return others;
    return [...others, ...Array<bigint>(places).fill(needs)].sort(byValue);
  }
}

/** Whether every place of the first is among those of the second; both ascend. */
function isPartOf(one: readonly bigint[], two: readonly bigint[]): boolean {
  let at = 0;
  for (const each of two) if (at < one.length && one[at] === each) at++;
  return at === one.length;
}

const byValue = (one: bigint, two: bigint): number => (one < two ? -1 : one > two ? 1 : 0);
