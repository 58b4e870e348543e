import type { Home, Today, Work } from "../work.js";
import type { Carry, Constraint, Site } from "./constraint.js";

/** How today's plan is kept by the stations so far. */
export interface KeptSoFar extends MovedSoFar {
  /** The first label that is still ahead; what has its home before that cannot stay. */
  readonly next: number;
  /** The same by the cost that is held beside the first; null where there is none. */
  readonly beside: MovedSoFar | null;
}

/** By one cost of moves. */
export interface MovedSoFar {
  /** What the moves of the blocks placed cost. */
  readonly moves: number;
  /** By label what it would cost to move all blocks of that home that are not placed. */
  readonly left: Float64Array;
}

/**
 * Moves away from today's plan cost no more than is allowed, by each cost of which there is a most. Each station keeps a label of
 * today's plan, or is new; labels ascend along the line, so a station put in at the front moves nothing by itself. On a floor each
 * label has its position. A block moves where its station has another label than its home; and what has a home that is passed with the
 * block left out will have to move.
 */
export class Labels implements Constraint {
  readonly carry: Carry;
  readonly supports: Constraint["supports"];
  private readonly first: KeptSoFar;
  private next = 0;
  /** The moves of the station being filled, by each cost. */
  private readonly rows: readonly MovesHere[];
  /** The label of the station where positions have one; -1: a new one. */
  private label = NEW;
  /** By label, where positions have one. */
  private readonly positionOf: readonly number[] | null;
  private position = 0;
  private readonly touched = new Set<number>();

  constructor(private readonly today: Today) {
    const { homes, labels, labelAt, beside } = today;
    this.rows = [today, ...(beside === undefined ? [] : [beside])].map((each) => new MovesHere(labels, each));
    const [first, second] = this.rows.map(({ first: row }) => row);
    this.first = { next: 0, ...first!, beside: second ?? null };
    this.positionOf =
      labelAt === null ? null : Array.from({ length: labels }, (_, label) => labelAt.indexOf(label));
    const names = homes.map((each, block) =>
      [...each, ...(beside?.homes[block] ?? [])].map(({ label, cost }) => `${label} ${cost}`).join(", "),
    );
    const isFree = (block: number) => homes[block]!.length === 0;
    this.supports = {
      isFree,
      mayMoveUp: isFree,
      mayStandFor: (two, one) => names[two] === names[one],
      classOf: (block) => names[block]!,
      anyOrder: false,
    };
    this.carry = {
      first: this.first,
      after: (carried) => carried,
      isNoWorse: (one, two) => isNoWorse(one as KeptSoFar, two as KeptSoFar),
    };
  }

  static of({ today }: Work): Labels | null {
    return today === null ? null : new Labels(today);
  }

  /** Null carried: somebody else sees to moves. */
  start({ position }: Site, carried: unknown): void {
    const so = (carried as KeptSoFar | null) ?? this.first;
    this.next = so.next;
    this.position = position;
    this.label = this.today.labelAt?.[position] ?? NEW;
    for (const [at, row] of this.rows.entries()) {
      row.start(at === 0 ? so : so.beside!, this.touched);
      row.certain = carried === null ? Number.NEGATIVE_INFINITY : this.certainOf(row.so, so.next, position);
    }
    this.touched.clear();
  }

  allows(block: number): boolean {
    if (this.today.homes[block]!.length === 0) return true;
    this.join(block);
    const isAllowed = this.mayClose;
    this.leave(block);
    return isAllowed;
  }

  join(block: number): void {
    for (const row of this.rows) row.add(row.here, block, 1);
    this.touch(block);
  }

  leave(block: number): void {
    for (const row of this.rows) row.add(row.here, block, -1);
  }

  /** A block is left for a later station, or may be taken again. */
  passOver(block: number, isBack: boolean): void {
    for (const row of this.rows) row.add(row.passed, block, isBack ? -1 : 1);
    this.touch(block);
  }

  /** Whether under some label the moves that are certain by now are allowed. */
  get mayClose(): boolean {
    const { rows, label, next } = this;
    const isAhead = (each: number) => each !== label && this.isAhead(each, next, this.position);
    for (const row of rows) row.away = row.sumHere(this.touched, isAhead);
    if (this.positionOf !== null)
      return rows.every(
        (row) => row.certain + row.away + (label === NEW ? 0 : row.passed[label]!) <= row.most,
      );
    if (rows.every((row) => row.certain + row.away <= row.most)) return true;
    for (const row of rows) row.givenUp = 0;
    const isOpen = (row: MovesHere) => row.certain + row.givenUp <= row.most;
    for (let each = next; each < this.today.labels && rows.every(isOpen); each++) {
      let isAllowed = true;
      for (const row of rows) isAllowed = row.mayKeep(each) && isAllowed;
      if (isAllowed) return true;
    }
    return false;
  }

