import { PeopleBound } from "../../solve/bounds/people-bound.js";
import { type Cost, isCheaper } from "../../solve/cost.js";
import { OpenStation } from "../../solve/station/open-station.js";
import { type MoveLoad, MoveLoads } from "./move-loads.js";
import type { LabelledStation, MoveProblem } from "./move-problem.js";
import { costOfGivenUp, type MoveState, placeLoad, startState, startsAt, stationsOf } from "./move-state.js";
import { blocksLeft, leastMoves } from "./rest-of-moves.js";

/** Partial plans kept after each station. */
const WIDTH = 60;
/** Loads of one station that each of them goes on with. */
const BRANCHES = 16;
/** Loads listed for one station before the cheapest are taken. */
const LISTED = 400;
/** Blocks taken while loads of one station are listed. */
const MOST_STEPS = 4_000;
/** Moves that a whole station of idle time is worth, one search for each: idle time is what a tight line cannot spare. */
const WEIGHTS = [0, 1, 3, 8];

/**
 * A plan below the ceiling with few moves, where one is found: station by station only the most promising partial plans are kept (a
 * beam), once for each weight of idle time against moves. Proves nothing: the search for the fewest moves does that.
 *
 * @param most plans that cost as much or more are not looked for
 */
export function fewMoves(
  problem: MoveProblem,
  ceiling: Cost,
  most: number,
): readonly LabelledStation[] | null {
  const beam = new Beam(problem, ceiling, most);
  for (const weight of WEIGHTS) beam.run(weight);
  return beam.best;
}

interface Candidate {
  readonly state: MoveState;
  readonly score: number;
}

class Beam {
  best: readonly LabelledStation[] | null = null;
  private readonly loads: MoveLoads;
  private readonly bounds: PeopleBound;
  /** The load of a full station. */
  private readonly full: number;

  constructor(
    private readonly problem: MoveProblem,
    private readonly ceiling: Cost,
    private most: number,
  ) {
    this.loads = new MoveLoads(problem, new OpenStation(problem.floor), MOST_STEPS);
    this.bounds = new PeopleBound(problem.floor);
    this.full = Math.max(1, ...problem.floor.kinds.map(({ limits }) => limits[0]!));
  }

  run(weight: number): void {
    let kept: MoveState[] = [startState(this.problem)];
    for (let depth = 0; depth < this.problem.floor.positions && kept.length > 0; depth++) {
      const next = new Map<string, Candidate>();
      for (const state of kept) {
        for (const child of this.childrenOf(state, weight)) {
          const key = `${child.state.set.join()}|${child.state.nextLabel}`;
          const known = next.get(key);
          if (known === undefined || child.score < known.score) next.set(key, child);
        }
      }
      kept = [...next.values()]
        .sort((one, two) => one.score - two.score)
        .slice(0, WIDTH)
        .map(({ state }) => state);
    }
  }

  private childrenOf(state: MoveState, weight: number): Candidate[] {
    const { problem } = this;
    const left = blocksLeft(problem.floor, state.set);
    const { labelAt } = problem;
    if (labelAt !== null) {
      const label = labelAt[state.position] ?? -1;
      const next = label < 0 ? state.nextLabel : label + 1;
      return [
        ...this.filled(state, left, label, next, weight),
        ...this.leftEmpty(state, left, label, weight),
      ];
    }
    const found = this.filled(state, left, -1, state.nextLabel, weight);
    for (let label = state.nextLabel; label < problem.labels; label++) {
      const moves = state.moves + costOfGivenUp(problem, left, state.nextLabel, label);
      if (moves >= this.most) break;
      found.push(...this.filled({ ...state, moves }, left, label, label + 1, weight));
    }
    return found;
  }

  /** A position of the floor at which nothing is done. */
  private leftEmpty(state: MoveState, left: readonly number[], label: number, weight: number): Candidate[] {
    const isOnFloor = state.position < this.problem.floor.kinds.length - 1;
    if (!isOnFloor && state.nextLabel >= this.problem.labels) return [];
    const moves = state.moves + (label < 0 ? 0 : costOfGivenUp(this.problem, left, label, label + 1));
    const next: MoveState = {
      ...state,
      moves,
      nextLabel: label < 0 ? state.nextLabel : label + 1,
      position: state.position + 1,
      parent: state,
      station: null,
    };
    return this.judge(next, weight);
  }

  private filled(
    state: MoveState,
    left: readonly number[],
    label: number,
    nextLabel: number,
    weight: number,
  ): Candidate[] {
    const scored = this.listLoads(state, left, label).map((load) => ({
      load,
      score: load.cost - (weight * this.timeOf(load.blocks)) / this.full,
    }));
    return scored
      .sort((one, two) => one.score - two.score)
      .slice(0, BRANCHES)
      .flatMap(({ load }) => placeLoad(this.problem, this.loads, state, load, label, nextLabel))
      .flatMap((next) => this.judge(next, weight));
  }

  /** Loads in the order of their cost, until there are enough; the fullest come first among equals. */
  private listLoads(state: MoveState, left: readonly number[], label: number): readonly MoveLoad[] {
    const { loads, problem } = this;
    const ahead = label < 0 ? state.nextLabel : label;
    const mayStart = startsAt(problem, state);
    let found: readonly MoveLoad[] = [];
    for (let allowed = 0; state.moves + allowed < this.most; allowed = loads.cutOff) {
      found = loads.list(state.position, state.inUse, left, mayStart, label, ahead, allowed);
      if (found.length >= LISTED || loads.isCutShort || loads.cutOff === Number.POSITIVE_INFINITY) break;
    }
    return found;
  }

  /** None where the partial plan leads to no plan that is wanted; a whole plan is kept aside. */
  private judge(state: MoveState, weight: number): Candidate[] {
    const { problem, ceiling } = this;
    const left = blocksLeft(problem.floor, state.set);
    if (left.length === 0) {
      const isWanted = isCheaper(state, ceiling, "people") && state.moves < this.most;
      if (isWanted) [this.best, this.most] = [stationsOf(state), state.moves];
      return [];
    }
    if (left.some((block) => problem.floor.last[block]! < state.position)) return [];
    const rest = this.bounds.of(left);
    const least = { people: state.people + rest.people, stations: state.stations + rest.stations };
    if (!isCheaper(least, ceiling, "people")) return [];
    const stationsLeft = Math.max(0, ceiling.people - state.stations);
    const moves = state.moves + leastMoves(problem, left, state.nextLabel, stationsLeft);
    if (moves >= this.most) return [];
    const done = problem.floor.loads.reduce((sum, load) => sum + load, 0) - this.timeOf(left);
    return [{ state, score: moves + (weight * (state.people * this.full - done)) / this.full }];
  }

  private timeOf(blocks: readonly number[]): number {
    return blocks.reduce((sum, block) => sum + this.problem.floor.loads[block]!, 0);
  }
}
