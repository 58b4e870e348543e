/** Sets of tasks as rows of 32-bit words: set `row` of `sets` occupies `words` words from `row * words`. */

/** How many 32-bit words hold a set of `size` tasks; at least one. */
export function wordsFor(size: number): number {
  return Math.max(1, (size + 31) >>> 5);
}

export function hasTask(sets: Int32Array, offset: number, task: number): boolean {
  return ((sets[offset + (task >>> 5)]! >>> (task & 31)) & 1) === 1;
}

export function addTask(sets: Int32Array, offset: number, task: number): void {
  sets[offset + (task >>> 5)]! |= 1 << (task & 31);
}

/** Whether every task of the first set is in the second. */
export function isWithin(
  inner: Int32Array,
  innerOffset: number,
  outer: Int32Array,
  outerOffset: number,
  words: number,
): boolean {
  for (let word = 0; word < words; word++) {
    if ((inner[innerOffset + word]! & ~outer[outerOffset + word]!) !== 0) return false;
  }
  return true;
}

/** The number of the lowest bit that is set in a word other than 0. */
export function lowestBit(word: number): number {
  return 31 - Math.clz32(word & -word);
}

/** The tasks of one set, ascending. */
export function tasksOf(set: Int32Array): number[] {
  const tasks: number[] = [];
  for (let word = 0; word < set.length; word++)
    for (let rest = set[word]!; rest !== 0; rest &= rest - 1) tasks.push(word * 32 + lowestBit(rest));
  return tasks;
}

/** How many tasks are in a set and in another one as well (counting bits: H. S. Warren, Hacker's Delight). */
export function countCommon(sets: Int32Array, offset: number, other: Int32Array): number {
  let count = 0;
  for (let word = 0; word < other.length; word++) {
    let bits = sets[offset + word]! & other[word]!;
    bits -= (bits >>> 1) & 0x55555555;
    bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
    count += Math.imul((bits + (bits >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return count;
}
