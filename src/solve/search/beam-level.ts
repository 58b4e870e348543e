import type { Instance } from "./instance.js";

/**
 * Partial plans on the same number of stations: sets of tasks, each once, those with the least idle time, less what their tasks are worth. Room is for
 * SPARE times as many as are kept in the end; whenever it is full, only the best stay, and `mostIdle` is what the worst of
 * them leaves idle: nothing worse can be kept any more.
 */
export class BeamLevel {
  count = 0;
  mostIdle = Number.POSITIVE_INFINITY;
  /** Row `at`: the tasks of a partial plan. */
  sets: Int32Array;
  hashes: Int32Array;
  idle: Float64Array;
  /** Where in the level before it comes from. */
  parents: Int32Array;
  private slots: Int32Array;
  private readonly words: number;
  private readonly most: number;

  constructor(
    instance: Instance,
    /** Partial plans kept in the end. */
    private readonly width: number,
  ) {
    this.words = instance.words;
    this.most = width * SPARE;
    this.sets = new Int32Array(this.most * this.words);
    this.hashes = new Int32Array(this.most);
    this.idle = new Float64Array(this.most);
    this.parents = new Int32Array(this.most);
    let slots = 2;
    while (slots < this.most * 2) slots *= 2;
    this.slots = new Int32Array(slots).fill(NONE);
  }

  /** Whether the next set may push another out. */
  get isFull(): boolean {
    return this.count === this.most;
  }

  /** Takes a set of tasks in, unless it is there: the same tasks on as many stations leave the same idle time. */
  add(set: Int32Array, hash: number, idle: number, parent: number): void {
    if (this.count === this.most) this.choose();
    if (idle > this.mostIdle) return;
    const slot = this.slotOf(set, hash);
    if (this.slots[slot] !== NONE) return;
    this.sets.set(set, this.count * this.words);
    this.hashes[this.count] = hash;
    this.idle[this.count] = idle;
    this.parents[this.count] = parent;
    this.slots[slot] = this.count++;
  }

  /** Keeps the best, the least idle time first; of equals by their hashes, so that no part of the line is preferred. */
  choose(): void {
    const { idle, hashes, words } = this;
    const order = Array.from({ length: this.count }, (_, at) => at)
      .sort((one, two) => idle[one]! - idle[two]! || hashes[one]! - hashes[two]! || one - two)
      .slice(0, this.width);
    if (this.count > this.width) this.mostIdle = idle[order.at(-1)!]!;
    const sets = new Int32Array(this.sets.length);
    for (const [to, from] of order.entries())
      sets.set(this.sets.subarray(from * words, (from + 1) * words), to * words);
    this.sets = sets;
    this.hashes = spread(new Int32Array(this.most), order, hashes);
    this.parents = spread(new Int32Array(this.most), order, this.parents);
    this.idle = spread(new Float64Array(this.most), order, idle);
    this.count = order.length;
    this.slots.fill(NONE);
    for (let at = 0; at < this.count; at++) {
      const set = this.sets.subarray(at * words, (at + 1) * words);
      this.slots[this.slotOf(set, this.hashes[at]!)] = at;
    }
  }

  /** Gives back the room that what was kept does not need; nothing can be added after that. */
  close(): void {
    this.sets = this.sets.slice(0, this.count * this.words);
    this.hashes = this.hashes.slice(0, this.count);
    this.idle = this.idle.slice(0, this.count);
    this.parents = this.parents.slice(0, this.count);
    this.slots = new Int32Array(0);
  }

  /** The slot of the set, or the free slot for it. */
  private slotOf(set: Int32Array, hash: number): number {
    const mask = this.slots.length - 1;
    let slot = hash & mask;
    while (this.slots[slot] !== NONE && !this.holds(this.slots[slot]!, set)) slot = (slot + 1) & mask;
    return slot;
  }

  private holds(at: number, set: Int32Array): boolean {
    for (let word = 0; word < this.words; word++)
      if (this.sets[at * this.words + word] !== set[word]) return false;
    return true;
  }
}

function spread<Numbers extends Int32Array | Float64Array>(
  into: Numbers,
  order: readonly number[],
  from: Numbers,
): Numbers {
  for (const [to, at] of order.entries()) into[to] = from[at]!;
  return into;
}

const SPARE = 4;
const NONE = -1;
