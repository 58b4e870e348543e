import type { Work } from "../work.js";
import type { Constraint, Site } from "./constraint.js";

/** Where on the floor a block may stand: kinds of stations by zone, equipment and skills of theirs, and first and last positions. */
export class Where implements Constraint {
  private position = 0;
  private kind = 0;
  private readonly free: readonly boolean[];
  private readonly rows: RowsOfStations;
  readonly supports = {
    isFree: (block: number) => this.free[block]!,
    mayMoveUp: () => true,
    mayStandFor: (two: number, one: number) =>
      this.work.last[two]! >= this.work.last[one]! && this.rows.areAmong(one, two),
    classOf: (block: number) =>
      `${this.work.first[block]} ${this.work.last[block]} ${this.rows.numbers[block]}`,
    anyOrder: false,
  };

  constructor(private readonly work: Work) {
    this.rows = new RowsOfStations(work.allowed);
    this.free = work.loads.map((_, block) => isAnywhere(work, block) && this.rows.isFull(block));
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

/** Rows of stations that may hold blocks, each looked at once however many blocks have it. */
class RowsOfStations {
  /** By block: of equal rows all have the same number. */
  readonly numbers: readonly number[];
  private readonly rows: (readonly boolean[])[] = [];
  private readonly full: boolean[] = [];
  private readonly among = new Map<number, boolean>();

  constructor(allowed: Work["allowed"]) {
    const known = new Map<readonly boolean[], number>();
    const byStations = new Map<string, number>();
    this.numbers = allowed.map((row) => {
      const number = known.get(row) ?? this.numberOf(row, byStations);
      known.set(row, number);
      return number;
    });
  }

  private numberOf(row: readonly boolean[], byStations: Map<string, number>): number {
    const stations = row.map(Number).join("");
    const number = byStations.get(stations) ?? this.rows.length;
    if (byStations.has(stations)) return number;
    byStations.set(stations, number);
    this.rows.push(row);
    this.full.push(row.every(Boolean));
    return number;
  }

  isFull(block: number): boolean {
    return this.full[this.numbers[block]!]!;
  }

  /** Whether every station that may hold the first block may hold the second. */
  areAmong(one: number, two: number): boolean {
    const [own, other] = [this.numbers[one]!, this.numbers[two]!];
    if (own === other) return true;
    const pair = own * this.rows.length + other;
    const known = this.among.get(pair);
    if (known !== undefined) return known;
    const isAmong = this.rows[own]!.every((isAllowed, kind) => !isAllowed || this.rows[other]![kind]!);
    this.among.set(pair, isAmong);
    return isAmong;
  }
}
