/**
 * Open partial plans, a heap for each number of stations used; the smallest key first, of equals the older state.
 */
export class LevelHeaps {
  private readonly heaps: Heap[];

  constructor(levels: number) {
    this.heaps = Array.from({ length: levels }, () => new Heap());
  }

  push(level: number, state: number, key: number): void {
    this.heaps[level]!.push(state, key);
  }

  /** The best state of a level, or -1 when it has none. */
  pop(level: number): number {
    return this.heaps[level]!.pop();
  }
}

class Heap {
  private count = 0;
  private states = new Int32Array(64);
  private keys = new Float64Array(64);

  push(state: number, key: number): void {
    if (this.count === this.states.length) this.grow();
    let at = this.count++;
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!this.comesFirst(key, state, above)) break;
      this.move(above, at);
      at = above;
    }
    this.states[at] = state;
    this.keys[at] = key;
  }

  pop(): number {
    if (this.count === 0) return -1;
    const first = this.states[0]!;
    this.count--;
    const state = this.states[this.count]!;
    const key = this.keys[this.count]!;
    let at = 0;
    for (let below = 1; below < this.count; below = at * 2 + 1) {
      const other = below + 1;
      if (other < this.count && this.comesFirst(this.keys[other]!, this.states[other]!, below)) below = other;
      if (!this.comesAfter(key, state, below)) break;
      this.move(below, at);
      at = below;
    }
    this.states[at] = state;
    this.keys[at] = key;
    return first;
  }

  private comesFirst(key: number, state: number, at: number): boolean {
    return key < this.keys[at]! || (key === this.keys[at]! && state < this.states[at]!);
  }

  private comesAfter(key: number, state: number, at: number): boolean {
    return key > this.keys[at]! || (key === this.keys[at]! && state > this.states[at]!);
  }

  private move(from: number, to: number): void {
    this.states[to] = this.states[from]!;
    this.keys[to] = this.keys[from]!;
  }

  private grow(): void {
    const states = new Int32Array(this.states.length * 2);
    const keys = new Float64Array(this.keys.length * 2);
    states.set(this.states);
    keys.set(this.keys);
    this.states = states;
    this.keys = keys;
  }
}
