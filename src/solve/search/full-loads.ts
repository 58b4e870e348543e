import { hasTask } from "./bit-sets.js";
import type { Instance } from "./instance.js";
import { PassedOver } from "./passed-over.js";
import type { Swaps } from "./swaps.js";

/** What a stretch of the walk came to. */
export type Walk = "load" | "end" | "pause";

/**
 * Walks through the full loads of one station: sets of tasks that fit, respect the arrows, and leave no room for any
 * further task that could start (Jackson 1956: some best plan has only full loads). Each set comes up once.
 *
 * Tasks that can start stand in a queue; the walk takes or passes over each in turn, and a task taken appends the
 * tasks that it makes ready. Branches that must end too empty, or without a task that is due, are left at once; with
 * `swaps` also those whose loads a swap with a task passed over improves.
 *
 * A walk that needs a leader finds only loads with some task that has followers: a load without one can be left for the
 * end of the line while tasks with followers are still to be placed. Whatever plan has this station next has it last
 * just as well, so another load may go first (Scholl & Klein 1997; Sewell & Jacobson 2012).
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
  private needsLeader = false;
  /** Tasks with followers in the load, and in the queue from `next` on. */
  private leaders = 0;
  private leadersAhead = 0;
  private readonly passed: PassedOver | null;
  // By number of tasks taken, to return to.
  private readonly places: Int32Array;
  private readonly lengths: Int32Array;
  private readonly aheads: Float64Array;
  private readonly leadersAheads: Int32Array;
  private readonly passedCounts: Int32Array;
  /** The room must end below this: otherwise a task passed over fits, or a swap improves the load. */
  private readonly roomBelow: Float64Array;

  /** `latest[task]` is the last station, counted from 1, that may hold the task. */
  constructor(
    private readonly instance: Instance,
    private readonly latest: Int32Array,
    swaps: Swaps | null = null,
  ) {
    const { size } = instance;
    this.load = new Int32Array(size);
    this.ready = new Int32Array(size);
    this.inLoad = new Uint8Array(size);
    this.waitsFor = new Int32Array(size);
    this.places = new Int32Array(size + 1);
    this.lengths = new Int32Array(size + 1);
    this.aheads = new Float64Array(size + 1);
    this.leadersAheads = new Int32Array(size + 1);
    this.passedCounts = new Int32Array(size + 1);
    this.roomBelow = new Float64Array(size + 1);
    this.passed = swaps === null ? null : new PassedOver(instance, swaps);
  }

  /** Begins the walk for station number `station`, after the tasks of a set; loads that leave more than `mostRoom` are left out. */
  start(
    sets: Int32Array,
    offset: number,
    station: number,
    mostRoom: number,
    needsLeader: boolean = false,
  ): void {
    for (let at = 0; at < this.count; at++) this.inLoad[this.load[at]!] = 0;
    this.count = 0;
    this.readyCount = 0;
    this.room = this.instance.limit;
    this.next = 0;
    this.ahead = 0;
    this.leaders = 0;
    this.leadersAhead = 0;
    this.passed?.backTo(0);
    this.roomBelow[0] = Number.POSITIVE_INFINITY;
    this.station = station;
    this.mostRoom = mostRoom;
    this.needsLeader = needsLeader;
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

  /** Takes the first task of the queue that fits and may stand here; false at the end of the queue or of hope. */
  private takeNext(): boolean {
    const below = this.roomBelow[this.count]!;
    while (this.next < this.readyCount && this.mayBecomeFull(below)) {
      const task = this.ready[this.next]!;
      if (this.instance.times[task]! <= this.room) {
        const belowWith = this.passed === null ? below : Math.min(below, this.passed.leastGain(task));
        if (belowWith > 0) {
          this.take(task, belowWith);
          return true;
        }
      }
      if (this.latest[task]! <= this.station) {
        this.roomBelow[this.count] = 0;
        return false;
      }
      this.leaveQueue(task);
      this.next++;
    }
    return false;
  }

  private mayBecomeFull(below: number): boolean {
    const least = this.room - this.ahead;
    if (least > this.mostRoom || least >= below || below <= 0) return false;
    return !this.needsLeader || this.leaders + this.leadersAhead > 0;
  }

  private take(task: number, below: number): void {
    const depth = this.count++;
    this.load[depth] = task;
    this.inLoad[task] = 1;
    this.room -= this.instance.times[task]!;
    if (this.leads(task)) this.leaders++;
    this.leaveQueue(task);
    this.places[depth] = this.next++;
    this.lengths[depth] = this.readyCount;
    this.aheads[depth] = this.ahead;
    this.leadersAheads[depth] = this.leadersAhead;
    if (this.passed !== null) this.passedCounts[depth] = this.passed.count;
    this.roomBelow[depth + 1] = below;
    for (const later of this.instance.after[task]!) if (--this.waitsFor[later]! === 0) this.append(later);
  }

  private append(task: number): void {
    this.ready[this.readyCount++] = task;
    this.ahead += this.instance.weights[task]!;
    if (this.leads(task)) this.leadersAhead++;
  }

  private leaveQueue(task: number): void {
    this.ahead -= this.instance.weights[task]!;
    if (this.leads(task)) this.leadersAhead--;
  }

  private leads(task: number): boolean {
    return this.instance.followerCounts[task]! > 0;
  }

  /** Passes over the task taken last; one that is due or takes no time is never passed over. */
  private putBack(): void {
    const { times, after } = this.instance;
    while (this.count > 0) {
      const depth = --this.count;
      const task = this.load[depth]!;
      this.inLoad[task] = 0;
      this.room += times[task]!;
      if (this.leads(task)) this.leaders--;
      for (const later of after[task]!) this.waitsFor[later]!++;
      this.readyCount = this.lengths[depth]!;
      this.ahead = this.aheads[depth]!;
      this.leadersAhead = this.leadersAheads[depth]!;
      this.passed?.backTo(this.passedCounts[depth]!);
      this.next = this.places[depth]! + 1;
      if (times[task]! === 0 || this.latest[task]! <= this.station) continue;
      const gain = this.passed?.add(task, this.load, depth) ?? Number.POSITIVE_INFINITY;
      this.roomBelow[depth] = Math.min(this.roomBelow[depth]!, times[task]!, gain);
      return;
    }
    this.ended = true;
  }

  private isFull(): boolean {
    if (this.needsLeader && this.leaders === 0) return false;
    return this.room <= this.mostRoom && this.room < this.roomBelow[this.count]!;
  }
}

const NEVER = 0x7fffffff;