  private touch(block: number): void {
    for (const { label } of this.today.homes[block]!) this.touched.add(label);
  }

  private isAhead(label: number, next: number, position: number): boolean {
    return this.positionOf === null ? label >= next : this.positionOf[label]! >= position;
  }

  /** As a new station, or under each label of which it keeps something. */
  choices(): KeptSoFar[] {
    const { next, positionOf, rows, touched } = this;
    const labels =
      positionOf !== null
        ? [this.label]
        : [NEW, ...[...touched].filter((each) => each >= next && rows[0]!.here[each]! > 0)];
    const moved = rows.map((row) => row.moved(touched));
    return labels
      .map((label): KeptSoFar => {
        const [first, second] = moved.map(({ moves, left }, at) => ({
          moves: label === NEW ? moves : moves - rows[at]!.here[label]!,
          left,
        }));
        return {
          next: label === NEW || positionOf !== null ? next : label + 1,
          ...first!,
          beside: second ?? null,
        };
      })
      .filter((each) => this.isAllowed(each));
  }

  private isAllowed(kept: KeptSoFar): boolean {
    return this.rows.every(({ most }, at) => {
      const moved = at === 0 ? kept : kept.beside!;
      return this.certainOf(moved, kept.next, this.position + 1) <= most;
    });
  }

  /** What moves cost for certain before the station at a position is filled. */
  private certainOf({ moves, left }: MovedSoFar, next: number, position: number): number {
    let certain = moves;
    for (const [label, cost] of left.entries()) if (!this.isAhead(label, next, position)) certain += cost;
    return certain;
  }
}

/** What moves at the station being filled, by one cost. */
class MovesHere {
  readonly first: MovedSoFar;
  readonly most: number;
  so: MovedSoFar;
  /** What the blocks here, and those passed over, cost to move, by label of their home. */
  readonly here: Float64Array;
  readonly passed: Float64Array;
  /** What moves cost for certain before the station is filled. */
  certain = 0;
  /** What blocks here cost whose home is another station that is still ahead. */
  away = 0;
  /** What goes with the labels that are passed by. */
  givenUp = 0;
  private readonly homes: readonly (readonly Home[])[];

  constructor(labels: number, { homes, mostMoves }: Pick<Today, "homes" | "mostMoves">) {
    this.homes = homes;
    this.most = mostMoves;
    const left = new Float64Array(labels);
    for (const { label, cost } of homes.flat()) left[label]! += cost;
    this.first = { moves: 0, left };
    this.so = this.first;
    this.here = new Float64Array(labels);
    this.passed = new Float64Array(labels);
  }

  start(so: MovedSoFar, touched: ReadonlySet<number>): void {
    this.so = so;
    for (const label of touched) {
      this.here[label] = 0;
      this.passed[label] = 0;
    }
  }

  add(to: Float64Array, block: number, sign: 1 | -1): void {
    for (const { label, cost } of this.homes[block]!) to[label]! += sign * cost;
  }

  sumHere(touched: ReadonlySet<number>, isCounted: (label: number) => boolean): number {
    let sum = 0;
    for (const label of touched) if (isCounted(label)) sum += this.here[label]!;
    return sum;
  }

  /** Whether the station may keep a label, those before it being passed by; asked in order of the labels. */
  mayKeep(label: number): boolean {
    this.away -= this.here[label]!;
    const isAllowed = this.certain + this.givenUp + this.away + this.passed[label]! <= this.most;
    this.givenUp += this.so.left[label]!;
    return isAllowed;
  }

  /** All blocks here counted as moved. */
  moved(touched: ReadonlySet<number>): MovedSoFar {
    const left = this.so.left.slice();
    let { moves } = this.so;
    for (const label of touched) {
      left[label]! -= this.here[label]!;
      moves += this.here[label]!;
    }
    return { moves, left };
  }
}

/** With the same blocks placed. */
function isNoWorse(one: KeptSoFar, two: KeptSoFar): boolean {
  return (
    one.moves <= two.moves &&
    one.next <= two.next &&
    (one.beside === null || one.beside.moves <= two.beside!.moves)
  );
}

const NEW = -1;
