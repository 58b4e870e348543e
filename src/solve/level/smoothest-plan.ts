import { directFollowers } from "../../line/precedence.js";
import { commonDivisor } from "../search/exact-sums.js";
import { evenestGaps } from "./squared-gaps.js";

/** More tasks than this do not fit the numbers of the sets. */
export const MOST_TASKS = 52;

/**
 * Looks for the plan of exactly `count` stations, none empty and none longer than `slowest`, with the least sum of squared
 * gaps to `slowest`: station after station, every load that leaves a smoother plan possible. A set of tasks reached with as
 * many stations and no more squared gaps before is not looked at again.
 *
 * Every plan must have a station as long as `slowest`, which is so where `slowest` is the least for that many stations.
 */
export class SmoothestPlan {
  nodes = 0;
  /** The best plan that is better than `known`, if any. */
  best: number[][] | null = null;
  /** All plans were looked at or ruled out. */
  exhausted = true;
  private readonly after: readonly (readonly number[])[];
  private readonly waitsFor: number[];
  private readonly step: bigint;
  private readonly seen: Map<number, bigint>[];
  private readonly stations: number[][] = [];
  private left: number;

  constructor(
    private readonly times: readonly number[],
    before: readonly (readonly number[])[],
    private readonly count: number,
    private readonly slowest: number,
    /** The sum of squared gaps to beat. */
    private known: bigint,
    private readonly mostNodes: number,
  ) {
    this.after = directFollowers(before);
    this.waitsFor = before.map((earlier) => earlier.length);
    this.step = BigInt(commonDivisor(times));
    this.seen = Array.from({ length: count + 1 }, () => new Map());
    this.left = times.reduce((sum, each) => sum + each, 0);
  }

  run(): void {
    const ready = [...this.times.keys()].filter((task) => this.waitsFor[task] === 0);
    this.openStation(ready, this.times.length, 0, 0n, false);
  }

  /** Fills the next station; `set` holds 2^task of every task placed, `gaps` are the squared ones so far. */
  private openStation(
    ready: readonly number[],
    tasksLeft: number,
    set: number,
    gaps: bigint,
    full: boolean,
  ): void {
    const stationsLeft = this.count - this.stations.length;
    if (stationsLeft === 0) {
      if (tasksLeft > 0) return;
      this.known = gaps;
      this.best = this.stations.map((tasks) => [...tasks]);
      return;
    }
    const idle = BigInt(this.slowest) * BigInt(stationsLeft) - BigInt(this.left);
    if (idle < 0n || tasksLeft < stationsLeft) return;
    if (gaps + evenestGaps(idle, full ? stationsLeft : stationsLeft - 1, this.step) >= this.known) return;
    const seen = this.seen[stationsLeft]!;
    const before = seen.get(set);
    if (before !== undefined && before <= gaps) return;
    seen.set(set, gaps);
    this.stations.push([]);
    this.fill({ queue: [...ready], tasksLeft, set, gaps, full, stationsLeft }, 0, 0);
    this.stations.pop();
  }

  /** Goes on filling the last station from place `at` of the queue. */
  private fill(from: Filling, at: number, load: number): void {
    const tasks = this.stations.at(-1)!;
    const isEnough = from.stationsLeft > 1 || from.tasksLeft === 0;
    if (tasks.length > 0 && isEnough) {
      const gap = this.slowest - load;
      const ready = from.queue.filter((task) => !tasks.includes(task));
      this.openStation(
        ready,
        from.tasksLeft,
        from.set,
        from.gaps + BigInt(gap) ** 2n,
        from.full || gap === 0,
      );
    }
    for (let next = at; next < from.queue.length; next++) {
      const task = from.queue[next]!;
      const own = this.times[task]!;
      if (load + own > this.slowest) continue;
      if (this.nodes >= this.mostNodes) {
        this.exhausted = false;
        return;
      }
      this.nodes++;
      tasks.push(task);
      this.left -= own;
      const opened = this.after[task]!.filter((later) => --this.waitsFor[later]! === 0);
      const queue = [...from.queue, ...opened];
      this.fill(
        { ...from, queue, tasksLeft: from.tasksLeft - 1, set: from.set + 2 ** task },
        next + 1,
        load + own,
      );
      for (const later of this.after[task]!) this.waitsFor[later]!++;
      this.left += own;
      tasks.pop();
    }
  }
}

interface Filling {
  /** Tasks that can start at the station, those taken or passed over included. */
  readonly queue: readonly number[];
  readonly tasksLeft: number;
  readonly set: number;
  readonly gaps: bigint;
  /** Some station is as long as the slowest. */
  readonly full: boolean;
  readonly stationsLeft: number;
}
