import type { Closed } from "../station/constraint.js";
import type { TaskRules } from "../station/task-rules.js";
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
  /** Steps before the walk looks at sums: writing all of them costs some times as much, and most stay. */
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
  /** How the load found last may be closed; empty on a plain line. */
  closings: readonly Closed[] = [];
  private readonly rules: TaskRules | null;
  /** The most room of loads by zone, where stations of one zone need it; null where zones change nothing. */
  private roomByZone: ReadonlyMap<string, number> | null = null;
  /** Steps that questions about orders of work have taken before this walk. */
  private orderSteps = 0;
  // By number of tasks taken, to return to.
  private readonly passedCounts: Int32Array;
  /** Tasks passed over, where the station minds that; null where it does not. */
  private readonly left: Int32Array | null;
  private leftCount = 0;
  private readonly leftCounts: Int32Array;
  /** The room must end below this: otherwise a task passed over fits, or a swap improves the load. */
  private readonly roomBelow: Float64Array;

  /** `latest[task]` is the last station, counted from 1, that may hold the task. */
  constructor(
    private readonly instance: Instance,
    private readonly latest: Int32Array,
    swaps: Swaps | null = null,
  ) {
    const { size, rules } = instance;
    this.rules = rules;
    this.load = new Int32Array(size);
    this.inLoad = new Uint8Array(size);
    this.tasks = new ReadyTasks(instance);
    this.placed = new Int32Array(instance.words);
    this.sums = SumsAhead.suit(instance) ? new SumsAhead(instance) : null;
    this.sumsFrom = this.sums === null ? Number.POSITIVE_INFINITY : (this.sums.words + size) / ROWS_A_WALK;
    this.passedCounts = new Int32Array(size + 1);
    this.left = rules?.station.mindsWhatStays ? new Int32Array(size) : null;
    this.leftCounts = new Int32Array(size + 1);
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
    roomByZone: ReadonlyMap<string, number> | null = null,
  ): void {
    this.roomByZone = roomByZone;
    this.orderSteps = this.rules?.station.orderSteps ?? 0;
    for (let at = 0; at < this.count; at++) this.inLoad[this.load[at]!] = 0;
    this.count = 0;
    this.room = this.instance.limit;
    this.leaders = 0;
    this.passed?.backTo(0);
    this.leftCount = 0;
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
      if (this.rules !== null) this.countOrderSteps();
      if (this.steps >= mostSteps) return "pause";
      this.rules?.station.allowOrderSteps((mostSteps - this.steps) * ORDER_STEPS);
      if (!this.looksAtSums && this.steps >= this.sumsFrom) {
        this.looksAtSums = true;
        this.sums!.start(this.placed, 0);
      }
      if (this.goBack) {
        this.goBack = false;
        this.putBack();
      } else if (!this.takeNext()) {
        // What is not known yet is asked again.
        if (this.rules?.station.isUndecided) return this.pause();
        const isFull = this.isFull();
        if (this.rules?.station.isUndecided) return this.pause();
        this.goBack = true;
        if (isFull) return "load";
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
        const gain = this.passed?.leastGain(task, this.mostRoom) ?? Number.POSITIVE_INFINITY;
        const belowWith = Math.min(below, gain);
        if (belowWith > 0) {
          const isAllowed = this.rules === null || this.rules.station.canTake(this.rules.blockOf[task]!);
          if (this.rules?.station.isUndecided) return false;
          if (isAllowed) {
            this.take(task, belowWith);
            return true;
          }
        }
      }
      if (this.latest[task]! <= this.station) {
        this.roomBelow[this.count] = 0;
        return false;
      }
      tasks.passOver();
      if (this.left !== null) this.leave(task);
    }
    return false;
  }

  /** The station learns that the task stays behind. */
  private leave(task: number): void {
    this.left![this.leftCount++] = task;
    this.rules!.station.passOver(this.rules!.blockOf[task]!, false);
  }

  private leaveNoMoreThan(count: number): void {
    const { station, blockOf } = this.rules!;
    while (this.leftCount > count) station.passOver(blockOf[this.left![--this.leftCount]!]!, true);
  }

  private mayBecomeFull(below: number): boolean {
    const { tasks, room } = this;
    const most = Math.min(this.roomAllowed(), below - 1);
    if (most < 0 || room - tasks.weightAhead > most) return false;
    if (this.left !== null && !this.rules!.station.mayClose) return false;
    if (this.needsLeader && this.leaders + tasks.leadersAhead === 0) return false;
    return !this.looksAtSums || this.sums!.reach(tasks.next, room - most, room);
  }

  /** The most room that the load may leave, in the zone that it has so far. */
  private roomAllowed(): number {
    if (this.roomByZone === null) return this.mostRoom;
    const zone = this.rules!.station.zone;
    return zone === null ? this.mostRoom : Math.min(this.mostRoom, this.roomByZone.get(zone)!);
  }

  private pause(): "pause" {
    this.countOrderSteps();
    return "pause";
  }

  private countOrderSteps(): void {
    const { orderSteps } = this.rules!.station;
    const whole = Math.floor((orderSteps - this.orderSteps) / ORDER_STEPS);
    this.steps += whole;
    this.orderSteps += whole * ORDER_STEPS;
  }

  private take(task: number, below: number): void {
    this.rules?.station.take(this.rules.blockOf[task]!);
    const depth = this.count++;
    this.load[depth] = task;
    this.inLoad[task] = 1;
    this.room -= this.instance.times[task]!;
    if (this.leads(task)) this.leaders++;
    if (this.passed !== null) this.passedCounts[depth] = this.passed.count;
    this.leftCounts[depth] = this.leftCount;
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
      this.rules?.station.leave(this.rules.blockOf[task]!);
      this.inLoad[task] = 0;
      this.room += times[task]!;
      if (this.leads(task)) this.leaders--;
      this.tasks.putBack(task, depth);
      this.passed?.backTo(this.passedCounts[depth]!);
      if (this.left !== null) this.leaveNoMoreThan(this.leftCounts[depth]!);
      const isFree = this.rules === null || this.rules.isFree[task] === 1;
      if ((times[task]! === 0 && isFree) || this.latest[task]! <= this.station) continue;
      if (this.left !== null) this.leave(task);
      const gain = this.passed?.add(task, this.load, depth) ?? Number.POSITIVE_INFINITY;
      const own = isFree ? times[task]! : Number.POSITIVE_INFINITY;
      this.roomBelow[depth] = Math.min(this.roomBelow[depth]!, own, gain);
      return;
    }
    this.ended = true;
  }

  private isFull(): boolean {
    if (this.needsLeader && this.leaders === 0) return false;
    if (this.room > this.roomAllowed() || this.room >= this.roomBelow[this.count]!) return false;
    return this.rules === null || this.isFullByRules(this.rules);
  }

  /** Whether no task that a constraint speaks of, passed over or not, could as well stand here. */
  private isFullByRules({ station, blockOf, isFree }: TaskRules): boolean {
    if (this.count === 0) return false;
    this.closings = station.closings();
    // What needs more people than are here waits for a block that brings them.
    if (this.closings.length === 0) return false;
    const { list, count } = this.tasks;
    for (let at = 0; at < count; at++) {
      const task = list[at]!;
      if (this.inLoad[task] === 1 || isFree[task] === 1) continue;
      if (this.instance.times[task]! <= this.room && station.couldHold(blockOf[task]!, this.closings))
        return false;
    }
    return true;
  }
}

/** Tasks put in order that count as a step. */
const ORDER_STEPS = 4;
/** How many times as long as the steps before it writing the sums may take. */
const ROWS_A_WALK = 8;
