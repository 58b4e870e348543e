import type { Bound } from "../bounds/bound.js";
import type { Aim, Cost } from "../cost.js";
import type { Stations } from "../problem.js";
import type { BlockPlan, FilledStation, Work } from "../work.js";
import type { CycleGrid } from "./cycle-grid.js";

/** A work of which the least cycle is looked for, whatever else is asked of its stations. Cycles are whole steps of its own. */
export interface CycleProblem {
  readonly grid: CycleGrid;
  /** Only plans cheaper than that count. */
  readonly ceiling: Cost;
  readonly aim: Aim;
  /** No plan has a shorter cycle, as the work alone says. */
  readonly least: bigint;
  /** The work where no station has a longer cycle. */
  workAt(cycle: bigint): Work;
  /** The cycle of a plan that was found at this one; null where it was found at none. */
  cycleOf(plan: BlockPlan, at: bigint | null): bigint;
  /** The same of one station. */
  cycleOfStation(station: FilledStation, at: bigint | null): bigint;
  /** The time of stations by itself; null where places or sides share it. */
  readonly time: StationTimes | null;
  /** Where stations are more than a sum of times: what they are at the least by sums of times; null where that is not known. */
  readonly atLeast: CyclesAtLeast | null;
}

/** A plain line that bounds a work: every plan of the work is a plan of it, with a cycle that is no longer. */
export interface CyclesAtLeast {
  readonly problem: CycleProblem;
  /** A plan of the work as one of the line. */
  plainPlan(plan: BlockPlan): BlockPlan;
  /** The other way round; null where the rules of the work forbid that. */
  planOf(plain: BlockPlan): BlockPlan | null;
  /** The cycle of the work that one of the line stands for. */
  cycleOf(plain: bigint): bigint;
}

/** A work by time and precedence alone; its units are tasks, or blocks of them that stand together. */
export interface StationTimes {
  readonly times: readonly number[];
  readonly before: readonly (readonly number[])[];
  /** Nothing else is asked of stations: any stations of the units are a plan. */
  readonly isAll: boolean;
  /** The most that a station may take at a cycle. */
  limitAt(cycle: bigint): number;
  /**
   * A plan with these stations; null where the rules of the work forbid it.
   *
   * @param positions of the stations; null: one after the other
   */
  planOf(stations: Stations, positions: readonly number[] | null): BlockPlan | null;
  /** The units of each station. */
  stationsOf(plan: BlockPlan): Stations;
  /**
   * Whether units may stand at stations of these positions, given by their places in the list; null where they always may.
   *
   * @param cycle that must be kept, too; null: none
   */
  rulesAt(positions: readonly number[], cycle: bigint | null): PlanRules | null;
}

/** Whether a plan keeps what else is asked of it, by the station of each unit; it kept that before some stations were changed. */
export type PlanRules = (stationOf: ArrayLike<number>, changed: readonly number[]) => boolean;

/** Why no plan has a shorter cycle than this. */
export type CycleBound =
  | { readonly kind: "work"; readonly cycle: bigint }
  /** At the shorter cycle a bound asks for more stations than there may be; no cycle lies between. */
  | { readonly kind: "stations"; readonly cycle: bigint; readonly shorter: bigint; readonly bound: Bound }
  /** At the shorter cycle every plan was ruled out; no cycle lies between. */
  | { readonly kind: "search"; readonly cycle: bigint; readonly shorter: bigint; readonly nodes: number };

/** The most stations of a plan that counts. */
export const mostStations = ({ ceiling, aim }: Pick<CycleProblem, "ceiling" | "aim">): number =>
  aim[0] === "stations" ? ceiling.stations - 1 : Math.max(ceiling.people, ceiling.stations - 1);
