import type { Cost } from "../../solve/cost.js";
import { mayBeStaffed } from "../../solve/station/staff-skills.js";
import type { MoveLoad, MoveLoads } from "./move-loads.js";
import { costOfPassing, type LabelledStation, type MoveProblem } from "./move-problem.js";

/** A partial plan with what its moves cost for certain. */
export interface MoveState extends Cost {
  /** Blocks placed, a bit each. */
  readonly set: Int32Array;
  /** The first label that is still ahead. */
  readonly nextLabel: number;
  readonly position: number;
  readonly moves: number;
  readonly inUse: readonly number[];
  /** Where the first task of each wait stands, -1 where it is not placed. */
  readonly waiting: readonly number[];
  readonly skills: readonly bigint[];
  readonly parent: MoveState | null;
  readonly station: LabelledStation | null;
}

export function startState({ floor }: MoveProblem): MoveState {
  return {
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
}

/** What the tasks left at stations that are given up cost. */
export function costOfGivenUp(
  problem: MoveProblem,
  left: readonly number[],
  from: number,
  to: number,
): number {
  let cost = 0;
  for (let label = from; label < to; label++) {
    for (const block of left) cost += costOfPassing(problem, block, label);
  }
  return cost;
}

/** Whether a block need not wait for a later station. */
export function startsAt({ floor }: MoveProblem, state: MoveState): (block: number) => boolean {
  return (block) =>
    floor.waits.every(
      ({ to, stations }, at) =>
        to !== block || (state.waiting[at]! >= 0 && state.position - state.waiting[at]! >= stations),
    );
}

/** The partial plan with one station more, once for each way to close it; none where it cannot close or be staffed. */
export function placeLoad(
  { floor }: MoveProblem,
  loads: MoveLoads,
  state: MoveState,
  { blocks, cost }: MoveLoad,
  label: number,
  nextLabel: number,
): MoveState[] {
  const set = state.set.slice();
  for (const block of blocks) set[block >>> 5]! |= 1 << (block & 31);
  const needs =
    floor.skills === null ? 0n : blocks.reduce((all, block) => all | floor.skills!.needs[block]!, 0n);
  return loads.closings(state.position, state.inUse, blocks).flatMap(({ places, crew, equipment }) => {
    const skills = needs === 0n ? state.skills : [...state.skills, ...Array<bigint>(places).fill(needs)];
    if (floor.skills !== null && !mayBeStaffed(skills, floor.skills.people)) return [];
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
  });
}

export function stationsOf(last: MoveState): LabelledStation[] {
  const plan: LabelledStation[] = [];
  for (let state: MoveState | null = last; state !== null; state = state.parent) {
    if (state.station !== null) plan.unshift(state.station);
  }
  return plan;
}
