import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";
import type { StateStore } from "./state-store.js";

/**
 * Dominance between partial plans that differ in a task with followers: a state is not worth extending when another has
 * placed the same tasks with followers and one more that can start, in no more stations, and the leaves it has left fit
 * the places of those that the first has left and the place of that task (the maximum load of Jackson 1956, beyond one
 * station).
 *
 * Supports tasks that a station may lose: whoever goes on from the first leaves the task out of its later station.
 */
export class OneMore {
  /** The tasks with followers. */
  private readonly leaders: Int32Array;

  constructor(
    private readonly instance: Instance,
    private readonly store: StateStore,
  ) {
    this.leaders = Int32Array.from(instance.times.keys()).filter(
      (task) =>
        (instance.followerCounts[task]! > 0 || instance.rules?.classes[task] === null) &&
        instance.rules?.mayLeave[task] !== 0,
    );
  }

  dominates(state: number): boolean {
    for (const task of this.leaders) {
      if (this.canStart(task, state) && this.store.dominatesWith(task, state)) return true;
    }
    return false;
  }

  private canStart(task: number, state: number): boolean {
    const { sets } = this.store;
    const offset = state * this.instance.words;
    if (hasTask(sets, offset, task)) return false;
    for (const earlier of this.instance.before[task]!) if (!hasTask(sets, offset, earlier)) return false;
    return true;
  }
}
