import { type Cost, isCheaper } from "../solve/floor/floor-search.js";
import { OpenStation } from "../solve/floor/open-station.js";
import { PeopleBound } from "../solve/floor/people-bound.js";
import { mayBeStaffed } from "../solve/floor/staff-skills.js";
import { MoveLoads } from "./move-loads.js";
import { costOfPassing, type LabelledStation, type MoveProblem } from "./move-problem.js";
import { blocksLeft, leastMoves } from "./rest-of-moves.js";

/** What the search for the fewest moves came to. */
export interface FewestMovesAnswer {
  /** A plan cheaper than the ceiling with the fewest moves; null where none was found. */
  readonly plan: readonly LabelledStation[] | null;
  /** No plan below the ceiling costs fewer moves; infinite where no plan exists below it. */
  readonly bound: number;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted";
}

/** A partial plan with what its moves cost for certain. */
interface State extends Cost {
  readonly set: Int32Array;
  readonly nextLabel: number;
  readonly position: number;
  readonly moves: number;
  readonly inUse: readonly number[];
  readonly waiting: readonly number[];
  readonly skills: readonly bigint[];
  readonly parent: State | null;
  readonly station: LabelledStation | null;
}

/**
 * The fewest moves from today's plan to one that is cheaper than the ceiling, exact: first plans without any move are looked for,
 * then with one, and so on (iterative deepening, Korf 1985). With few moves allowed a partial plan along the line can differ from
 * today's in few tasks only, so that there are few of them; those that led nowhere are remembered.
 */
export class FewestMoves {
  nodes = 0;
  /** Moves that are allowed now: fewer are proved impossible. */
  allowed = 0;
  private readonly loads: MoveLoads;
  private readonly bounds: PeopleBound;
  private readonly failed = new Map<string, State[]>();
  private found: State | null = null;
  /** The least that any branch cut off would have cost. */
  private nextAllowed = Number.POSITIVE_INFINITY;

  constructor(
    private readonly problem: MoveProblem,
    private readonly ceiling: Cost,
    private readonly mostNodes: number,
    /** Plans with more moves are not looked for. */
    private readonly mostMoves: number,
  ) {
    this.loads = new MoveLoads(problem, new OpenStation(problem.floor));
    this.bounds = new PeopleBound(problem.floor);
  }

  /** Gives null between depths, and at last the answer. */
  *run(): Generator<FewestMovesAnswer | null> {
    const { floor } = this.problem;
    const start: State = {
      set: new Int32Array(Math.max(1, (floor.size + 31) >>> 5)),
      nextLabel: 0,
      position: 0,
      people: 0,
      stations: 0,
      moves: 0,
      inUse: floor.equipment.map(() => 0),
      waiting: floor.waits.map(() => -1),
      skills: [],
      parent: null,
      station: null,
    };
    for (;;) {
      this.nextAllowed = Number.POSITIVE_INFINITY;
      this.failed.clear();
      const walk = this.go(start);
      for (let step = walk.next(); !step.done; step = walk.next()) yield null;
      if (this.found !== null) {
        yield { plan: stationsOf(this.found), bound: this.allowed, nodes: this.nodes, ended: "proved" };
        return;
      }
      if (this.nodes >= this.mostNodes) {
        yield { plan: null, bound: this.allowed, nodes: this.nodes, ended: "nodes" };
        return;
      }
      this.allowed = this.nextAllowed;
      if (this.allowed > this.mostMoves) {
        yield { plan: null, bound: this.allowed, nodes: this.nodes, ended: "proved" };
        return;
      }
      yield null;
    }
  }

  private *go(state: State): Generator<null> {
    const { problem } = this;
    const left = blocksLeft(problem.floor, state.set);
    if (left.length === 0) {
      const moves = state.moves + this.passing([], state.nextLabel, problem.labels);
      if (moves <= this.allowed) this.found = state;
      return;
    }
    if (!this.isOpen(state, left)) return;
    const seen = this.nodes;
    yield* problem.labelAt === null
      ? this.byLabel(state, left)
      : this.byPosition(state, left, problem.labelAt);
    if (this.found === null && this.nodes < this.mostNodes) this.remember(state);
    if (this.nodes - seen > STRETCH) yield null;
  }

  private isOpen(state: State, left: readonly number[]): boolean {
    const { floor } = this.problem;
    if (left.some((block) => floor.last[block]! < state.position)) return false;
    const rest = this.bounds.of(left);
    const least = { people: state.people + rest.people, stations: state.stations + rest.stations };
    if (!isCheaper(least, this.ceiling, "people")) return false;
    const stationsLeft = Math.max(0, this.mostStations() - state.stations);
    const moves = state.moves + leastMoves(this.problem, left, state.nextLabel, stationsLeft);
    if (moves > this.allowed) {
      this.nextAllowed = Math.min(this.nextAllowed, moves);
      return false;
    }
    return !this.hasFailed(state);
  }

  /** Every station has somebody, so no plan below the ceiling has more stations than people. */
  private mostStations(): number {
    return this.ceiling.people;
  }

  private *byLabel(state: State, left: readonly number[]): Generator<null> {
    for (let label = state.nextLabel; label < this.problem.labels; label++) {
      const moves = state.moves + this.passing(left, state.nextLabel, label);
      if (this.isBeyond(moves)) break;
      yield* this.fill({ ...state, moves }, left, label, label + 1);
      if (this.found !== null || this.nodes >= this.mostNodes) return;
    }
    yield* this.fill(state, left, -1, state.nextLabel);
  }

