import { SideMemory } from "./side-memory.js";
import { SideSet } from "./side-sets.js";
import type { SideStation } from "./side-station.js";

/** Tasks of a station in order of work, by their places in its list, with the side of each and the ends by row. */
export interface SideOrder {
  readonly tasks: readonly number[];
  readonly sides: readonly ("left" | "right" | "both")[];
  readonly ends: Float64Array;
  readonly finish: number;
}

/**
 * Tries every order of the tasks, each from every side that it may be worked from. The kinds of units are rows of loads that are
 * worked off side by side, under the same order and sides: a task starts when its side is free and the tasks before it have ended, which
 * is at a time of its own in each row.
 *
 * Orders come up sorted by their moves: a move is a task with its side. Left out are orders for which a smaller one ends no later:
 * where the same tasks were taken before with everything free no later, where the last two moves come to the same the other way
 * round, and where a twin of the task, alike in everything, is smaller. So the smallest of the best orders is never left out.
 */
export class SideSearch {
  /** Tasks put to a side, over all calls. */
  steps = 0;
  best: SideOrder | null = null;
  private depth = 0;
  /** By depth and row. */
  private readonly left: Float64Array;
  private readonly right: Float64Array;
  /** The work ahead that only this side can do, and all of it; what both sides do together counts twice. */
  private readonly onlyLeft: Float64Array;
  private readonly onlyRight: Float64Array;
  private readonly all: Float64Array;
  /** No sooner than this ends what is behind the tasks taken. */
  private readonly chain: Float64Array;
  /** When the tasks before each have ended, by depth, row and task. */
  private readonly ready: Float64Array;
  private readonly moves: Int32Array;
  private readonly missing: Int32Array;
  private readonly twins: Int32Array;
  private readonly isTaken: Uint8Array;
  private readonly taken: SideSet;
  private readonly bound: Float64Array;
  private readonly memory: SideMemory;
  private fixedLeft: number;
  private isOver = false;

  /**
   * @param most the mean end that is allowed
   * @param enough with a mean end so low the search is over
   * @param order tasks; those before others are tried first
   */
  constructor(
    private readonly station: SideStation,
    private readonly order: readonly number[],
    private most: number,
    private readonly enough: number,
  ) {
    const { size, rows } = station;
    const byRow = () => new Float64Array((size + 1) * rows);
    [this.left, this.right, this.chain] = [byRow(), byRow(), byRow()];
    [this.onlyLeft, this.onlyRight, this.all] = [byRow(), byRow(), byRow()];
    this.ready = new Float64Array((size + 1) * rows * size);
    this.moves = new Int32Array(size + 1).fill(-1);
    this.missing = Int32Array.from(station.before, (earlier) => earlier.length);
    this.twins = twinsOf(station, order);
    this.isTaken = new Uint8Array(size);
    this.taken = new SideSet(size);
    this.bound = new Float64Array(rows);
    this.memory = new SideMemory(station);
    this.fixedLeft = station.sides.filter((side) => side === "left" || side === "right").length;
    for (let row = 0; row < rows; row++) {
      for (let task = 0; task < size; task++) this.addWork(row, row, task, 1);
    }
  }

  /** Goes on until the search is over or so many steps are made; whether it is over. */
  advance(mostSteps: number): boolean {
    while (!this.isOver) {
      if (this.steps >= mostSteps) return false;
      if (this.depth === this.station.size) {
        this.remember();
        this.takeBack();
      } else if (!this.goOn()) {
        if (this.depth === 0) this.isOver = true;
        else this.takeBack();
      }
    }
    return true;
  }

  /** Makes the next move that may be of use at this depth; false where none is left. */
  private goOn(): boolean {
    const { station, order, depth } = this;
    for (let move = this.moves[depth]! + 1; move < 2 * station.size; move++) {
      this.moves[depth] = move;
      const task = order[move >> 1]!;
      if (this.isTaken[task] || this.missing[task] !== 0) continue;
      const side = station.sides[task]!;
      if ((move & 1) === 1 ? side === "left" || side === "both" : side === "right") continue;
      const twin = this.twins[task]!;
      if (twin >= 0 && !this.isTaken[twin]) continue;
      if (depth > 0 && this.moves[depth - 1]! > move && this.commutes(this.moves[depth - 1]!, move)) continue;
      this.put(task, side === "both" ? BOTH : move & 1);
      if (!this.isHopeless() && !this.isKnown()) {
        if (this.depth < station.size) this.moves[this.depth] = -1;
        return true;
      }
      this.takeBack();
    }
    return false;
  }

  /** Two moves that follow each other come to the same the other way round. */
  private commutes(one: number, two: number): boolean {
    const { station, order } = this;
    const [first, second] = [order[one >> 1]!, order[two >> 1]!];
    if (station.sides[first] === "both" || station.sides[second] === "both") return false;
    if (((one ^ two) & 1) === 1) return !station.after[first]!.includes(second);
    return this.isAlone(first) && this.isAlone(second);
  }

