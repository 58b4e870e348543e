import type { FloorCase } from "../tools/floor-random-line.js";
import type { ProgrammeText } from "./floor-programme-text.js";

/** A line on its way into a programme: its positions, and names of variables. */
export interface Programme {
  readonly given: FloorCase;
  readonly text: ProgrammeText;
  /** Seconds of each task. */
  readonly loads: readonly number[];
  readonly positions: readonly Position[];
  /** 1 where the task stands at the position. */
  readonly x: (task: number, at: number) => string;
}

/** A position, with every number of places and crew that a station there may have. */
export interface Position {
  readonly at: number;
  readonly staffings: readonly Staffing[];
  /** Share of the working time that may be loaded. */
  readonly planTo: number;
  /** Seconds of handling beyond that of one pass. */
  readonly handledAgain: string;
}

export interface Staffing {
  readonly places: number;
  readonly crew: number;
  /** 1 where the station is staffed like this. */
  readonly name: string;
  /** Seconds of work of a place per unit, up to the limit and up to the whole working time. */
  readonly limit: number;
  readonly working: number;
}
