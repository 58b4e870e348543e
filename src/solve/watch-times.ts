import type { Line } from "../line/line.js";
import { showPartsOf } from "./parts.js";
import type { Checkpoint } from "./search/fewest-stations.js";

/** How far a search is; best and bound are stations, or times that are written out already. */
export interface Progress {
  readonly nodes: number;
  readonly best: number | string;
  readonly bound: number | string;
  /** What is searched where that is not the line itself. */
  readonly what?: string;
}

/** A checkpoint of a command: asked now and then whether to go on. */
export type Watch = (progress: Progress) => ReturnType<Checkpoint>;

/** A checkpoint for a search whose best and bound are times in parts of a microsecond, shown in the line's own unit. */
export function watchTimes(line: Line, checkpoint: Watch, what: string): Checkpoint {
  const show = showPartsOf(line);
  return ({ nodes, best, bound }) => checkpoint({ nodes, best: show(best), bound: show(bound), what });
}
