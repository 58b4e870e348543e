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
  /** What a station can be filled to: the limit without the rest that no sum of task times fills. */
  readonly limit: number;
  /** How the stations on either side are counted; each step follows those that it rests on, that of the task is the last. */
  readonly before: readonly ChainStep[];
  readonly after: readonly ChainStep[];
}

/**
 * How much must lie on one side of a task, between it and the end of the line on that side: work, in the units of the limit, whole
 * stations counted as full. Nothing is said of tasks without a step. By the work of some tasks on that side and what lies beyond
 * every one of them (`beyond`), rounded up to whole stations where the station begun has no room for the task itself; or by the
 * stations that the task and all tasks on that side need.
 */
export type ChainStep =
  | {
      readonly by: "work";
      readonly task: number;
      readonly lies: number;
      readonly tasks: readonly number[];
      readonly beyond: number;
    }
  | {
      readonly by: "packing";
      readonly task: number;
      readonly lies: number;
      readonly packing: BinPackingBound;
    };

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
