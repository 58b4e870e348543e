import type { Weighting } from "../bounds/weightings.js";
import { hasTask } from "./bit-sets.js";
import type { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";

/**
 * What a partial plan still has to place if the whole plan is to do with `target` stations, and whether a load for
 * its next station keeps that possible. Two kinds of bounds, both checked by sums over the load alone:
 * - for each weighting, the rest must not weigh more than the remaining stations can hold;
 * - for each station ahead, the tasks that may stand no later than there must fit the stations up to it (Scholl &
 *   Klein 1997: latest stations).
 */
export class Remainder {
  /** Least weight of the load, by weighting. */
  private readonly leastWeights: Float64Array;
  /** Stations whose due tasks bind the load, and the least work of those tasks in it. */
  private readonly bindingStations: Int32Array;
  private readonly leastDueWork: Float64Array;
  private bindingCount = 0;
  private readonly dueWork: Float64Array;
  /** Idle time of the stations so far, and tasks still to place. */
  idle = 0;
  tasksLeft = 0;
  /** Those of them that have followers. */
  leadingTasksLeft = 0;

  constructor(
    private readonly instance: Instance,
    private readonly weightings: readonly Weighting[],
    private readonly latest: Int32Array,
    private readonly target: number,
  ) {
    this.leastWeights = new Float64Array(weightings.length);
    this.bindingStations = new Int32Array(target);
    this.leastDueWork = new Float64Array(target);
    this.dueWork = new Float64Array(target + 1);
  }

  /**
   * Looks at the partial plan with this set on `stations` stations. Gives the most room that its next load may
   * leave, negative when the target is out of reach.
   */
  open(sets: Int32Array, offset: number, stations: number): number {
    const { size, times, limit, workContent, followerCounts } = this.instance;
    this.leastWeights.fill(0);
    this.dueWork.fill(0);
    this.tasksLeft = 0;
    this.leadingTasksLeft = 0;
    for (let task = 0; task < size; task++) {
      if (hasTask(sets, offset, task)) continue;
      this.tasksLeft++;
      if (followerCounts[task]! > 0) this.leadingTasksLeft++;
      this.dueWork[Math.max(this.latest[task]!, 0)]! += times[task]!;
      for (let at = 0; at < this.weightings.length; at++)
        this.leastWeights[at]! += this.weightings[at]!.weights[task]!;
    }
    this.idle = stations * limit - (workContent - this.leastWeights[0]!);
    const later = this.target - stations - 1;
    for (let at = 0; at < this.weightings.length; at++) {
      const { capacity } = this.weightings[at]!;
      this.leastWeights[at]! -= later * capacity;
      if (this.leastWeights[at]! > capacity) return -1;
    }
    return this.openDueWork(stations) ? Math.min(limit, limit - this.leastWeights[0]!) : -1;
  }

  private openDueWork(stations: number): boolean {
    const { limit } = this.instance;
    this.bindingCount = 0;
    let due = 0;
    for (let station = 0; station <= this.target; station++) {
      due += this.dueWork[station]!;
      if (station <= stations) {
        if (due > 0) return false;
        continue;
      }
      const least = due - (station - stations - 1) * limit;
      if (least > limit) return false;
      if (least <= 0) continue;
      this.bindingStations[this.bindingCount] = station;
      this.leastDueWork[this.bindingCount++] = least;
    }
    return true;
  }

  /** Whether the target stays within reach after the current load of the walk. */
  allows({ load, count }: FullLoads): boolean {
    const { times } = this.instance;
    for (let at = 1; at < this.weightings.length; at++) {
      const { weights } = this.weightings[at]!;
      let missing = this.leastWeights[at]!;
      for (let place = 0; place < count && missing > 0; place++) missing -= weights[load[place]!]!;
      if (missing > 0) return false;
    }
    for (let at = 0; at < this.bindingCount; at++) {
      const station = this.bindingStations[at]!;
      let missing = this.leastDueWork[at]!;
      for (let place = 0; place < count && missing > 0; place++) {
        if (this.latest[load[place]!]! <= station) missing -= times[load[place]!]!;
      }
      if (missing > 0) return false;
    }
    return true;
  }
}
