/**
 * The heaviest set of tasks that fits a station, when tasks of equal time weigh the same: the bounded knapsack problem
 * (Martello & Toth 1990, chapter 3), solved exactly over every room from 0 to the limit. Weights are whole numbers.
 */
export class BestFilling {
  /** How many tasks of each time the heaviest set holds. */
  readonly counts: Int32Array;
  /** The most weight in each room, and whether the last of the pieces below is in it. */
  private readonly most: Float64Array;
  private readonly isIn: Uint8Array;
  /** Tasks of one time in pieces of 1, 2, 4, ... tasks, so that any number of them is a sum of some pieces. */
  private readonly pieces: readonly Piece[];

  /** `copies[at]` tasks take `times[at]` each, all above 0 and no longer than the limit. */
  constructor(
    private readonly times: Float64Array,
    private readonly copies: Int32Array,
    private readonly limit: number,
  ) {
    this.counts = new Int32Array(times.length);
    this.most = new Float64Array(limit + 1);
    this.pieces = Array.from(times).flatMap((time, kind) =>
      piecesOf(Math.min(copies[kind]!, Math.floor(limit / time))).map((tasks) => ({ kind, tasks })),
    );
    this.isIn = new Uint8Array(this.pieces.length * (limit + 1));
  }

  /** Steps that one call of `find` takes. */
  get steps(): number {
    return this.pieces.length * this.limit;
  }

  /** Finds the heaviest set for these weights, one a time, and gives its weight; `counts` says what is in it. */
  find(weights: Float64Array): number {
    const { most, isIn, limit, pieces } = this;
    most.fill(0);
    isIn.fill(0);
    for (const [at, { kind, tasks }] of pieces.entries()) {
      const weight = weights[kind]! * tasks;
      const time = this.times[kind]! * tasks;
      if (weight === 0) continue;
      const row = at * (limit + 1);
      for (let room = limit; room >= time; room--) {
        const withPiece = most[room - time]! + weight;
        if (withPiece <= most[room]!) continue;
        most[room] = withPiece;
        isIn[row + room] = 1;
      }
    }
    this.trace();
    return most[limit]!;
  }

  /**
   * After `find` for these weights: gives each time without a weight as much weight as leaves this the weight of the heaviest set, the
   * longest time first (lifting, Balas 1975).
   */
  lift(weights: Float64Array, heaviest: number): void {
    const { most, limit } = this;
    for (const [kind, time] of this.times.entries()) {
      if (weights[kind]! > 0) continue;
      const copies = Math.min(this.copies[kind]!, Math.floor(limit / time));
      let weight = Number.MAX_SAFE_INTEGER;
      for (let tasks = 1; tasks <= copies; tasks++)
        weight = Math.min(weight, Math.floor((heaviest - most[limit - tasks * time]!) / tasks));
      weights[kind] = weight;
      for (let task = 0; task < copies && weight > 0; task++)
        for (let room = limit; room >= time; room--)
          most[room] = Math.max(most[room]!, most[room - time]! + weight);
    }
  }

  private trace(): void {
    this.counts.fill(0);
    let room = this.limit;
    for (let at = this.pieces.length - 1; at >= 0; at--) {
      if (this.isIn[at * (this.limit + 1) + room] === 0) continue;
      const { kind, tasks } = this.pieces[at]!;
      this.counts[kind]! += tasks;
      room -= this.times[kind]! * tasks;
    }
  }
}

interface Piece {
  /** Place of the time. */
  readonly kind: number;
  readonly tasks: number;
}

/** 1, 2, 4, ... and the rest. */
function piecesOf(tasks: number): number[] {
  const pieces: number[] = [];
  let left = tasks;
  for (let size = 1; left > 0; size *= 2) {
    pieces.push(Math.min(size, left));
    left -= Math.min(size, left);
  }
  return pieces;
}