  private isAlone(task: number): boolean {
    return this.station.before[task]!.length === 0 && this.station.after[task]!.length === 0;
  }

  private put(task: number, side: number): void {
    const { station, depth } = this;
    const { rows, size } = station;
    this.steps++;
    const at = depth * rows;
    this.ready.copyWithin((depth + 1) * rows * size, at * size, (at + rows) * size);
    for (let row = 0; row < rows; row++) {
      const [now, next] = [at + row, at + rows + row];
      const [left, right] = [this.left[now]!, this.right[now]!];
      const free = side === LEFT ? left : side === RIGHT ? right : Math.max(left, right);
      const start = Math.max(free, this.ready[now * size + task]!);
      const end = start + station.loads[row * size + task]!;
      this.left[next] = side === RIGHT ? left : end;
      this.right[next] = side === LEFT ? right : end;
      this.chain[next] = Math.max(this.chain[now]!, start + station.tails[row * size + task]!);
      this.onlyLeft[next] = this.onlyLeft[now]!;
      this.onlyRight[next] = this.onlyRight[now]!;
      this.all[next] = this.all[now]!;
      this.addWork(next, row, task, -1);
      for (const later of station.after[task]!)
        this.ready[next * size + later] = Math.max(this.ready[next * size + later]!, end);
    }
    for (const later of station.after[task]!) this.missing[later]!--;
    this.isTaken[task] = 1;
    this.taken.add(task);
    if (isFixed(station, task)) this.fixedLeft--;
    this.depth++;
  }

  private takeBack(): void {
    const { station } = this;
    this.depth--;
    const task = this.order[this.moves[this.depth]! >> 1]!;
    for (const later of station.after[task]!) this.missing[later]!++;
    this.isTaken[task] = 0;
    this.taken.remove(task);
    if (isFixed(station, task)) this.fixedLeft++;
  }

  private addWork(at: number, row: number, task: number, sign: 1 | -1): void {
    const { loads, size, sides } = this.station;
    const load = sign * loads[row * size + task]!;
    const side = sides[task]!;
    if (side === "left" || side === "both") this.onlyLeft[at]! += load;
    if (side === "right" || side === "both") this.onlyRight[at]! += load;
    this.all[at]! += side === "both" ? 2 * load : load;
  }

  /** The work left does not fit what both sides have left. */
  private isHopeless(): boolean {
    const { rows } = this.station;
    const at = this.depth * rows;
    for (let row = 0; row < rows; row++) {
      const [left, right] = [this.left[at + row]!, this.right[at + row]!];
      this.bound[row] = Math.max(
        left + this.onlyLeft[at + row]!,
        right + this.onlyRight[at + row]!,
        Math.ceil((left + right + this.all[at + row]!) / 2),
        this.chain[at + row]!,
      );
    }
    return this.station.meanOf(this.bound) > this.most;
  }

  private isKnown(): boolean {
    const { depth, left, right, ready } = this;
    if (depth >= this.station.size - 1) return false;
    const at = depth * this.station.rows;
    return this.memory.isKnown(
      this.taken.key,
      { at, left, right, ready },
      this.isTaken,
      this.fixedLeft === 0,
    );
  }

  private remember(): void {
    const { station, order, moves } = this;
    const at = station.size * station.rows;
    const ends = new Float64Array(station.rows);
    for (let row = 0; row < station.rows; row++)
      ends[row] = Math.max(this.left[at + row]!, this.right[at + row]!);
    const finish = station.meanOf(ends);
    if (finish > this.most) return;
    const tasks = Array.from(moves.subarray(0, station.size), (move) => order[move >> 1]!);
    const sides = tasks.map((task, place) =>
      station.sides[task] === "both" ? "both" : (moves[place]! & 1) === 1 ? "right" : "left",
    );
    this.best = { tasks, sides, ends, finish };
    this.most = finish - 1;
    this.isOver = finish <= this.enough;
  }
}

const isFixed = ({ sides }: SideStation, task: number): boolean =>
  sides[task] === "left" || sides[task] === "right";

/** For each task one before it in the order that is like it in everything; -1 where there is none. */
function twinsOf(station: SideStation, order: readonly number[]): Int32Array {
  const twins = new Int32Array(station.size).fill(-1);
  const seen = new Map<string, number>();
  for (const task of order) {
    const loads = Array.from({ length: station.rows }, (_, row) => station.loads[row * station.size + task]!);
    const key = [station.sides[task], loads, station.before[task], station.after[task]].join("/");
    twins[task] = seen.get(key) ?? -1;
    seen.set(key, task);
  }
  return twins;
}

const LEFT = 0;
const RIGHT = 1;
const BOTH = 2;
