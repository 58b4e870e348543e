/** A wide product worked from both sides; by task number of the line. */
export interface SideProblem {
  readonly sides: readonly WorkSide[];
  /**
   * Share x load of each model, one row a model; the loads alone on a line that builds one. Each row is worked off by itself, and the
   * station time is the sum of the ends of all rows: the share-weighted mean of the ends of the models.
   */
  readonly rows: readonly (readonly number[])[];
  readonly before: readonly (readonly number[])[];
}

/** When the last task of a station may end. */
export interface SideLimits {
  /** For the sum of all rows. */
  readonly mean: number;
  /** For each row; endless where models are held on average only. */
  readonly rows: readonly number[];
}

/** "both": two people, one at each side, busy at the same time. */
export type WorkSide = "left" | "right" | "either" | "both";

/** Tasks in order of work, with the side and the start of each. */
export interface SideSchedule {
  readonly tasks: readonly number[];
  readonly sides: readonly ("left" | "right" | "both")[];
  /** The sum over all rows: each has starts of its own, in the same order. */
  readonly starts: readonly number[];
  /** The station time: the sum of the ends. */
  readonly finish: number;
  /** When the last task of each row ends. */
  readonly ends: readonly number[];
  /** Sides in use. */
  readonly crew: number;
}
