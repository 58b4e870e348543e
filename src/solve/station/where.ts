import type { Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";

/** Where on the floor a block may stand: kinds of stations by zone, equipment and skills of theirs, and first and last positions. */
export class Where implements Constraint {
  private position = 0;
  private kind = 0;
  private readonly free: readonly boolean[];
  readonly supports = {
    isFree: (block: number) => this.free[block]!,
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) =>
      this.work.last[two]! >= this.work.last[one]! &&
      this.work.allowed[one]!.every((isAllowed, kind) => !isAllowed || this.work.allowed[two]![kind]!),
    classOf: (block: number) =>
      `${this.work.first[block]} ${this.work.last[block]} ${this.work.allowed[block]!.map(Number).join("")}`,
    anyOrder: false,
  };

  constructor(private readonly work: Work) {
    this.free = work.allowed.map((kinds, block) => isAnywhere(work, block) && kinds.every(Boolean));
  }

  /** Null where every block may stand anywhere, at stations that are all alike. */
  static of(work: Work): Where | null {
    const isOpen = !work.isPositional && work.kinds.length === 1;
    return isOpen && work.allowed.every(([here]) => here) ? null : new Where(work);
  }

  start({ position, kind }: Site): void {
    this.position = position;
    this.kind = kind;
  }

  allows(block: number): boolean {
    const { work, position } = this;
    return (
      work.allowed[block]![this.kind]! && position >= work.first[block]! && position <= work.last[block]!
    );
  }

  join(): void {}

  leave(): void {}
}

function isAnywhere({ first, last, positions }: Work, block: number): boolean {
  return first[block] === 0 && last[block] === positions - 1;
}
