import { stationsAfterEach } from "../bounds/tails.js";
import { allWeightings, tightestWeightings, type Weighting } from "../bounds/weightings.js";
import { ceilingDivision } from "../bounds/whole-numbers.js";
import { addTask, hasTask } from "./bit-sets.js";
import { canComeLast } from "./come-last.js";
import { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";
import { LevelHeaps } from "./level-heaps.js";
import { Pairs } from "./pairs.js";
import { Remainder } from "./remainder.js";
import { StateStore, taskHashes } from "./state-store.js";
import { Swaps } from "./swaps.js";

/** How a stretch of the search came out. "exhausted": no plan meets the target. */
export type Stretch = "open" | "found" | "exhausted" | "nodes" | "memory";

/**
 * Branch and bound with memory from one end of the line (Sewell & Jacobson 2012; Morrison, Sewell & Jacobson 2014): is
 * there a plan with `target` stations? Partial plans are sets of tasks on so many stations, extended by full loads;
 * the search takes the best open one with 0, 1, 2, ... stations in turn and begins again. It looks at no more than so
 * many steps of loads from each; what it cut short that way waits for a later, wider round.
 */
export class DirectionSearch {
  nodes = 0;
  private readonly store: StateStore;
  private readonly hashes: Int32Array;
  private readonly swaps: Swaps;
  private readonly pairs: Pairs;
  /** Stations that the pairs ask for on the whole line. */
  private readonly pairedStations: number;
  private readonly tails: Int32Array;
  private readonly weightings: readonly Weighting[];
  private readonly latest: Int32Array;
  private readonly loads: FullLoads;
  private readonly loadSet: Int32Array;
  private readonly set: Int32Array;
  private remainder: Remainder;
  private open: LevelHeaps;
  private deferred: number[] = [];
  private width = FIRST_WIDTH;
  private level = 0;
  private state = -1;
  private last = -1;

  constructor(
    private readonly instance: Instance,
    private target: number,
    private readonly mostNodes: number,
    mostStates: number,
  ) {
    this.store = new StateStore(instance.words, mostStates);
    this.hashes = taskHashes(instance.size);
    this.swaps = new Swaps(instance);
    this.pairs = new Pairs(instance);
    this.pairedStations = this.pairs.stations;
    this.tails = stationsAfterEach(instance);
    this.latest = new Int32Array(instance.size);
    this.loads = new FullLoads(instance, this.latest);
    this.loadSet = new Int32Array(instance.words);
    this.set = new Int32Array(instance.words);
    this.open = new LevelHeaps(target + 1);
    this.weightings = allWeightings(instance);
    this.remainder = this.aim(target);
    this.store.remember(this.set, 0, 0, -1);
    this.open.push(0, 0, 0);
  }

  /** Stations that the line needs by the weightings and the pairs of its tasks, before any partial plan. */
  get leastStations(): number {
    const weighed = this.weightings.map(({ capacity, total }) => ceilingDivision(total, capacity));
    return Math.max(this.pairedStations, ...weighed);
  }

  /** Sets a lower target; what is remembered and open stays. */
  aimAt(target: number): void {
    if (this.state >= 0) this.open.push(this.store.stations[this.state]!, this.state, 0);
    this.state = -1;
    this.level = 0;
    this.remainder = this.aim(target);
  }

  private aim(target: number): Remainder {
    this.target = target;
    for (let task = 0; task < this.instance.size; task++) this.latest[task] = target - this.tails[task]!;
    return new Remainder(this.instance, tightestWeightings(this.weightings, target), this.latest, target);
  }

  /** Goes on for about so many steps; a node is a full load looked at. */
  run(steps: number): Stretch {
    for (let left = steps; left > 0; ) {
      if (this.nodes >= this.mostNodes) return "nodes";
      if (this.store.full) return "memory";
      if (this.state < 0) {
        if (!this.pick()) return "exhausted";
        left -= PICK_STEPS;
        continue;
      }
      const from = this.loads.steps;
      const walk = this.loads.advance(Math.min(from + left, this.width));
      left -= this.loads.steps - from + 1;
      if (walk === "load") {
        this.nodes++;
        if (this.keepLoad()) return "found";
      } else if (walk === "end") {
        this.state = -1;
      } else if (this.loads.steps >= this.width) {
        this.deferred.push(this.state);
        this.state = -1;
      }
    }
    return "open";
  }

  /** Makes the next open state the one whose loads are walked; false when none is left. */
  private pick(): boolean {
    for (;;) {
      const state = this.popInTurn();
      if (state < 0) {
        if (!this.widen()) return false;
        continue;
      }
      const { sets, stations } = this.store;
      const offset = state * this.instance.words;
      const mostRoom = this.remainder.open(sets, offset, stations[state]!);
      if (mostRoom < 0 || !this.pairsAllow(state)) continue;
      this.state = state;
      this.loads.start(sets, offset, stations[state]! + 1, mostRoom);
      return true;
    }
  }

  private pairsAllow(state: number): boolean {
    if (this.target - this.pairedStations > PAIRS_IN_REACH) return true;
    const left = this.target - this.store.stations[state]!;
    return this.pairs.allow(this.store.sets, state * this.instance.words, left);
  }

  /** The best state of the next level that has one; -1 when no level has. States reached sooner since are skipped. */
  private popInTurn(): number {
    for (let tries = 0; tries < this.target; tries++) {
      const level = this.level;
      this.level = (level + 1) % this.target;
      let state = this.open.pop(level);
      while (state >= 0 && this.store.stations[state] !== level) state = this.open.pop(level);
      if (state >= 0) return state;
    }
    return -1;
  }

  private widen(): boolean {
    if (this.deferred.length === 0) return false;
    this.width *= WIDENING;
    for (const state of this.deferred) this.open.push(this.store.stations[state]!, state, 0);
    this.deferred = [];
    return true;
  }

  /** Remembers the plan with the current load unless it is dominated or out of bounds; true when it is complete. */
  private keepLoad(): boolean {
    const { loads, store, state } = this;
    if (!this.remainder.allows(loads)) return false;
    const left = this.remainder.tasksLeft - loads.count;
    if (
      left > 0 &&
      (canComeLast(this.loads, this.instance, this.remainder.leadingTasksLeft) || this.isDominated())
    )
      return false;
    const words = this.instance.words;
    let hash = store.hashes[state]!;
    for (let word = 0; word < words; word++) this.set[word] = store.sets[state * words + word]!;
    for (let at = 0; at < loads.count; at++) {
      addTask(this.set, 0, loads.load[at]!);
      hash ^= this.hashes[loads.load[at]!]!;
    }
    const stations = store.stations[state]! + 1;
    const child = store.remember(this.set, hash, stations, state);
    if (child < 0) return false;
    if (left === 0) {
      this.last = child;
      return true;
    }
    const idle = this.remainder.idle + loads.room;
    this.open.push(stations, child, idle / (stations * this.instance.limit) - LEFT_WEIGHT * left);
    return false;
  }

  private isDominated(): boolean {
    this.loadSet.fill(0);
    for (let at = 0; at < this.loads.count; at++) addTask(this.loadSet, 0, this.loads.load[at]!);
    return this.swaps.dominate(this.loads, this.loadSet);
  }

  /** The plan found last, station by station, in task numbers of the station problem. */
  plan(): number[][] {
    const { words, size, original } = this.instance;
    const { sets, parents } = this.store;
    const plan: number[][] = [];
    for (let state = this.last; parents[state]! >= 0; state = parents[state]!) {
      const load: number[] = [];
      for (let task = 0; task < size; task++) {
        if (hasTask(sets, state * words, task) && !hasTask(sets, parents[state]! * words, task))
          load.push(original[task]!);
      }
      plan.unshift(load);
    }
    return plan;
  }
}

const FIRST_WIDTH = 2000;
const WIDENING = 8;
/** Pairs cost time and rarely cut where they leave more than so many stations of the target to spare. */
const PAIRS_IN_REACH = 3;
const PICK_STEPS = 4;
const LEFT_WEIGHT = 2e-5;
