import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";

/** What a stretch of the walk came to. */
export type Walk = "load" | "end" | "pause";

/**
 * Walks through the full loads of one station: sets of tasks that fit, respect the arrows, and leave no room for any
 * further task that could start (Jackson 1956: some best plan has only full loads). Each set comes up once.
 *
 * Tasks that can start stand in a queue; the walk takes or passes over each in turn, and a task taken appends the
 * tasks that it makes ready. Branches that must end too empty, or without a task that is due, are left at once.
 */
export class FullLoads {
  /** The load found last, `count` tasks of it, in an order in which they can be worked. */
  readonly load: Int32Array;
  count = 0;
  /** What the load leaves of the limit. */
  room = 0;
  /** Tasks that can start once the load is done or sooner, those of the load included. */
  readonly ready: Int32Array;
  readyCount = 0;
  /** 1 for the tasks of the load. */
  readonly inLoad: Uint8Array;
  /** Steps of the walk since `start`. */
  steps = 0;

  private readonly waitsFor: Int32Array;
  private next = 0;
  /** The positional weights of the queue from `next` on: no more work than that can still be added. */
  private ahead = 0;
  private ended = true;
  private goBack = false;
  private station = 0;
  private mostRoom = 0;
  // By number of tasks taken, to return to.
  private readonly places: Int32Array;
  private readonly lengths: Int32Array;
  private readonly aheads: Float64Array;
  private readonly shortestPassed: Float64Array;

  /** `latest[task]` is the last station, counted from 1, that may hold the task. */
  constructor(
    private readonly instance: Instance,
    private readonly latest: Int32Array,
  ) {
    const { size } = instance;
    this.load = new Int32Array(size);
    this.ready = new Int32Array(size);
    this.inLoad = new Uint8Array(size);
    this.waitsFor = new Int32Array(size);
    this.places = new Int32Array(size + 1);
    this.lengths = new Int32Array(size + 1);
    this.aheads = new Float64Array(size + 1);
    this.shortestPassed = new Float64Array(size + 1);
  }

  /** Begins the walk for station number `station`, after the tasks of a set; loads that leave more than `mostRoom` are left out. */
  start(sets: Int32Array, offset: number, station: number, mostRoom: number): void {
    for (let at = 0; at < this.count; at++) this.inLoad[this.load[at]!] = 0;
    this.count = 0;
    this.readyCount = 0;
    this.room = this.instance.limit;
    this.next = 0;
    this.ahead = 0;
    this.shortestPassed[0] = Number.POSITIVE_INFINITY;
    this.station = station;
    this.mostRoom = mostRoom;
    this.goBack = false;
    this.steps = 0;
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
    this.ended = this.readyCount === 0;
  }

  /** The next load; "pause" once `steps` reaches `mostSteps`, "end" when no load is left. */
  advance(mostSteps: number): Walk {
    for (; !this.ended; this.steps++) {
      if (this.steps >= mostSteps) return "pause";
      if (this.goBack) {
        this.goBack = false;
        this.putBack();
      } else if (!this.takeNext()) {
        this.goBack = true;
        if (this.isFull()) return "load";
      }
    }
    return "end";
  }

  /** Takes the first task of the queue that fits; false at the end of the queue or of hope. */
  private takeNext(): boolean {
    const { times, weights } = this.instance;
    const shortest = this.shortestPassed[this.count]!;
    while (this.next < this.readyCount) {
      const least = this.room - this.ahead;
      if (least > this.mostRoom || least >= shortest) return false;
      const task = this.ready[this.next]!;
      if (times[task]! <= this.room) {
        this.take(task);
        return true;
      }
      if (this.latest[task]! <= this.station) {
        this.shortestPassed[this.count] = 0;
        return false;
      }
      this.ahead -= weights[task]!;
      this.next++;
    }
    return false;
  }

  private take(task: number): void {
    const depth = this.count++;
    this.load[depth] = task;
    this.inLoad[task] = 1;
    this.room -= this.instance.times[task]!;
    this.ahead -= this.instance.weights[task]!;
    this.places[depth] = this.next++;
    this.lengths[depth] = this.readyCount;
    this.aheads[depth] = this.ahead;
    this.shortestPassed[depth + 1] = this.shortestPassed[depth]!;
    for (const later of this.instance.after[task]!) if (--this.waitsFor[later]! === 0) this.append(later);
  }

  private append(task: number): void {
    this.ready[this.readyCount++] = task;
    this.ahead += this.instance.weights[task]!;
  }

  /** Passes over the task taken last; one that is due or takes no time is never passed over. */
  private putBack(): void {
    const { times, after } = this.instance;
    while (this.count > 0) {
      const depth = --this.count;
      const task = this.load[depth]!;
      this.inLoad[task] = 0;
      this.room += times[task]!;
      for (const later of after[task]!) this.waitsFor[later]!++;
      this.readyCount = this.lengths[depth]!;
      this.ahead = this.aheads[depth]!;
      this.next = this.places[depth]! + 1;
      if (times[task]! === 0 || this.latest[task]! <= this.station) continue;
      this.shortestPassed[depth] = Math.min(this.shortestPassed[depth]!, times[task]!);
      return;
    }
    this.ended = true;
  }

  private isFull(): boolean {
    return this.room <= this.mostRoom && this.room < this.shortestPassed[this.count]!;
  }
}

const NEVER = 0x7fffffff;
