import type { Line } from "../line/line.js";
import type { Demand } from "../time/demand.js";
import type { Ratio } from "../time/ratio.js";
import type { TimeUnit } from "../time/units.js";
import { fromParts } from "./parts.js";
import type { Checkpoint } from "./search/fewest-stations.js";

/** People or stations, what moves cost, or a time in microseconds with the unit of its line. */
export type Amount =
  | number
  | { readonly moves: number }
  | { readonly time: Ratio; readonly unit: TimeUnit | null };

/** What is searched where that is not the line itself, or not all that is asked of it. */
export type SearchPart =
  | "even-loads"
  | "reasons"
  | "moves"
  | "slower-pace"
  | "equipment"
  | "where-line-pays"
  | "questions"
  /** So many stations, sets of so many blocks, one block of so many, one demand of a range. */
  | { readonly stations: number }
  | { readonly sets: number }
  | { readonly block: number; readonly of: number }
  | { readonly demand: Demand };

/** How far a search is. */
export interface Progress {
  readonly nodes: number;
  /** "none" as long as no plan stands; null where nothing is counted. */
  readonly best: Amount | "none" | null;
  readonly bound: Amount | null;
  /** The line itself where left out. */
  readonly what?: SearchPart;
  /** The option of a comparison that is worked out, and its turn among so many where it has one. */
  readonly option?: {
    readonly name: string;
    readonly turn: { readonly at: number; readonly of: number } | null;
  };
}

/** A checkpoint of a command: asked now and then whether to go on. */
export type Watch = (progress: Progress) => ReturnType<Checkpoint>;

/** A checkpoint for a search whose best and bound are times in parts of a microsecond. */
export function watchTimes(line: Line, checkpoint: Watch, what: SearchPart): Checkpoint {
  const time = (parts: number) => ({ time: fromParts(line, parts), unit: line.unit });
  return ({ nodes, best, bound }) => checkpoint({ nodes, best: time(best), bound: time(bound), what });
}
