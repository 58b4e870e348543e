import type { Cost } from "../cost.js";
import type { BlockPlan, FilledStation, Work } from "../work.js";

/** A partial plan: the blocks of the stations up to a position. */
export interface State extends Cost {
  readonly set: Int32Array;
  /** The next position to fill. */
  readonly position: number;
  /** Counted equipment in use. */
  readonly inUse: readonly number[];
  /** Where the first block of each wait stands; -1 where it is not placed. */
  readonly waiting: readonly number[];
  /** Skill sets that the stations so far need, one for each place, sorted. */
  readonly skills: readonly bigint[];
  readonly parent: State | null;
  readonly station: FilledStation | null;
  /** The state with the same blocks that this one comes from by leaving positions empty; the state itself where none were. */
  origin: State | null;
  number: number;
  /** How many blocks the walk through its loads may take before it is put off. */
  width: number;
  isDominated: boolean;
}

/** The stations that lead to a partial plan. */
export function planOf(last: State): BlockPlan {
  const plan: FilledStation[] = [];
  for (let state: State | null = last; state !== null; state = state.parent) {
    if (state.station !== null) plan.unshift(state.station);
  }
  return plan;
}

export function hashOf(set: Int32Array): number {
  let hash = 0x811c9dc5;
  for (const word of set) hash = Math.imul(hash ^ word ^ (word >>> 15), 0x01000193);
  return hash >>> 0;
}

/** Time of each block and of all that come after it. */
export function positionalWeightsOf(problem: Work): Float64Array {
  const weights = new Float64Array(problem.size);
  const followers: Set<number>[] = problem.loads.map(() => new Set());
  for (let block = problem.size - 1; block >= 0; block--) {
    for (const later of problem.after[block]!) {
      followers[block]!.add(later);
      for (const each of followers[later]!) followers[block]!.add(each);
    }
    weights[block] = problem.loads[block]!;
    for (const each of followers[block]!) weights[block]! += problem.loads[each]!;
  }
  return weights;
}
