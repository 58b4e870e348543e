import { stationsAfterEach } from "../bounds/tails.js";
import { allWeightings, tightestWeightings, type Weighting } from "../bounds/weightings.js";
import { ceilingDivision } from "../bounds/whole-numbers.js";
import { addTask, hasTask } from "./bit-sets.js";
import { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";
import { LearnedWeightings } from "./learned-weightings.js";
import { OneMore } from "./one-more.js";
import { OpenStates } from "./open-states.js";
import { Pairs } from "./pairs.js";
import { Remainder } from "./remainder.js";
import { StateStore } from "./state-store.js";
import { Swaps } from "./swaps.js";

/** How a stretch of the search came out. "exhausted": no plan meets the target. */
export type Stretch = "open" | "found" | "exhausted" | "nodes" | "memory";

/**
 * Branch and bound with memory from one end of the line (Sewell & Jacobson 2012; Morrison, Sewell & Jacobson 2014): is
 * there a plan with `target` stations? Partial plans are sets of tasks on so many stations, extended by full loads;
 * the walk through the loads of one partial plan is cut short after so many steps, and what was cut short waits for a
 * later, wider round. The search is exhausted when nothing is open and nothing was cut short.
 */
export class DirectionSearch {
  nodes = 0;
  private readonly store: StateStore;
  private readonly oneMore: OneMore;
  private readonly swaps: Swaps;
  private readonly pairs: Pairs;
  /** Stations that the pairs ask for on the whole line. */
  private readonly pairedStations: number;
  private readonly tails: Int32Array;
  private readonly weightings: readonly Weighting[];
  private readonly learned: LearnedWeightings;
  private readonly latest: Int32Array;
  private readonly loads: FullLoads;
  /** The tasks placed with the current load. */
  private readonly set: Int32Array;
  private remainder: Remainder;
  private readonly open: OpenStates;
  /** Steps that the walk through the loads of one state may take in this round. */
  private width = FIRST_WIDTH;
  /** The state whose loads are being walked. */
  private state = NONE;
  /** The whole plan found last. */
  private last = NONE;

  constructor(
    private readonly instance: Instance,
    private target: number,
    private readonly mostNodes: number,
    mostStates: number,
  ) {
    this.store = new StateStore(instance, mostStates);
    this.oneMore = new OneMore(instance, this.store);
    this.swaps = new Swaps(instance);
    this.pairs = new Pairs(instance);
    this.pairedStations = this.pairs.stations;
    this.tails = stationsAfterEach(instance);
    this.latest = new Int32Array(instance.size);
    this.loads = new FullLoads(instance, this.latest, this.swaps);
    this.set = new Int32Array(instance.words);
    this.open = new OpenStates(this.store, target);
    this.weightings = allWeightings(instance);
    this.learned = new LearnedWeightings(instance);
    this.remainder = this.aim(target);
    this.store.remember(this.set, 0, 0, -1, 0);
    this.open.push(0, 0);
  }

  /** Stations that the line needs by the weightings and the pairs of its tasks, before any partial plan. */
  get leastStations(): number {
    const weighed = this.weightings.map(({ capacity, total }) => ceilingDivision(total, capacity));
    return Math.max(this.pairedStations, ...weighed);
  }

  /** Partial plans remembered. */
  get states(): number {
    return this.store.count;
  }

  /** Sets a lower target; what is remembered and open stays. */
  aimAt(target: number): void {
    if (this.state >= 0) this.open.push(this.state, 0);
    this.state = NONE;
    this.open.restart();
    this.remainder = this.aim(target);
  }

  private aim(target: number): Remainder {
    this.target = target;
    for (let task = 0; task < this.instance.size; task++) this.latest[task] = target - this.tails[task]!;
    const weightings = this.learned.startFrom(tightestWeightings(this.weightings, target));
    return new Remainder(this.instance, weightings, this.latest, target);
  }

  /** Goes on for about so many steps; a node is a full load looked at. */
  run(steps: number): Stretch {
    for (let left = steps; left > 0; ) {
      if (this.nodes >= this.mostNodes) return "nodes";
      if (this.store.full) return "memory";
      if (this.state < 0) {
        if (!this.pick()) return "exhausted";
        left -= this.instance.size;
        continue;
      }
      const from = this.loads.steps;
      const walk = this.loads.advance(Math.min(from + left, this.width));
      left -= this.loads.steps - from + 1;
      this.learned.allow(this.loads.steps - from);
      if (walk === "load") {
        this.nodes++;
        if (this.keepLoad()) return "found";
      } else if (walk === "end") {
        this.state = NONE;
      } else if (this.loads.steps >= this.width) {
        this.open.defer(this.state);
        this.state = NONE;
      }
    }
    return "open";
  }

  /** Takes the next open state and, unless its bounds rule it out, begins to walk its loads; false when none is left. */
  private pick(): boolean {
    const state = this.open.next(this.target);
    if (state < 0) {
      this.width *= WIDENING;
      return this.open.resume();
    }
    if (this.oneMore.dominates(state)) return true;
    const { sets, stations } = this.store;
    const offset = state * this.instance.words;
    const mostRoom = this.remainder.open(sets, offset, stations[state]!);
    if (mostRoom < 0 || !this.pairsAllow(state)) return true;
    if (this.learned.ruleOut(this.remainder, this.target - stations[state]!)) return true;
    this.state = state;
    this.loads.start(sets, offset, stations[state]! + 1, mostRoom, this.remainder.leadingTasksLeft > 0);
    return true;
  }

  private pairsAllow(state: number): boolean {
    if (this.target - this.pairedStations > PAIRS_IN_REACH) return true;
    const left = this.target - this.store.stations[state]!;
    return this.pairs.allow(this.store.sets, state * this.instance.words, left);
  }

  /** Remembers the plan with the current load unless it cannot be needed; true when it is complete. */
  private keepLoad(): boolean {
    const { loads, remainder, store, state } = this;
    if (!remainder.allows(loads) || this.isDominated()) return false;
    const stations = store.stations[state]! + 1;
    const work = store.work[state]! + this.instance.limit - loads.room;
    const child = store.remember(this.set, this.placeLoad(), stations, state, work);
    if (child < 0) return false;
    const left = remainder.tasksLeft - loads.count;
    if (left === 0) {
      this.last = child;
      return true;
    }
    const idle = (remainder.idle + loads.room) / (stations * this.instance.limit);
    this.open.push(child, idle - LEFT_WEIGHT * left);
    return false;
  }

  private isDominated(): boolean {
    return this.loads.count < this.remainder.tasksLeft && this.swaps.dominate(this.loads);
  }

  /** Makes `set` the tasks placed with the current load, and gives their hash. */
  private placeLoad(): number {
    const { loads, set, state, store } = this;
    const offset = state * set.length;
    for (let word = 0; word < set.length; word++) set[word] = store.sets[offset + word]!;
    let hash = store.hashes[state]!;
    for (let at = 0; at < loads.count; at++) {
      addTask(set, 0, loads.load[at]!);
      hash ^= store.taskHashes[loads.load[at]!]!;
    }
    return hash;
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

const NONE = -1;
const FIRST_WIDTH = 2000;
const WIDENING = 8;
/** Pairs cost time and rarely rule anything out where they leave more than so many stations of the target to spare. */
const PAIRS_IN_REACH = 3;
/** How much idle time, as a share of the stations so far, one more task left is worth (Sewell & Jacobson 2012). */
const LEFT_WEIGHT = 2e-5;
