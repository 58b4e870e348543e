import { stationsAfterEach } from "../bounds/tails.js";
import { allWeightings, tightestWeightings } from "../bounds/weightings.js";
import { wholeDivision } from "../bounds/whole-numbers.js";
import { BeamLevel } from "./beam-level.js";
import { addTask, hasTask } from "./bit-sets.js";
import { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";
import { Remainder } from "./remainder.js";
import { taskHashes } from "./task-hashes.js";

/**
 * Beam search from one end of the line: all partial plans of a station are extended by full loads at once, and only the
 * `width` best go on (Lowerre 1976; for line balancing Erel, Sabuncuoglu & Sekerci 2005). Best is the least idle time:
 * where work fills the stations nearly to the last unit, what is left idle early is missing at the end.
 *
 * Where pairs of tasks may not share a station, idle time alone leaves to the end what goes with little else. There the tasks placed are
 * worth something, by one of several ways to see what is hard to place: which of them leads to a plan differs from line to line.
 *
 * Supports work whose stations are asked no more than their time and such pairs.
 */
export class Beam {
  static suit({ rules }: Pick<Instance, "rules">): boolean {
    return rules === null || rules.asksPairsOnly;
  }

  /** For each partial plan extended what that costs a line of its size, and every STEPS_A_NODE steps of its walk. */
  nodes = 0;
  private readonly levels: BeamLevel[];
  private readonly loads: FullLoads;
  private readonly remainder: Remainder;
  private readonly hashes: Int32Array;
  private readonly set: Int32Array;
  /** What each task placed takes off the idle time, in the units of the limit; null where idle time says all. */
  private readonly worth: Float64Array | null;
  private readonly mostSteps: number;
  /** A whole plan: where its last station comes from in the level reached last. */
  private last = NONE;

  constructor(
    private readonly instance: Instance,
    private readonly count: number,
    private readonly width: number,
    private readonly mostNodes: number,
    worth: Worth | null = null,
  ) {
    const tails = stationsAfterEach(instance);
    const latest = tails.map((tail) => count - tail);
    this.loads = new FullLoads(instance, latest);
    const weightings = tightestWeightings(allWeightings(instance), count);
    this.remainder = new Remainder(instance, weightings, latest, count);
    this.hashes = taskHashes(instance.size);
    this.set = new Int32Array(instance.words);
    this.worth = worth === null ? null : worthOfTasks(instance, count, worth);
    this.mostSteps = instance.rules === null ? MOST_STEPS : MOST_RULED_STEPS;
    const start = new BeamLevel(instance, 1);
    start.add(this.set, 0, 0, NONE);
    this.levels = [start];
  }

  /** Goes on in stretches of a few milliseconds until there is a plan, nothing is left to extend, or nodes run out. */
  *stretches(): Generator<null> {
    for (let station = 1; station <= this.count; station++) {
      const level = this.levels[station - 1]!;
      const next = new BeamLevel(this.instance, this.width);
      let told = this.nodes;
      for (let at = 0; at < level.count; at++) {
        if (this.nodes >= this.mostNodes) return;
        this.extend(level, at, station, next);
        if (this.last !== NONE) return;
        if (this.nodes < told + NODES_A_STRETCH) continue;
        told = this.nodes;
        yield null;
      }
      if (next.count === 0) return;
      next.choose();
      next.close();
      this.levels.push(next);
    }
  }

  private extend(level: BeamLevel, at: number, station: number, next: BeamLevel): void {
    const { loads, remainder, set, hashes, worth } = this;
    const { rules } = this.instance;
    const offset = at * set.length;
    const idle = level.idle[at]!;
    this.nodes += nodesToExtend(this.instance.size);
    const mostKept = worth === null ? next.mostIdle - idle : Number.POSITIVE_INFINITY;
    const mostRoom = Math.min(remainder.open(level.sets, offset, station - 1), mostKept);
    if (mostRoom < 0) return;
    rules?.station.startAfter(0, rules.station.nothingCarried);
    loads.start(level.sets, offset, station, mostRoom);
    while (loads.advance(this.mostSteps) === "load") {
      if (!remainder.allows(loads)) continue;
      if (loads.count === remainder.tasksLeft) this.last = at;
      if (this.last !== NONE) break;
      for (let word = 0; word < set.length; word++) set[word] = level.sets[offset + word]!;
      let hash = level.hashes[at]!;
      let key = idle + loads.room;
      for (let place = 0; place < loads.count; place++) {
        const task = loads.load[place]!;
        addTask(set, 0, task);
        hash ^= hashes[task]!;
        if (worth !== null) key -= worth[task]!;
      }
      next.add(set, hash, key, at);
    }
    this.nodes += wholeDivision(loads.steps, STEPS_A_NODE);
  }

  /** The plan found, station by station, in task numbers of the station problem; null where there is none. */
  plan(): number[][] | null {
    if (this.last === NONE) return null;
    const { size, words, original } = this.instance;
    let later: Int32Array = new Int32Array(words).fill(ALL);
    const plan: number[][] = [];
    for (let level = this.levels.length - 1, at = this.last; level >= 0; level--) {
      const { sets, parents } = this.levels[level]!;
      const placed = sets.subarray(at * words, (at + 1) * words);
      const load: number[] = [];
      for (let task = 0; task < size; task++)
        if (hasTask(later, 0, task) && !hasTask(placed, 0, task)) load.push(original[task]!);
      plan.unshift(load);
      later = placed;
      at = parents[at]!;
    }
    return plan;
  }
}

/** What the tasks of a line are worth, in stations of the whole line, shared out among them by each of these. */
export interface Worth {
  /** Pairs that part a task from others. */
  readonly parted: number;
  /** The positional weight: what follows (Sewell & Jacobson 2012 weigh loads so). */
  readonly followed: number;
  /** The square of the time: long tasks fit few loads. */
  readonly long: number;
}

function worthOfTasks(instance: Instance, count: number, worth: Worth): Float64Array {
  const { rules, weights, times, limit } = instance;
  const pairs = Float64Array.from(times, (_, task) => (rules === null ? 0 : rules.partedFrom[task]!.length));
  const squares = times.map((time) => time * time);
  const all = new Float64Array(times.length);
  const addShares = (values: Float64Array, stations: number) => {
    const sum = values.reduce((total, each) => total + each, 0);
    if (sum > 0) for (const [task, each] of values.entries()) all[task]! += (stations * each) / sum;
  };
  addShares(pairs, worth.parted);
  addShares(weights, worth.followed);
  addShares(squares, worth.long);
  return all.map((each) => each * count * limit);
}

/** What it costs to extend a partial plan of so many tasks, in full loads that branch and bound looks at. */
export function nodesToExtend(size: number): number {
  return Math.ceil(size / TASKS_A_NODE);
}

const NONE = -1;
/** Every bit of a word. */
const ALL = -1;
/** About what a node of branch and bound costs. */
const STEPS_A_NODE = 200;
const TASKS_A_NODE = 16;
const NODES_A_STRETCH = 1000;
/** The walk through the loads of one partial plan ends after so many steps. */
const MOST_STEPS = 20_000;
/** Fewer where each step asks the station. */
const MOST_RULED_STEPS = 2000;
