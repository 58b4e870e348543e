import { addTask, hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * Tasks without followers, for a dominance between partial plans: of two that have placed the same other tasks, one is
 * as good as the other when the leaves it has left can be paired with leaves that the other has left, none of those
 * shorter. Whatever plan goes on from the other, each leaf takes the place of the one it is paired with (the exchange
 * of Jackson 1956, between partial plans instead of within a station). Leaves that cannot start yet are left in both
 * and stay where they are.
 *
 * Supports every work: only leaves of one class, which may change places as far as all constraints go, are paired, and a leaf of no
 * class counts as a task with followers does.
 */
export class Leaves {
  /** The set of all tasks with followers. */
  readonly others: Int32Array;
  /** For each task, the first of the groups below that is no longer than it. */
  readonly noLonger: Int32Array;
  /** Leaves of equal time in one word of a set, the longest first: the word, its bits. */
  private readonly word: Int32Array;
  private readonly bits: Int32Array;
  /** 1 where the next group is shorter or of another class, or there is none. */
  private readonly lastOfEqual: Uint8Array;
  /** 1 where the next group is of another class: a place that one leaves free is none for a leaf of the other. */
  private readonly lastOfClass: Uint8Array;

  constructor({ size, words, times, followerCounts, rules }: Instance) {
    this.others = new Int32Array(words);
    const classes = rules?.classes ?? [];
    const names = [...new Set(classes)];
    const classOf = (task: number) => (rules === null ? 0 : names.indexOf(classes[task]!));
    const leaves: number[] = [];
    for (let task = 0; task < size; task++) {
      if (followerCounts[task]! > 0 || classes[task] === null) addTask(this.others, 0, task);
      else leaves.push(task);
    }
    leaves.sort((one, two) => classOf(one) - classOf(two) || times[two]! - times[one]! || one - two);
    const groups: { readonly kind: number; readonly time: number; readonly word: number; bits: number }[] =
      [];
    for (const leaf of leaves) {
      const [kind, time, word] = [classOf(leaf), times[leaf]!, leaf >>> 5];
      const last = groups.at(-1);
      if (last?.kind !== kind || last.time !== time || last.word !== word)
        groups.push({ kind, time, word, bits: 0 });
      groups.at(-1)!.bits |= 1 << (leaf & 31);
    }
    this.noLonger = Int32Array.from(times, (own, task) => {
      const at = groups.findIndex(({ kind, time }) => kind === classOf(task) && time <= own);
      return at < 0 || classes[task] === null ? groups.length : at;
    });
    this.word = Int32Array.from(groups, ({ word }) => word);
    this.bits = Int32Array.from(groups, ({ bits }) => bits);
    this.lastOfClass = Uint8Array.from(groups, ({ kind }, at) => (groups[at + 1]?.kind === kind ? 0 : 1));
    this.lastOfEqual = Uint8Array.from(groups, ({ kind, time }, at) =>
      groups[at + 1]?.time === time && groups[at + 1]?.kind === kind ? 0 : 1,
    );
  }

  isLeaf(task: number): boolean {
    return !hasTask(this.others, 0, task);
  }

  /**
   * Whether the leaves outside the first set can be paired with leaves outside the second, none of those shorter. At the
   * place `spare` of the groups one more place for a leaf is free.
   */
  canPair(
    one: Int32Array,
    oneOffset: number,
    two: Int32Array,
    twoOffset: number,
    spare: number = NOWHERE,
  ): boolean {
    const { word, bits, lastOfEqual, lastOfClass } = this;
    let free = 0;
    for (let at = 0; at < word.length; at++) {
      const own = one[oneOffset + word[at]!]!;
      if (at === spare) free++;
      let differ = (own ^ two[twoOffset + word[at]!]!) & bits[at]!;
      for (; differ !== 0; differ &= differ - 1) free += (own & differ & -differ) === 0 ? -1 : 1;
      if (free < 0 && lastOfEqual[at] === 1) return false;
      if (lastOfClass[at] === 1) free = 0;
    }
    return true;
  }
}

const NOWHERE = -1;
