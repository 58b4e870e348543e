import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";
import type { StateStore } from "./state-store.js";
import type { Swaps } from "./swaps.js";

/**
 * Jackson's dominance (see Swaps) between partial plans instead of within a station: a state is not worth extending when another
 * has placed the same tasks in no more stations, but for one with followers, in whose place stands a task that may replace
 * it. Whatever plan goes on from the first, the two tasks can be exchanged in it: the shorter one, of which nothing that follows is
 * placed, takes the place of the longer one, and what follows it follows that too. So the task replaced may stand at any station so
 * far, where within a station only the last one is looked at. Leaves are paired as everywhere (see Leaves).
 *
 * A state that dominates has more work placed, or as much and more followers of its tasks, or as much of both and smaller task
 * numbers, so that no two dominate each other. Supports work of which any that fits may share a station: an instance without rules.
 */
export class Exchanges {
  static suit({ rules }: Pick<Instance, "rules">): boolean {
    return rules === null;
  }

  /** For each task, those with followers that it may replace, the longest first. */
  private readonly replaces: readonly Int32Array[];
  /** The tasks that may replace any. */
  private readonly replacers: Int32Array;
  private readonly set: Int32Array;

  constructor(
    private readonly instance: Instance,
    private readonly store: StateStore,
    { replacements }: Swaps,
  ) {
    const { times, followerCounts, words } = instance;
    const replaces = Array.from(times, (): number[] => []);
    const longestFirst = [...times.keys()].sort((one, two) => times[two]! - times[one]! || one - two);
    for (const task of longestFirst)
      if (followerCounts[task]! > 0) for (const other of replacements[task]!) replaces[other]!.push(task);
    this.replaces = replaces.map((tasks) => Int32Array.from(tasks));
    this.replacers = Int32Array.from(times.keys()).filter((task) => replaces[task]!.length > 0);
    this.set = new Int32Array(words);
  }

  dominate(state: number): boolean {
    const { set } = this;
    const { sets } = this.store;
    const offset = state * set.length;
    for (let word = 0; word < set.length; word++) set[word] = sets[offset + word]!;
    const idle = this.store.stations[state]! * this.instance.limit - this.store.work[state]!;
    for (const task of this.replacers)
      if (this.canStart(task) && this.isBetterWith(task, state, idle)) return true;
    return false;
  }

  /** Whether some state has this task in the place of one that it may replace; the work that this adds has to find room. */
  private isBetterWith(task: number, state: number, idle: number): boolean {
    const { store, set } = this;
    const { times } = this.instance;
    for (const other of this.replaces[task]!) {
      if (times[task]! - times[other]! > idle) return false;
      if (!this.canLeave(other)) continue;
      this.toggle(task);
      this.toggle(other);
      const hash = store.hashes[state]! ^ store.taskHashes[task]! ^ store.taskHashes[other]!;
      const isBetter = store.dominatesAs(set, hash, state);
      this.toggle(task);
      this.toggle(other);
      if (isBetter) return true;
    }
    return false;
  }

  private toggle(task: number): void {
    this.set[task >>> 5]! ^= 1 << (task & 31);
  }

  private canStart(task: number): boolean {
    if (hasTask(this.set, 0, task)) return false;
    for (const earlier of this.instance.before[task]!) if (!hasTask(this.set, 0, earlier)) return false;
    return true;
  }

  private canLeave(task: number): boolean {
    if (!hasTask(this.set, 0, task)) return false;
    for (const later of this.instance.after[task]!) if (hasTask(this.set, 0, later)) return false;
    return true;
  }
}
