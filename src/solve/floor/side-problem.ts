/** A wide product worked from both sides; by task number of the line. */
export interface SideProblem {
  readonly sides: readonly WorkSide[];
  readonly loads: readonly number[];
  /** Loads of each model; empty where models are held on average only. */
  readonly models: readonly (readonly number[])[];
  readonly before: readonly (readonly number[])[];
}

/** When the last task of a station may end. */
export interface SideLimits {
  readonly mean: number;
  /** For each model; endless where models are held on average only. */
  readonly model: number;
}

/** "both": two people, one at each side, busy at the same time. */
export type WorkSide = "left" | "right" | "either" | "both";

/** Tasks in order of their starts, with the side and the start of each. */
export interface SideSchedule {
  readonly tasks: readonly number[];
  readonly sides: readonly ("left" | "right" | "both")[];
  readonly starts: readonly number[];
  /** When the last task ends. */
  readonly finish: number;
  /** When the last task of the model that takes longest ends: each model has starts of its own, in the same order; 0 without models. */
  readonly longestModel: number;
  /** Sides in use. */
  readonly crew: number;
}
