import type { Weighting } from "../bounds/weightings.js";
import { hasTask } from "./bit-sets.js";
import type { FullLoads } from "./full-loads.js";
import type { Headroom } from "./headroom.js";
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
  /** The most stations that may follow the partial plan looked at. */
  stationsLeft = 0;
  /** By how many stations the latest stations come sooner than they are, since there are so many fewer to follow. */
  shift = 0;
  /** What fits the first so many positions; null where positions do not matter. */
  private readonly roomUpTo: Float64Array | null;
  private readonly lastStation: number;

  /**
   * `latest[task]` is the last station, counted from 1, that may hold the task; the first of the weightings is the work
   * content, more may follow later.
   */
  constructor(
    private readonly instance: Instance,
    private readonly weightings: readonly Weighting[],
    private readonly latest: Int32Array,
    private readonly target: number,
    /** Null on a plain line. */
    private readonly headroom: Headroom | null = null,
  ) {
    this.left = new Int32Array(instance.size);
    this.roomUpTo = instance.rules?.roomUpTo ?? null;
    this.dueWork = new Float64Array((this.roomUpTo?.length ?? target + 1) + 1);
    this.lastStation = this.dueWork.length - 2;
  }

  /**
   * Looks at the partial plan with this set on `stations` stations. Gives the most room that its next load may
   * leave, negative when the target is out of reach.
   *
   * @param people used so far; on a plain line as many as stations
   * @param position of its last station, counted from 1
   */
  open(
    sets: Int32Array,
    offset: number,
    stations: number,
    people: number = stations,
    position: number = stations,
  ): number {
    const { limit, workContent, rules } = this.instance;
    this.listLeft(sets, offset);
    this.idle = stations * limit - (workContent - this.workLeft);
    this.cuts.length = 0;
    this.stationsLeft = this.target - stations;
    if (this.headroom !== null) {
      const used = { people, stations, position };
      this.stationsLeft = Math.min(
        this.stationsLeft,
        this.headroom.stationsLeft(sets, offset, this.left, this.tasksLeft, used),
      );
      if (this.tasksLeft > 0 && this.stationsLeft < 1) return -1;
    }
    this.shift = this.roomUpTo === null ? this.target - stations - this.stationsLeft : 0;
    if (!this.cutByWeight() || !this.cutByStation(this.roomUpTo === null ? stations + this.shift : position))
      return -1;
    if (rules !== null && !rules.onePlace) return limit;
    return Math.min(limit, this.spare);
  }

  /** What the stations left may leave idle in all. */
  get spare(): number {
    return this.stationsLeft * this.instance.limit - this.workLeft;
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

  private cutByWeight(): boolean {
    const later = this.stationsLeft - 1;
    for (let at = 1; at < this.weightings.length; at++) {
      const { weights, capacity } = this.weightings[at]!;
      const least = this.weigh(weights) - later * capacity;
      if (least > capacity) return false;
      if (least > 0) this.cuts.push({ weights, station: ANY_STATION, least });
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
    for (let station = 0; station <= this.lastStation; station++) {
      due += this.dueWork[station]!;
      const least = due - this.roomBetween(stations + 1, station);
      if (station <= stations ? due > 0 : least > limit) return false;
      // A load with so much of the tasks due sooner meets a smaller demand by itself.
      if (station <= stations || least <= most) continue;
      most = least;
      this.cuts.push({ weights: times, station, least });
    }
    return true;
  }

  /** What fits the stations after one up to another, both counted from 1. */
  private roomBetween(after: number, upTo: number): number {
    const { roomUpTo } = this;
    if (roomUpTo === null) return (upTo - after) * this.instance.limit;
    return upTo <= after ? 0 : roomUpTo[upTo]! - roomUpTo[after]!;
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

const ANY_STATION = Number.MAX_SAFE_INTEGER;

/** The load's tasks that may stand no later than a station weigh at least so much. */
interface Cut {
  readonly weights: Float64Array;
  readonly station: number;
  readonly least: number;
}
