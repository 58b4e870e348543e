/** What every bound says: at least so many stations, because of the tasks named (numbers of the station problem). */
interface Certificate<Kind extends string> {
  readonly kind: Kind;
  readonly stations: number;
  /** The tasks that the argument names, ascending. */
  readonly tasks: readonly number[];
}

/** The work content fills at least so many stations; `tasks` are all tasks with a time. */
export interface WorkContentBound extends Certificate<"work-content"> {
  readonly workContent: number;
  readonly limit: number;
}

/** No two tasks over half the limit share a station, and no three of exactly half. */
export interface LargeTasksBound extends Certificate<"large-tasks"> {
  readonly overHalf: readonly number[];
  readonly exactlyHalf: readonly number[];
}

/**
 * Shares of a station in sixths: a task over two thirds of the limit takes 6, of exactly two thirds 4, between the
 * thirds 3, of exactly one third 2. Together they take `sixths`.
 */
export interface ThirdsBound extends Certificate<"thirds"> {
  readonly overTwoThirds: readonly number[];
  readonly exactlyTwoThirds: readonly number[];
  readonly betweenThirds: readonly number[];
  readonly exactlyOneThird: readonly number[];
  readonly sixths: number;
}

/**
 * Tasks `alone` leave no room for a task of `threshold` or more, the other tasks `overHalf` leave `room` together, and
 * the tasks `filling` (from the threshold to half the limit) need `fillingWork`: what exceeds the room takes more stations.
 */
export interface BinPackingBound extends Certificate<"bin-packing"> {
  readonly threshold: number;
  readonly alone: readonly number[];
  readonly overHalf: readonly number[];
  readonly filling: readonly number[];
  readonly fillingWork: number;
  readonly room: number;
}

/** One task with the stations that must lie before its own station and after it. */
export interface ChainBound extends Certificate<"chain"> {
  readonly stationsBefore: number;
  readonly stationsAfter: number;
}

/** Every way to do with fewer stations was ruled out, in so many partial plans; names no task. */
export interface SearchBound extends Certificate<"search"> {
  readonly nodes: number;
}

/** A proved lower bound on the stations, with the facts an engineer needs to check it by hand. */
export type Bound =
  | WorkContentBound
  | LargeTasksBound
  | ThirdsBound
  | BinPackingBound
  | ChainBound
  | SearchBound;
