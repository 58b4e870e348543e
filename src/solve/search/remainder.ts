import type { Weighting } from "../bounds/weightings.js";
import { hasTask } from "./bit-sets.js";
import type { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";

/**
 * What a partial plan has still to place if the whole plan is to do with `target` stations, and whether a load for its
 * next station keeps that possible. By each weighting, the tasks left must not weigh more than the stations left can
 * hold; and for each station ahead, the tasks that may stand no later than there must fit the stations up to it
 * (latest stations: Scholl & Klein 1997). Both become cuts: so much, at least, of such tasks is in the next load.
 */
export class Remainder {
  /** Idle time of the stations so far. */
  idle = 0;
  /** Tasks still to place, and those of them that have followers. */
  tasksLeft = 0;
  leadingTasksLeft = 0;
  /** The tasks still to place, `tasksLeft` of them. */
  readonly left: Int32Array;

  private workLeft = 0;
  /** Work left by latest station. */
  private readonly dueWork: Float64Array;
  private readonly cuts: Cut[] = [];

  /**
   * `latest[task]` is the last station, counted from 1, that may hold the task; the first of the weightings is the work
   * content, more may follow later.
   */
  constructor(
    private readonly instance: Instance,
    private readonly weightings: readonly Weighting[],
    private readonly latest: Int32Array,
    private readonly target: number,
  ) {
    this.left = new Int32Array(instance.size);
    this.dueWork = new Float64Array(target + 1);
  }

  /**
   * Looks at the partial plan with this set on `stations` stations. Gives the most room that its next load may
   * leave, negative when the target is out of reach.
   */
  open(sets: Int32Array, offset: number, stations: number): number {
    const { limit, workContent } = this.instance;
    this.listLeft(sets, offset);
    this.idle = stations * limit - (workContent - this.workLeft);
    this.cuts.length = 0;
    if (!this.cutByWeight(stations) || !this.cutByStation(stations)) return -1;
    return Math.min(limit, (this.target - stations) * limit - this.workLeft);
  }

  private listLeft(sets: Int32Array, offset: number): void {
    const { size, times, followerCounts } = this.instance;
    const { left, dueWork, latest } = this;
    dueWork.fill(0);
    this.tasksLeft = 0;
    this.leadingTasksLeft = 0;
    this.workLeft = 0;
    for (let task = 0; task < size; task++) {
      if (hasTask(sets, offset, task)) continue;
      left[this.tasksLeft++] = task;
      if (followerCounts[task]! > 0) this.leadingTasksLeft++;
      this.workLeft += times[task]!;
      dueWork[Math.max(latest[task]!, 0)]! += times[task]!;
    }
  }

  private cutByWeight(stations: number): boolean {
    const later = this.target - stations - 1;
    for (let at = 1; at < this.weightings.length; at++) {
      const { weights, capacity } = this.weightings[at]!;
      const least = this.weigh(weights) - later * capacity;
      if (least > capacity) return false;
      if (least > 0) this.cuts.push({ weights, station: this.target, least });
    }
    return true;
  }

  private weigh(weights: Float64Array): number {
    let sum = 0;
    for (let at = 0; at < this.tasksLeft; at++) sum += weights[this.left[at]!]!;
    return sum;
  }

  private cutByStation(stations: number): boolean {
    const { times, limit } = this.instance;
    let due = 0;
    let most = 0;
    for (let station = 0; station <= this.target; station++) {
      due += this.dueWork[station]!;
      const least = due - (station - stations - 1) * limit;
      if (station <= stations ? due > 0 : least > limit) return false;
      // A load with so much of the tasks due sooner meets a smaller demand by itself.
      if (station <= stations || least <= most) continue;
      most = least;
      this.cuts.push({ weights: times, station, least });
    }
    return true;
  }

  /** Whether the target stays within reach after the current load of the walk. */
  allows({ load, count }: FullLoads): boolean {
    for (const { weights, station, least } of this.cuts) {
      let missing = least;
      for (let place = 0; place < count && missing > 0; place++) {
        const task = load[place]!;
        if (this.latest[task]! <= station) missing -= weights[task]!;
      }
      if (missing > 0) return false;
    }
    return true;
  }
}

/** The load's tasks that may stand no later than a station weigh at least so much. */
interface Cut {
  readonly weights: Float64Array;
  readonly station: number;
  readonly least: number;
}
