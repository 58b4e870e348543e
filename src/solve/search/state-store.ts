/**
 * The memory of the search: every set of tasks that a partial plan has assigned, with the fewest stations it took.
 * Sets are found by a hash of their tasks and always compared word by word. A state is its number; numbers ascend.
 */
export class StateStore {
  count = 0;
  sets: Int32Array;
  /** Stations used, and the state before the last of them (-1 for the empty plan). */
  stations: Int32Array;
  parents: Int32Array;
  hashes: Int32Array;
  private slots: Int32Array;

  constructor(
    private readonly words: number,
    private readonly most: number,
  ) {
    this.sets = new Int32Array(FIRST_SIZE * words);
    this.stations = new Int32Array(FIRST_SIZE);
    this.parents = new Int32Array(FIRST_SIZE);
    this.hashes = new Int32Array(FIRST_SIZE);
    this.slots = new Int32Array(FIRST_SIZE * 4).fill(EMPTY);
  }

  get full(): boolean {
    return this.count >= this.most;
  }

  /**
   * Remembers a set reached with so many stations after `parent`. Gives the state when it is new or reached with
   * fewer stations than before, otherwise -1.
   */
  remember(set: Int32Array, hash: number, stations: number, parent: number): number {
    let slot = hash & (this.slots.length - 1);
    for (; this.slots[slot] !== EMPTY; slot = (slot + 1) & (this.slots.length - 1)) {
      const state = this.slots[slot]!;
      if (this.hashes[state] !== hash || !this.holds(state, set)) continue;
      if (this.stations[state]! <= stations) return -1;
      this.stations[state] = stations;
      this.parents[state] = parent;
      return state;
    }
    return this.add(set, hash, stations, parent, slot);
  }

  private holds(state: number, set: Int32Array): boolean {
    const offset = state * this.words;
    for (let word = 0; word < this.words; word++) if (this.sets[offset + word] !== set[word]) return false;
    return true;
  }

  private add(set: Int32Array, hash: number, stations: number, parent: number, slot: number): number {
    const state = this.count++;
    if (state === this.stations.length) this.grow();
    this.sets.set(set, state * this.words);
    this.stations[state] = stations;
    this.parents[state] = parent;
    this.hashes[state] = hash;
    this.slots[slot] = state;
    if (this.count * 2 > this.slots.length) this.rehash();
    return state;
  }

  private grow(): void {
    const size = this.stations.length * 2;
    this.sets = enlarge(this.sets, size * this.words);
    this.stations = enlarge(this.stations, size);
    this.parents = enlarge(this.parents, size);
    this.hashes = enlarge(this.hashes, size);
  }

  private rehash(): void {
    const slots = new Int32Array(this.slots.length * 4).fill(EMPTY);
    for (let state = 0; state < this.count; state++) {
      let slot = this.hashes[state]! & (slots.length - 1);
      while (slots[slot] !== EMPTY) slot = (slot + 1) & (slots.length - 1);
      slots[slot] = state;
    }
    this.slots = slots;
  }
}

const FIRST_SIZE = 1024;
const EMPTY = -1;

function enlarge(from: Int32Array, size: number): Int32Array {
  const to = new Int32Array(size);
  to.set(from);
  return to;
}

/** One pseudo-random 32-bit number a task (Zobrist 1970); always the same, so that equal input gives equal output. */
export function taskHashes(size: number): Int32Array {
  let seed = 0x9e3779b9;
  return new Int32Array(size).map(() => {
    seed = (seed + 0x6d2b79f5) | 0;
    let mixed = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return mixed ^ (mixed >>> 14);
  });
}

/** The set as task numbers, ascending. */
export function listTasks(sets: Int32Array, offset: number, size: number): number[] {
  return Array.from({ length: size }, (_, task) => task).filter(
    (task) => ((sets[offset + (task >>> 5)]! >>> (task & 31)) & 1) === 1,
  );
}
