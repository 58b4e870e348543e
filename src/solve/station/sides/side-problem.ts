/** A wide product worked from both sides; by task number of the line. */
export interface SideProblem {
  readonly sides: readonly WorkSide[];
  /** Share of units x time of each task on them, a row for every model and every kind of its units. Each row is worked off by itself. */
  readonly rows: readonly (readonly number[])[];
  /** The model of each row; 0 on a line that builds one. */
  readonly modelOf: readonly number[];
  /** Whether units of a model are in the mix: one with a share of 0 counts with a share of 1, and only towards its own limit. */
  readonly isBuilt: readonly boolean[];
  /** For each model its share x time of the work done again, by task: it holds both sides, and comes on top of all ends. */
  readonly again: readonly (readonly number[])[];
  readonly before: readonly (readonly number[])[];
}

/** When the last task of a station may end. */
export interface SideLimits {
  /** On average of all units. */
  readonly mean: number;
  /** For the rows of each model together; endless where models are held on average only. */
  readonly models: readonly number[];
}

/** "both": two people, one at each side, busy at the same time. */
export type WorkSide = "left" | "right" | "either" | "both";

/** Tasks in order of work, with the side of each. */
export interface SideSchedule {
  readonly tasks: readonly number[];
  readonly sides: readonly ("left" | "right" | "both")[];
  /** The station time: the sum over all models. */
  readonly finish: number;
  /** Share x station time of each model: the sum of the ends of its rows, and its work done again. */
  readonly ends: readonly number[];
  /** Sides in use. */
  readonly crew: number;
}

/** What all units take on average, of what each model takes x its share. */
export function overAll({ isBuilt }: SideProblem, byModel: readonly number[]): number {
  return byModel.reduce((sum, each, model) => (isBuilt[model] ? sum + each : sum), 0);
}
