import type { Instance } from "./instance.js";
import { PassedOver } from "./passed-over.js";
import { ReadyTasks } from "./ready-tasks.js";
import { SumsAhead } from "./sums-ahead.js";
import type { Swaps } from "./swaps.js";

/** What a stretch of the walk came to. */
export type Walk = "load" | "end" | "pause";

/**
 * Walks through the full loads of one station: sets of tasks that fit, respect the arrows, and leave no room for any
 * further task that could start (Jackson 1956: some best plan has only full loads). Each set comes up once.
 *
 * The walk takes or passes over each task that can start in turn, in order of their numbers. Branches that must end too
 * empty, or without a task that is due, are left at once; with `swaps` also those whose loads a swap with a task passed
 * over improves. A walk that has been long also looks at which sums the tasks ahead can come to at all: where the room left
 * must be very small, few of them are of use.
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
  /** 1 for the tasks of the load. */
  readonly inLoad: Uint8Array;
  /** Steps of the walk since `start`. */
  steps = 0;

  private readonly tasks: ReadyTasks;
  private readonly sums: SumsAhead | null;
  /** Steps before the walk looks at sums: writing them costs about as much. */
  private readonly sumsFrom: number;
  private looksAtSums = false;
  /** The set that the walk goes on from. */
  private readonly placed: Int32Array;
  private ended = true;
  private goBack = false;
  private station = 0;
  private mostRoom = 0;
  private needsLeader = false;
  /** Tasks with followers in the load. */
  private leaders = 0;
  private readonly passed: PassedOver | null;
  // By number of tasks taken, to return to.
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
    this.inLoad = new Uint8Array(size);
    this.tasks = new ReadyTasks(instance);
    this.placed = new Int32Array(instance.words);
    this.sums = SumsAhead.suit(instance) ? new SumsAhead(instance) : null;
    this.sumsFrom = this.sums === null ? Number.POSITIVE_INFINITY : this.sums.words + size;
    this.passedCounts = new Int32Array(size + 1);
    this.roomBelow = new Float64Array(size + 1);
    this.passed = swaps === null ? null : new PassedOver(instance, swaps);
  }

  /** Tasks that can start once the load is done or sooner, `readyCount` of them, those of the load included. */
  get ready(): Int32Array {
    return this.tasks.list;
  }

  get readyCount(): number {
    return this.tasks.count;
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
    this.room = this.instance.limit;
    this.leaders = 0;
    this.passed?.backTo(0);
    this.roomBelow[0] = Number.POSITIVE_INFINITY;
    this.station = station;
    this.mostRoom = mostRoom;
    this.needsLeader = needsLeader;
    this.goBack = false;
    this.steps = 0;
    for (let word = 0; word < this.placed.length; word++) this.placed[word] = sets[offset + word]!;
    this.looksAtSums = false;
    this.tasks.start(sets, offset);
    this.ended = this.readyCount === 0;
  }

  /** The next load; "pause" once `steps` reaches `mostSteps`, "end" when no load is left. */
  advance(mostSteps: number): Walk {
    for (; !this.ended; this.steps++) {
      if (this.steps >= mostSteps) return "pause";
      if (!this.looksAtSums && this.steps >= this.sumsFrom) {
        this.looksAtSums = true;
        this.sums!.start(this.placed, 0);
      }
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

  /** Takes the next task that fits and may stand here; false where none is ahead or nothing can come of it. */
  private takeNext(): boolean {
    const { tasks } = this;
    const below = this.roomBelow[this.count]!;
    while (tasks.seek() && this.mayBecomeFull(below)) {
      const task = tasks.next;
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
      tasks.passOver();
    }
    return false;
  }

  private mayBecomeFull(below: number): boolean {
    const { tasks, room } = this;
    const most = Math.min(this.mostRoom, below - 1);
    if (most < 0 || room - tasks.weightAhead > most) return false;
    if (this.needsLeader && this.leaders + tasks.leadersAhead === 0) return false;
    return !this.looksAtSums || this.sums!.reach(tasks.next, room - most, room);
  }

  private take(task: number, below: number): void {
    const depth = this.count++;
    this.load[depth] = task;
    this.inLoad[task] = 1;
    this.room -= this.instance.times[task]!;
    if (this.leads(task)) this.leaders++;
    if (this.passed !== null) this.passedCounts[depth] = this.passed.count;
    this.roomBelow[depth + 1] = below;
    this.tasks.take(depth);
  }

  private leads(task: number): boolean {
    return this.instance.followerCounts[task]! > 0;
  }

  /** Passes over the task taken last; one that is due or takes no time is never passed over. */
  private putBack(): void {
    const { times } = this.instance;
    while (this.count > 0) {
      const depth = --this.count;
      const task = this.load[depth]!;
      this.inLoad[task] = 0;
      this.room += times[task]!;
      if (this.leads(task)) this.leaders--;
      this.tasks.putBack(task, depth);
      this.passed?.backTo(this.passedCounts[depth]!);
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
