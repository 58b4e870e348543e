import { LevelHeaps } from "../search/level-heaps.js";
import type { Closed } from "../station/open-station.js";
import { OpenStation } from "../station/open-station.js";
import { mayBeStaffed } from "../station/staff-skills.js";
import type { BlockPlan, Work } from "../work.js";
import { fitsInTime } from "./fits-in-time.js";
import { FloorLoads } from "./floor-loads.js";
import {
  type Aim,
  type Cost,
  costOf,
  hashOf,
  isCheaper,
  planOf,
  positionalWeightsOf,
  type State,
} from "./floor-state.js";
import { PeopleBound } from "./people-bound.js";

export interface FloorSearchLimits {
  /** Partial plans looked at: loads of a station, complete or not, and what `FloorLoads.steps` counts beside them. */
  readonly nodes: number;
  /** Partial plans remembered. */
  readonly memory: number;
  /** Any plan will do. */
  readonly firstOnly?: true;
}

/**
 * Best-first search by level (cyclic best-first search, Morrison, Sewell & Jacobson 2014) over stations with shop-floor rules: each
 * partial plan is continued by every load of its next position that the rules allow. Partial plans with the same blocks are
 * remembered; one that costs no less, stands no sooner and has used no less of what is counted is left out. With a position
 * that may stay empty, nothing is put there.
 *
 * Finds the cheapest plan below `ceiling`; the answer depends on the problem and the limits alone.
 */
export class FloorSearch {
  nodes = 0;
  best: BlockPlan | null = null;
  private readonly states: State[] = [];
  private readonly known = new Map<number, State[]>();
  private readonly open: LevelHeaps;
  private readonly openAt: Int32Array;
  private readonly station: OpenStation;
  private readonly loads: FloorLoads;
  private readonly bounds: PeopleBound;
  private readonly words: number;
  private readonly weights: Float64Array;
  private sinceLast = 0;
  private ended: "proved" | "nodes" | "memory" | "first" | null = null;

  constructor(
    private readonly problem: Work,
    /** Only cheaper plans are looked for. */
    private ceiling: Cost,
    private readonly limits: FloorSearchLimits,
    private readonly aim: Aim,
  ) {
    this.words = Math.max(1, (problem.size + 31) >>> 5);
    this.open = new LevelHeaps(problem.positions + 2);
    this.openAt = new Int32Array(problem.positions + 2);
    this.station = new OpenStation(problem);
    this.weights = positionalWeightsOf(problem);
    const order = [...problem.loads.keys()].sort(
      (one, two) =>
        problem.last[one]! - problem.last[two]! || this.weights[two]! - this.weights[one]! || one - two,
    );
    this.loads = new FloorLoads(problem, this.station, order);
    this.bounds = new PeopleBound(problem);
    const nothing: State = {
      set: new Int32Array(this.words),
      position: 0,
      people: 0,
      stations: 0,
      inUse: problem.equipment.map(() => 0),
      waiting: problem.waits.map(() => -1),
      skills: [],
      parent: null,
      station: null,
      origin: null,
      number: 0,
      width: FIRST_WIDTH,
      isDominated: false,
    };
    this.keep(nothing);
  }

  /** No cheaper plan than `best`, or than the ceiling where there is none, exists. */
  get isProved(): boolean {
    return this.ended === "proved";
  }

  /** Gives null now and then, and at last how the search ended. */
  *stretches(): Generator<"proved" | "nodes" | "memory" | "first" | null> {
    while (this.ended === null) {
      let isOpen = false;
      for (let level = 0; level < this.openAt.length && this.ended === null; level++) {
        const state = this.takeFrom(level);
        if (state === null) continue;
        isOpen = true;
        this.sinceLast++;
        yield* this.expand(state);
        if (this.isTimeToAsk()) yield null;
      }
      if (!isOpen) this.ended ??= "proved";
    }
    yield this.ended;
  }

  private isTimeToAsk(): boolean {
    if (this.sinceLast < STRETCH) return false;
    this.sinceLast = 0;
    return true;
  }

  private takeFrom(level: number): State | null {
    while (this.openAt[level]! > 0) {
      this.openAt[level]!--;
      const state = this.states[this.open.pop(level)]!;
      if (!state.isDominated && this.isPromising(state)) return state;
    }
    return null;
  }

  private isPlaced(set: Int32Array, block: number): boolean {
    return ((set[block >>> 5]! >>> (block & 31)) & 1) === 1;
  }

  private blocksLeft(set: Int32Array): number[] {
    const left: number[] = [];
    for (let block = 0; block < this.problem.size; block++) if (!this.isPlaced(set, block)) left.push(block);
    return left;
  }

  private isPromising(state: State): boolean {
    const left = this.blocksLeft(state.set);
    if (left.some((block) => this.problem.last[block]! < state.position)) return false;
    const rest = this.bounds.of(left);
    const least = { people: state.people + rest.people, stations: state.stations + rest.stations };
    return isCheaper(least, this.ceiling, this.aim) && fitsInTime(this.problem, left, state.position);
  }

