/**
 * What a solver sees of a line: whole numbers only. Tasks are numbered from 0 in natural order of their ids, so
 * that "the smaller number" is the last tie-break everywhere.
 */
export interface StationProblem {
  /** Task times in whole units, 0 or more, none above `limit`; up to 2^53. */
  readonly times: readonly number[];
  /** The most that a station may hold, in the same units, above 0. */
  readonly limit: number;
  /** For each task, the tasks that must be done before it (direct arrows; no loops). */
  readonly before: readonly (readonly number[])[];
}

/** Tasks by station, in order of work; every task of the problem exactly once. */
export type Stations = readonly (readonly number[])[];
