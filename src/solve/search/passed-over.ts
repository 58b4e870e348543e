import type { Instance } from "./instance.js";
import type { Swaps } from "./swaps.js";

/**
 * The tasks that a walk through the loads of a station has passed over on its way to the current load, for Jackson's
 * dominance (see Swaps) while the load is still being filled: a load that a swap would make larger by `gain` is
 * dominated unless it ends with less room than that.
 */
export class PassedOver {
  count = 0;
  private readonly tasks: Int32Array;
  private readonly isPassed: Uint8Array;

  constructor(
    private readonly instance: Instance,
    private readonly swaps: Swaps,
  ) {
    this.tasks = new Int32Array(instance.size);
    this.isPassed = new Uint8Array(instance.size);
  }

  /** Forgets all but the first `count` tasks. */
  backTo(count: number): void {
    while (this.count > count) this.isPassed[this.tasks[--this.count]!] = 0;
  }

  /** Passes over a task; gives the least gain of a swap with one of the first `count` tasks of the load. */
  add(task: number, load: Int32Array, count: number): number {
    this.tasks[this.count++] = task;
    this.isPassed[task] = 1;
    return this.swaps.leastGain(task, load, count);
  }

  /** The least gain when a task passed over replaces this one; infinite where none may or all gain more than `most`. */
  leastGain(task: number, most: number): number {
    if (this.count === 0) return Number.POSITIVE_INFINITY;
    const { times } = this.instance;
    for (const other of this.swaps.replacements[task]!) {
      const gain = times[other]! - times[task]!;
      if (gain > most) break;
      if (this.isPassed[other] === 1) return gain;
    }
    return Number.POSITIVE_INFINITY;
  }
}