  private *expand(state: State): Generator<null> {
    const { problem, loads, limits } = this;
    if (this.isSpent()) return;
    const mayStart = (block: number) =>
      problem.waits.every(
        ({ to, stations }, at) =>
          to !== block || (state.waiting[at]! >= 0 && state.position - state.waiting[at]! >= stations),
      );
    loads.start(state.position, state.inUse, (block) => this.isPlaced(state.set, block), mayStart);
    for (let seen = 0; ; ) {
      const room = Math.min(limits.nodes - this.nodes, STRETCH - this.sinceLast);
      const walk = loads.advance(Math.min(state.width, seen + Math.max(1, room)));
      this.count(loads.steps - seen);
      seen = loads.steps;
      if (walk === "load") {
        this.count(1);
        for (const closed of loads.closings) this.goOn(state, loads.load, closed);
        if (this.ended !== null) return;
      }
      if (walk === "end") break;
      if (this.isSpent()) return;
      if (this.isTimeToAsk()) yield null;
      if (walk === "pause" && seen >= state.width) {
        // Put off: the walk starts again with more patience once the others had their turn.
        state.width *= WIDENING;
        this.push(state);
        return;
      }
    }
    if (this.mayStayEmpty(state)) this.leaveEmpty(state);
  }

  /** The nodes are used up. Asked only where something is left to look at, or to the end, so the search is without a proof then. */
  private isSpent(): boolean {
    if (this.nodes >= this.limits.nodes) this.ended = "nodes";
    return this.ended !== null;
  }

  private count(nodes: number): void {
    this.nodes += nodes;
    this.sinceLast += nodes;
  }

  /** Whether some block left may stand later but not here, so that leaving the position empty may be of use. */
  private mayStayEmpty({ set, position, waiting }: State): boolean {
    const { problem } = this;
    if (!problem.isPositional || position + 1 >= problem.positions) return false;
    const isWaiting = problem.waits.some(
      ({ to, stations }, at) =>
        !this.isPlaced(set, to) && waiting[at]! >= 0 && position - waiting[at]! < stations,
    );
    return (
      isWaiting ||
      position < problem.kinds.length - 1 ||
      this.blocksLeft(set).some((block) => problem.first[block]! > position)
    );
  }

  private leaveEmpty(state: State): void {
    this.keep({
      ...state,
      position: state.position + 1,
      parent: state,
      station: null,
      origin: state.origin ?? state,
      width: FIRST_WIDTH,
      isDominated: false,
    });
  }

  private goOn(state: State, load: readonly number[], { places, crew, equipment }: Closed): void {
    const { problem } = this;
    const set = state.set.slice();
    for (const block of load) set[block >>> 5]! |= 1 << (block & 31);
    const needs =
      problem.skills === null ? 0n : load.reduce((all, block) => all | problem.skills!.needs[block]!, 0n);
    const skills =
      needs === 0n ? state.skills : [...state.skills, ...Array<bigint>(places).fill(needs)].sort(byValue);
    if (problem.skills !== null && !mayBeStaffed(skills, problem.skills.people)) return;
    const inLoad = new Set(load);
    this.keep({
      set,
      position: state.position + 1,
      people: state.people + places * crew,
      stations: state.stations + 1,
      inUse: state.inUse.map((used, at) => used + equipment[at]!),
      waiting: state.waiting.map((at, wait) => (inLoad.has(problem.waits[wait]!.from) ? state.position : at)),
      skills,
      parent: state,
      station: { position: state.position, blocks: load, places, crew },
      origin: null,
      number: 0,
      width: FIRST_WIDTH,
      isDominated: false,
    });
  }

  private keep(state: State): void {
    if (!this.isPromising(state)) return;
    if (this.blocksLeft(state.set).length === 0) {
      this.best = planOf(state);
      this.ceiling = costOf(this.best);
      if (this.limits.firstOnly) this.ended = "first";
      return;
    }
    const key = hashOf(state.set);
    const same = this.known.get(key) ?? [];
    // Where this state leaves a position empty, the state that it comes from is no reason against it.
    const others =
      state.origin === null ? same : same.filter((other) => (other.origin ?? other) !== state.origin);
    if (others.some((other) => this.dominates(other, state))) return;
    for (const other of others) if (this.dominates(state, other)) other.isDominated = true;
    this.known.set(key, [...same.filter((other) => !other.isDominated), state]);
    if (this.states.length >= this.limits.memory) {
      this.ended = "memory";
      return;
    }
    state.number = this.states.push(state) - 1;
    this.push(state);
  }

  /** Whatever continues the second does as well for the first. */
  private dominates(one: State, two: State): boolean {
    if (isCheaper(two, one, this.aim)) return false;
    if (this.problem.isPositional && one.position > two.position) return false;
    if (one.inUse.some((used, at) => used > two.inUse[at]!)) return false;
    if (one.waiting.some((at, wait) => at > two.waiting[wait]!)) return false;
    if (one.skills.length > 0 && one.skills.join() !== two.skills.join()) return false;
    return one.set.every((word, at) => word === two.set[at]);
  }

  /** The least idle time first, a little less for every block that is left. */
  private push(state: State): void {
    const { problem } = this;
    const left = this.blocksLeft(state.set);
    const limit = problem.kinds.at(-1)!.limits[0]!;
    const workLeft = left.reduce((sum, block) => sum + problem.work[block]!, 0);
    const idle = state.people * limit + workLeft;
    const heaviest = left.reduce((most, block) => Math.max(most, this.weights[block]!), 0);
    const key = (idle + heaviest * HEAVY + left.length * limit * LEFT_WEIGHT) * (state.width / FIRST_WIDTH);
    this.open.push(state.position, state.number, key);
    this.openAt[state.position]!++;
  }
}

const byValue = (one: bigint, two: bigint): number => (one < two ? -1 : one > two ? 1 : 0);

const FIRST_WIDTH = 2_000;
const WIDENING = 16;
const STRETCH = 5_000;
/** How much of its time the heaviest block left, with all behind it, weighs against idle time. */
const HEAVY = 0.01;
const LEFT_WEIGHT = 2e-5;
