import { addTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * Tasks without followers, for a dominance between partial plans: of two that have placed the same other tasks, one is
 * as good as the other when the leaves it has left can be paired with leaves that the other has left, none of those
 * shorter. Whatever plan goes on from the other, each leaf takes the place of the one it is paired with (the exchange
 * of Jackson 1956, between partial plans instead of within a station). Leaves that cannot start yet are left in both
 * and stay where they are.
 */
export class Leaves {
  /** The set of all tasks with followers. */
  readonly others: Int32Array;
  /** For each task, where in the order of leaves the leaves no longer than it begin. */
  readonly noLonger: Int32Array;
  /** The leaves, longest first, as word and bit of a set. */
  private readonly word: Int32Array;
  private readonly bit: Int32Array;
  /** 1 where the next leaf is shorter, or there is none. */
  private readonly lastOfEqual: Uint8Array;

  constructor({ size, words, times, followerCounts }: Instance) {
    this.others = new Int32Array(words);
    const leaves: number[] = [];
    for (let task = 0; task < size; task++) {
      if (followerCounts[task]! > 0) addTask(this.others, 0, task);
      else leaves.push(task);
    }
    leaves.sort((one, two) => times[two]! - times[one]! || one - two);
    this.noLonger = Int32Array.from(times, (time) => leaves.filter((leaf) => times[leaf]! > time).length);
    this.word = Int32Array.from(leaves, (task) => task >>> 5);
    this.bit = Int32Array.from(leaves, (task) => task & 31);
    this.lastOfEqual = Uint8Array.from(leaves, (task, at) =>
      at + 1 === leaves.length || times[leaves[at + 1]!]! < times[task]! ? 1 : 0,
    );
  }

  /**
   * Whether the leaves outside the first set can be paired with leaves outside the second, none of those shorter. At the
   * place `spare` of the order of leaves one more place for a leaf is free.
   */
  canPair(
    one: Int32Array,
    oneOffset: number,
    two: Int32Array,
    twoOffset: number,
    spare = Number.POSITIVE_INFINITY,
  ): boolean {
    let free = 0;
    for (let at = 0; at < this.word.length; at++) {
      const word = this.word[at]!;
      const bit = this.bit[at]!;
      if (at === spare) free++;
      free += ((one[oneOffset + word]! >>> bit) & 1) - ((two[twoOffset + word]! >>> bit) & 1);
      if (free < 0 && this.lastOfEqual[at] === 1) return false;
    }
    return true;
  }
}
