import type { Today, Work } from "../work.js";
import type { Carry, Constraint, Site } from "./constraint.js";

/** How today's plan is kept by the stations so far. */
export interface KeptSoFar {
  /** The first label that is still ahead; what has its home before that cannot stay. */
  readonly next: number;
  /** What the moves of the blocks placed cost. */
  readonly moves: number;
  /** By label what it would cost to move all blocks of that home that are not placed. */
  readonly left: Float64Array;
}

/**
 * Moves away from today's plan cost no more than is allowed. Each station keeps a label of today's plan, or is new; labels ascend along
 * the line, so a station put in at the front moves nothing by itself. On a floor each label has its position. A block moves where its
 * station has another label than its home; and what has a home that is passed with the block left out will have to move.
 */
export class Labels implements Constraint {
  readonly carry: Carry;
  readonly supports: Constraint["supports"];
  private so: KeptSoFar;
  private readonly first: KeptSoFar;
  /** What the blocks here, and those passed over, cost to move, by label of their home. */
  private readonly here: Float64Array;
  private readonly passed: Float64Array;
  /** What moves cost for certain before the station is filled. */
  private certain = 0;
  /** The label of the station where positions have one; -1: a new one. */
  private label = NEW;
  /** By label, where positions have one. */
  private readonly positionOf: readonly number[] | null;
  private position = 0;
  private readonly touched = new Set<number>();

  constructor(private readonly today: Today) {
    const { homes, labels, labelAt } = today;
    const left = new Float64Array(labels);
    for (const { label, cost } of homes.flat()) left[label]! += cost;
    const first: KeptSoFar = { next: 0, moves: 0, left };
    this.first = first;
    this.so = first;
    this.here = new Float64Array(labels);
    this.passed = new Float64Array(labels);
    this.positionOf =
      labelAt === null ? null : Array.from({ length: labels }, (_, label) => labelAt.indexOf(label));
    const names = homes.map((each) => each.map(({ label, cost }) => `${label} ${cost}`).join(", "));
    const isFree = (block: number) => homes[block]!.length === 0;
    this.supports = {
      isFree,
      mayMoveUp: isFree,
      mayStandFor: (two, one) => names[two] === names[one],
      classOf: (block) => names[block]!,
      anyOrder: false,
    };
    this.carry = {
      first,
      after: (carried) => carried,
      isNoWorse: (one, two) => isNoWorse(one as KeptSoFar, two as KeptSoFar),
    };
  }

  static of({ today }: Work): Labels | null {
    return today === null ? null : new Labels(today);
  }

  /** Null carried: somebody else sees to moves. */
  start({ position }: Site, carried: unknown): void {
    this.so = (carried as KeptSoFar | null) ?? this.first;
    this.position = position;
    this.label = this.today.labelAt?.[position] ?? NEW;
    for (const label of this.touched) {
      this.here[label] = 0;
      this.passed[label] = 0;
    }
    this.touched.clear();
    this.certain = carried === null ? Number.NEGATIVE_INFINITY : this.so.moves;
    for (const [label, cost] of this.so.left.entries())
      if (!this.isAhead(label, this.so.next, position)) this.certain += cost;
  }

  allows(block: number): boolean {
    if (this.today.homes[block]!.length === 0) return true;
    this.join(block);
    const isAllowed = this.mayClose;
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    this.add(this.here, block, 1);
  }

  leave(block: number): void {
    this.add(this.here, block, -1);
  }

  /** A block is left for a later station, or may be taken again. */
  passOver(block: number, isBack: boolean): void {
    this.add(this.passed, block, isBack ? -1 : 1);
  }

  /** Whether under some label the moves that are certain by now are allowed. */
  get mayClose(): boolean {
    const { here, passed, certain, today, label, so } = this;
    const { labels, mostMoves } = today;
    let away = 0;
    for (const each of this.touched)
      if (each !== label && this.isAhead(each, so.next, this.position)) away += here[each]!;
    if (this.positionOf !== null) return certain + away + (label === NEW ? 0 : passed[label]!) <= mostMoves;
    if (certain + away <= mostMoves) return true;
    let givenUp = 0;
    for (let each = so.next; each < labels && certain + givenUp <= mostMoves; each++) {
      away -= here[each]!;
      if (certain + givenUp + away + passed[each]! <= mostMoves) return true;
      givenUp += so.left[each]!;
    }
    return false;
  }

  private add(to: Float64Array, block: number, sign: 1 | -1): void {
    for (const { label, cost } of this.today.homes[block]!) {
      to[label]! += sign * cost;
      this.touched.add(label);
    }
  }

  private isAhead(label: number, next: number, position: number): boolean {
    return this.positionOf === null ? label >= next : this.positionOf[label]! >= position;
  }

  /** As a new station, or under each label of which it keeps something. */
  choices(): KeptSoFar[] {
    const { so, here, positionOf } = this;
    const left = so.left.slice();
    let moves = so.moves;
    for (const label of this.touched) {
      left[label]! -= here[label]!;
      moves += here[label]!;
    }
    const labels =
      positionOf !== null
        ? [this.label]
        : [NEW, ...[...this.touched].filter((each) => each >= so.next && here[each]! > 0)];
    return labels
      .map((label) => {
        const next = label === NEW || positionOf !== null ? so.next : label + 1;
        return { next, moves: label === NEW ? moves : moves - here[label]!, left };
      })
      .filter((each) => this.isAllowed(each));
  }

  private isAllowed({ next, moves, left }: KeptSoFar): boolean {
    let certain = moves;
    for (const [label, cost] of left.entries())
      if (!this.isAhead(label, next, this.position + 1)) certain += cost;
    return certain <= this.today.mostMoves;
  }
}

/** With the same blocks placed. */
function isNoWorse(one: KeptSoFar, two: KeptSoFar): boolean {
  return one.moves <= two.moves && one.next <= two.next;
}

const NEW = -1;