  private *byPosition(state: State, left: readonly number[], labelAt: readonly number[]): Generator<null> {
    const label = labelAt[state.position] ?? -1;
    const next = label < 0 ? state.nextLabel : label + 1;
    yield* this.fill(state, left, label, next);
    if (this.found !== null || this.nodes >= this.mostNodes) return;
    if (state.position + 1 >= this.problem.floor.positions) return;
    const moves = state.moves + (label < 0 ? 0 : this.passing(left, label, label + 1));
    if (this.isBeyond(moves)) return;
    if (label < 0 && !this.mayLeaveEmpty(state, left)) return;
    yield* this.go({
      ...state,
      moves,
      nextLabel: next,
      position: state.position + 1,
      station: null,
      parent: state,
    });
  }

  /** An empty position is of use only where something may stand later but not here. */
  private mayLeaveEmpty(state: State, left: readonly number[]): boolean {
    const { floor } = this.problem;
    if (state.position < floor.kinds.length - 1 || state.nextLabel < this.problem.labels) return true;
    const isWaiting = floor.waits.some(
      ({ to, stations }, at) =>
        left.includes(to) && state.waiting[at]! >= 0 && state.position - state.waiting[at]! < stations,
    );
    return isWaiting || left.some((block) => floor.first[block]! > state.position);
  }

  private isBeyond(moves: number): boolean {
    if (moves <= this.allowed) return false;
    this.nextAllowed = Math.min(this.nextAllowed, moves);
    return true;
  }

  /** What the tasks left at stations that are given up cost. */
  private passing(left: readonly number[], from: number, to: number): number {
    let cost = 0;
    for (let label = from; label < to; label++) {
      for (const block of left) cost += costOfPassing(this.problem, block, label);
    }
    return cost;
  }

  private *fill(state: State, left: readonly number[], label: number, nextLabel: number): Generator<null> {
    const { floor } = this.problem;
    const mayStart = (block: number) =>
      floor.waits.every(
        ({ to, stations }, at) =>
          to !== block || (state.waiting[at]! >= 0 && state.position - state.waiting[at]! >= stations),
      );
    const { loads } = this;
    const before = loads.steps;
    const ahead = label < 0 ? state.nextLabel : label;
    const found = loads.list(
      state.position,
      state.inUse,
      left,
      mayStart,
      label,
      ahead,
      this.allowed - state.moves,
    );
    this.nodes += loads.steps - before + 1;
    if (loads.cutOff < Number.POSITIVE_INFINITY)
      this.nextAllowed = Math.min(this.nextAllowed, state.moves + loads.cutOff);
    for (const load of found) {
      if (this.nodes >= this.mostNodes) return;
      const next = this.place(state, load.blocks, load.cost, label, nextLabel);
      if (next === null) continue;
      yield* this.go(next);
      if (this.found !== null) return;
    }
  }

  private place(
    state: State,
    blocks: readonly number[],
    cost: number,
    label: number,
    nextLabel: number,
  ): State | null {
    const { floor } = this.problem;
    const closed = this.loads.close(state.position, state.inUse, blocks);
    if (closed === null) return null;
    const { places, crew, equipment } = closed;
    const set = state.set.slice();
    for (const block of blocks) set[block >>> 5]! |= 1 << (block & 31);
    const needs =
      floor.skills === null ? 0n : blocks.reduce((all, block) => all | floor.skills!.needs[block]!, 0n);
    const skills = needs === 0n ? state.skills : [...state.skills, ...Array<bigint>(places).fill(needs)];
    if (floor.skills !== null && !mayBeStaffed(skills, floor.skills.people)) return null;
    return {
      set,
      nextLabel,
      position: state.position + 1,
      people: state.people + places * crew,
      stations: state.stations + 1,
      moves: state.moves + cost,
      inUse: state.inUse.map((used, at) => used + equipment[at]!),
      waiting: state.waiting.map((at, wait) =>
        blocks.includes(floor.waits[wait]!.from) ? state.position : at,
      ),
      skills,
      parent: state,
      station: { label, position: state.position, blocks, places, crew },
    };
  }

  private keyOf({ set, nextLabel, position, skills, waiting, inUse }: State): string {
    const where = this.problem.floor.isPositional ? position : 0;
    return `${set.join()}|${nextLabel}|${where}|${waiting.join()}|${inUse.join()}|${skills.join()}`;
  }

  /** A state as cheap, with no more moves, led nowhere. */
  private hasFailed(state: State): boolean {
    const known = this.failed.get(this.keyOf(state)) ?? [];
    return known.some(
      (other) =>
        other.moves <= state.moves && other.people <= state.people && other.stations <= state.stations,
    );
  }

  private remember(state: State): void {
    const key = this.keyOf(state);
    const known = this.failed.get(key) ?? [];
    if (known.length < MOST_KNOWN) this.failed.set(key, [...known, state]);
  }
}

const MOST_KNOWN = 20;
const STRETCH = 5_000;

function stationsOf(last: State): LabelledStation[] {
  const plan: LabelledStation[] = [];
  for (let state: State | null = last; state !== null; state = state.parent) {
    if (state.station !== null) plan.unshift(state.station);
  }
  return plan;
}
