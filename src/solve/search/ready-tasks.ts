import { addTask, hasTask, lowestBit } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/**
 * The tasks that can start at a station, to be taken or passed over in order of their numbers. A task taken makes others
 * ready, which all have larger numbers, as arrows do; so they are still ahead, and whatever is ahead at some time is among
 * the tasks from `next` on.
 */
export class ReadyTasks {
  /** Every task that can start, `count` of them, whether taken, passed over or ahead. */
  readonly list: Int32Array;
  count = 0;
  /** The first task ahead, once `seek` has looked for it. */
  next = 0;
  /** The positional weights of the tasks ahead: no more work than that can still be added. */
  weightAhead = 0;
  /** Tasks with followers ahead. */
  leadersAhead = 0;
  private readonly waitsFor: Int32Array;
  private readonly set: Int32Array;
  // By number of tasks taken, to return to.
  private readonly counts: Int32Array;
  private readonly weightsAhead: Float64Array;
  private readonly leadersAheads: Int32Array;

  constructor(private readonly instance: Instance) {
    const { size, words } = instance;
    this.list = new Int32Array(size);
    this.waitsFor = new Int32Array(size);
    this.set = new Int32Array(words);
    this.counts = new Int32Array(size);
    this.weightsAhead = new Float64Array(size);
    this.leadersAheads = new Int32Array(size);
  }

  /** Begins anew after the tasks of a set. */
  start(sets: Int32Array, offset: number): void {
    this.count = 0;
    this.next = 0;
    this.weightAhead = 0;
    this.leadersAhead = 0;
    this.set.fill(0);
    for (let task = 0; task < this.instance.size; task++) {
      if (hasTask(sets, offset, task)) {
        // Never ready again, even where the set was filled from the other end and does not begin the line.
        this.waitsFor[task] = NEVER;
        continue;
      }
      let waitsFor = 0;
      for (const earlier of this.instance.before[task]!) if (!hasTask(sets, offset, earlier)) waitsFor++;
      this.waitsFor[task] = waitsFor;
      if (waitsFor === 0) this.append(task);
    }
  }

  /** Moves `next` to the first task ahead; false where there is none. */
  seek(): boolean {
    const { set } = this;
    let word = this.next >>> 5;
    if (word >= set.length) return false;
    let bits = set[word]! & (ALL << (this.next & 31));
    while (bits === 0) {
      if (++word === set.length) return false;
      bits = set[word]!;
    }
    this.next = word * BITS + lowestBit(bits);
    return true;
  }

  /** Takes `next` as the task number `depth`, counted from 0, of the load. */
  take(depth: number): void {
    const task = this.next;
    this.passOver();
    this.counts[depth] = this.count;
    this.weightsAhead[depth] = this.weightAhead;
    this.leadersAheads[depth] = this.leadersAhead;
    for (const later of this.instance.after[task]!) if (--this.waitsFor[later]! === 0) this.append(later);
  }

  /** Passes over `next`. */
  passOver(): void {
    const task = this.next++;
    this.weightAhead -= this.instance.weights[task]!;
    if (this.instance.followerCounts[task]! > 0) this.leadersAhead--;
  }

  /** Passes over a task instead, which was taken as number `depth` and last. */
  putBack(task: number, depth: number): void {
    for (const later of this.instance.after[task]!) this.waitsFor[later]!++;
    for (const most = this.counts[depth]!; this.count > most; ) {
      const later = this.list[--this.count]!;
      this.set[later >>> 5]! &= ~(1 << (later & 31));
    }
    this.weightAhead = this.weightsAhead[depth]!;
    this.leadersAhead = this.leadersAheads[depth]!;
    this.next = task + 1;
  }

  private append(task: number): void {
    this.list[this.count++] = task;
    addTask(this.set, 0, task);
    this.weightAhead += this.instance.weights[task]!;
    if (this.instance.followerCounts[task]! > 0) this.leadersAhead++;
  }
}

const NEVER = 0x7fffffff;
const BITS = 32;
/** Every bit of a word. */
const ALL = -1;
