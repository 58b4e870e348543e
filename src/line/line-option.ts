import type { Place } from "../findings/finding.js";
import type { Calendar } from "../time/calendar.js";
import type { Demand } from "../time/demand.js";
import type { Micros } from "../time/duration.js";
import type { Ratio } from "../time/ratio.js";
import type { Bench } from "./bench.js";

/** A named change of the line, to be compared with it; what is null or empty stays as the line has it. */
export interface LineOption {
  readonly name: string;
  /** What is built at benches instead of on the line; no task is at two of them. */
  readonly offLine: readonly Bench[];
  readonly demand: Demand | null;
  readonly calendar: Calendar | null;
  readonly uptime: Ratio | null;
  readonly yield: Ratio | null;
  readonly handling: Micros | null;
  readonly planTo: Ratio | null;
  readonly maxPlaces: number | null;
  /** A fixed number of stations; their shortest cycle then sets the pace. */
  readonly stations: number | null;
  /** Times of one piece by task number, for every model that has the task. */
  readonly times: ReadonlyMap<number, Micros>;
  readonly tables: Tables | null;
  /** Free words, shown beside the figures. */
  readonly note: string | null;
  readonly place: Place;
}

/** Whole units built by single people in place of a line. */
export interface Tables {
  readonly people: number;
  /** Walking of one person for one unit, beside that of the tasks. */
  readonly walking: Micros;
}

/** What hours cost, in one currency. */
export interface Rates {
  readonly personHour: Ratio;
  /** An hour of one bench place or table; 0 when the file is silent. */
  readonly benchHour: Ratio;
  /** Pay of an hour of overtime as a share of that of any other hour, 1 or more. */
  readonly overtime: Ratio;
  /** As typed; null where the file does not name it. */
  readonly currency: string | null;
}

/** The name under which a line is compared as its file has it; no option may bear it. */
export const AS_IT_IS = "as it is";
