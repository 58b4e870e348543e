import { type Before, directFollowers, topologicalOrder } from "./precedence.js";

/** For every task a set of tasks, as rows of bits; n tasks take n x n / 8 bytes. */
export class TaskSets {
  readonly size: number;
  readonly #words: number;
  readonly #bits: Uint32Array;

  constructor(size: number) {
    this.size = size;
    this.#words = Math.ceil(size / 32);
    this.#bits = new Uint32Array(size * this.#words);
  }

  has(task: number, other: number): boolean {
    return (this.#bits[task * this.#words + (other >>> 5)]! & (1 << (other & 31))) !== 0;
  }

  /** The set of a task, ascending. */
  list(task: number): number[] {
    const found: number[] = [];
    for (let word = 0; word < this.#words; word++) {
      for (let bits = this.#bits[task * this.#words + word]!; bits !== 0; bits &= bits - 1) {
        found.push(word * 32 + 31 - Math.clz32(bits & -bits));
      }
    }
    return found;
  }

  add(task: number, other: number): void {
    this.#bits[task * this.#words + (other >>> 5)]! |= 1 << (other & 31);
  }

  /** The set of a task as words of 32 bits, the lowest bit first: itself, not a copy. */
  row(task: number): Uint32Array {
    return this.#bits.subarray(task * this.#words, (task + 1) * this.#words);
  }

  /** Puts everything in the set of `other` into the set of `task`. */
  addAll(task: number, other: number): void {
    const [to, from] = [task * this.#words, other * this.#words];
    for (let word = 0; word < this.#words; word++) this.#bits[to + word]! |= this.#bits[from + word]!;
  }
}

/** For each task all direct and indirect predecessors. The order must be free of loops. */
export function allPredecessors(before: Before): TaskSets {
  return close(before, topologicalOrder(before));
}

/** For each task all direct and indirect followers, each once. The order must be free of loops. */
export function allFollowers(before: Before): TaskSets {
  return close(directFollowers(before), topologicalOrder(before).reverse());
}

function close(neighbours: Before, order: readonly number[]): TaskSets {
  const sets = new TaskSets(neighbours.length);
  for (const task of order) {
    for (const each of neighbours[task]!) {
      sets.add(task, each);
      sets.addAll(task, each);
    }
  }
  return sets;
}
