import { PeopleBound } from "../../solve/bounds/people-bound.js";
import { type Cost, isCheaper } from "../../solve/cost.js";
import { OpenStation } from "../../solve/station/open-station.js";
import { MoveLoads } from "./move-loads.js";
import type { LabelledStation, MoveProblem } from "./move-problem.js";
import { costOfGivenUp, type MoveState, placeLoad, startState, startsAt, stationsOf } from "./move-state.js";
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
  private readonly failed = new Map<string, MoveState[]>();
  private found: MoveState | null = null;
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
    const start = startState(this.problem);
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

  private *go(state: MoveState): Generator<null> {
    const { problem } = this;
    const left = blocksLeft(problem.floor, state.set);
    if (left.length === 0) {
      const moves = state.moves + costOfGivenUp(this.problem, [], state.nextLabel, problem.labels);
      // What came last may need more people than the bound on it said.
      if (moves <= this.allowed && isCheaper(state, this.ceiling, "people")) this.found = state;
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

  private isOpen(state: MoveState, left: readonly number[]): boolean {
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

  private *byLabel(state: MoveState, left: readonly number[]): Generator<null> {
    for (let label = state.nextLabel; label < this.problem.labels; label++) {
      const moves = state.moves + costOfGivenUp(this.problem, left, state.nextLabel, label);
      if (this.isBeyond(moves)) break;
      yield* this.fill({ ...state, moves }, left, label, label + 1);
      if (this.found !== null || this.nodes >= this.mostNodes) return;
    }
    yield* this.fill(state, left, -1, state.nextLabel);
  }

  private *byPosition(
    state: MoveState,
    left: readonly number[],
    labelAt: readonly number[],
  ): Generator<null> {
    const label = labelAt[state.position] ?? -1;
    const next = label < 0 ? state.nextLabel : label + 1;
    yield* this.fill(state, left, label, next);
    if (this.found !== null || this.nodes >= this.mostNodes) return;
    if (state.position + 1 >= this.problem.floor.positions) return;
    const moves = state.moves + (label < 0 ? 0 : costOfGivenUp(this.problem, left, label, label + 1));
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
  private mayLeaveEmpty(state: MoveState, left: readonly number[]): boolean {
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

  private *fill(
    state: MoveState,
    left: readonly number[],
    label: number,
    nextLabel: number,
  ): Generator<null> {
    const mayStart = startsAt(this.problem, state);
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
      for (const next of placeLoad(this.problem, this.loads, state, load, label, nextLabel)) {
        yield* this.go(next);
        if (this.found !== null) return;
      }
    }
  }

  private keyOf({ set, nextLabel, position, skills, waiting, inUse }: MoveState): string {
    const where = this.problem.floor.isPositional ? position : 0;
    return `${set.join()}|${nextLabel}|${where}|${waiting.join()}|${inUse.join()}|${skills.join()}`;
  }

  /** A state as cheap, with no more moves, led nowhere. */
  private hasFailed(state: MoveState): boolean {
    const known = this.failed.get(this.keyOf(state)) ?? [];
    return known.some(
      (other) =>
        other.moves <= state.moves && other.people <= state.people && other.stations <= state.stations,
    );
  }

  private remember(state: MoveState): void {
    const key = this.keyOf(state);
    const known = this.failed.get(key) ?? [];
    if (known.length < MOST_KNOWN) this.failed.set(key, [...known, state]);
  }
}

const MOST_KNOWN = 20;
const STRETCH = 5_000;
