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
 */
export class Beam {
  /** For each partial plan extended what that costs a line of its size, and every STEPS_A_NODE steps of its walk. */
  nodes = 0;
  private readonly levels: BeamLevel[];
  private readonly loads: FullLoads;
  private readonly remainder: Remainder;
  private readonly hashes: Int32Array;
  private readonly set: Int32Array;
  /** A whole plan: where its last station comes from in the level reached last. */
  private last = NONE;

  constructor(
    private readonly instance: Instance,
    private readonly count: number,
    private readonly width: number,
    private readonly mostNodes: number,
  ) {
    const tails = stationsAfterEach(instance);
    const latest = tails.map((tail) => count - tail);
    this.loads = new FullLoads(instance, latest);
    const weightings = tightestWeightings(allWeightings(instance), count);
    this.remainder = new Remainder(instance, weightings, latest, count);
    this.hashes = taskHashes(instance.size);
    this.set = new Int32Array(instance.words);
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
    const { loads, remainder, set, hashes } = this;
    const offset = at * set.length;
    const idle = level.idle[at]!;
    this.nodes += nodesToExtend(this.instance.size);
    const mostRoom = Math.min(remainder.open(level.sets, offset, station - 1), next.mostIdle - idle);
    if (mostRoom < 0) return;
    loads.start(level.sets, offset, station, mostRoom);
    while (loads.advance(MOST_STEPS) === "load") {
      if (!remainder.allows(loads)) continue;
      if (loads.count === remainder.tasksLeft) this.last = at;
      if (this.last !== NONE) break;
      for (let word = 0; word < set.length; word++) set[word] = level.sets[offset + word]!;
      let hash = level.hashes[at]!;
      for (let place = 0; place < loads.count; place++) {
        addTask(set, 0, loads.load[place]!);
        hash ^= hashes[loads.load[place]!]!;
      }
      next.add(set, hash, idle + loads.room, at);
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
