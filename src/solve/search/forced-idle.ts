import { stationsAfterEach } from "../bounds/tails.js";
import { allWeightings, tightestWeightings } from "../bounds/weightings.js";
import { BeamLevel } from "./beam-level.js";
import { addTask } from "./bit-sets.js";
import { FullLoads } from "./full-loads.js";
import type { Instance } from "./instance.js";
import { Remainder } from "./remainder.js";
import { taskHashes } from "./task-hashes.js";

/**
 * What the first stations of every plan with at most `target` stations leave idle at the least, from one end of the
 * line. All partial plans of full loads are listed, station by station (dynamic programming over sets of tasks: Jackson 1956;
 * Held, Karp & Shareshian 1963), as far as the effort allows. Filling the stations of a plan up from this end puts no less work into
 * its first ones (Jackson 1956), so the least idle time of the list holds for every plan. What is forced at one end is
 * missing at the other: there fewer partial plans are left, which may force more again.
 *
 * Supports work of which any that fits may share a station and every station holds as much as any other: an instance without rules.
 */
export class ForcedIdle {
  static suit({ rules }: Pick<Instance, "rules">): boolean {
    return rules === null;
  }

  /** By number of stations from this end. */
  readonly least: Float64Array;
  /** No plan has so few stations. */
  isRuledOut = false;
  /** Full loads looked at. */
  nodes = 0;
  private readonly loads: FullLoads;
  private readonly remainder: Remainder;
  private readonly hashes: Int32Array;
  private readonly set: Int32Array;

  constructor(
    private readonly instance: Instance,
    readonly target: number,
  ) {
    const latest = stationsAfterEach(instance).map((tail) => target - tail);
    this.least = new Float64Array(target + 1);
    this.loads = new FullLoads(instance, latest);
    const weightings = tightestWeightings(allWeightings(instance), target);
    this.remainder = new Remainder(instance, weightings, latest, target);
    this.hashes = taskHashes(instance.size);
    this.set = new Int32Array(instance.words);
  }

  /**
   * Lists anew with what is forced `behind`, at the other end, in so many steps and in stretches of a few milliseconds; true where
   * more is forced than before.
   */
  *look(behind: ForcedIdle, mostSteps: number): Generator<null, boolean> {
    const before = this.least.reduce((sum, each) => sum + each, 0);
    const width = Math.ceil(mostSteps / STEPS_A_PLACE);
    let level = new BeamLevel(this.instance, 1);
    level.add(this.set.fill(0), 0, 0, NONE);
    let [left, told] = [mostSteps, mostSteps];
    for (let station = 1; station < this.target; station++) {
      const next = new BeamLevel(this.instance, width);
      const mostBehind = behind.least[this.target - station]!;
      for (let at = 0; at < level.count && left >= 0; at++) {
        left = this.extend(level, at, station, mostBehind, next, left);
        if (left > told - STEPS_A_STRETCH) continue;
        told = left;
        yield null;
      }
      if (left < 0) break;
      this.isRuledOut = next.count === 0;
      if (this.isRuledOut) return true;
      this.raise(station, next);
      level = next;
    }
    return this.least.reduce((sum, each) => sum + each, 0) > before;
  }

  /** Gives the steps left, below 0 where the list of the next station cannot be whole. */
  private extend(
    level: BeamLevel,
    at: number,
    station: number,
    behind: number,
    next: BeamLevel,
    steps: number,
  ): number {
    const { loads, remainder, set, hashes } = this;
    const offset = at * set.length;
    const cost = this.instance.size;
    const mostRoom = Math.min(remainder.open(level.sets, offset, station - 1), remainder.spare - behind);
    if (mostRoom < 0) return steps - cost;
    loads.start(level.sets, offset, station, mostRoom);
    for (;;) {
      const walk = loads.advance(Math.max(0, steps - cost));
      if (walk === "end") return steps - cost - loads.steps;
      // A whole plan has fewer stations than the target: those after it are idle, and nothing more is forced.
      if (walk === "pause" || next.isFull || loads.count === remainder.tasksLeft) return STOP;
      this.nodes++;
      if (!remainder.allows(loads)) continue;
      for (let word = 0; word < set.length; word++) set[word] = level.sets[offset + word]!;
      let hash = level.hashes[at]!;
      for (let place = 0; place < loads.count; place++) {
        addTask(set, 0, loads.load[place]!);
        hash ^= hashes[loads.load[place]!]!;
      }
      next.add(set, hash, level.idle[at]! + loads.room, at);
    }
  }

  private raise(station: number, { idle, count }: BeamLevel): void {
    let least = Number.POSITIVE_INFINITY;
    for (let at = 0; at < count; at++) least = Math.min(least, idle[at]!);
    for (let later = station; later <= this.target; later++)
      this.least[later] = Math.max(this.least[later]!, least);
  }
}

const NONE = -1;
const STOP = -1;
/** A list of partial plans has a place for so many steps of walks. */
const STEPS_A_PLACE = 100;
const STEPS_A_STRETCH = 20_000;

/**
 * What is forced at both ends, each with what the other forces, until neither forces more or so many steps are used up; in
 * stretches of a few milliseconds.
 */
export function* lookFromBothEnds(front: ForcedIdle, back: ForcedIdle, mostSteps: number): Generator<null> {
  const share = Math.floor(mostSteps / MOST_LISTS);
  let [one, two] = [front, back];
  for (let lists = 0; lists < MOST_LISTS; lists++) {
    const isMore = yield* one.look(two, share);
    if (one.isRuledOut || (lists > 0 && !isMore)) return;
    [one, two] = [two, one];
  }
}

const MOST_LISTS = 4;
