import type { Place } from "../findings/finding.js";
import type { Calendar } from "../time/calendar.js";
import type { Demand } from "../time/demand.js";
import type { Micros, TimeUnit } from "../time/duration.js";
import type { Ratio } from "../time/ratio.js";

/** One hand task of the line; indivisible. */
export interface Task {
  /** As typed in the file; unique after trimming and Unicode NFC. */
  readonly id: string;
  readonly name: string | null;
  /** Time of one piece. */
  readonly pieceTime: Micros;
  /** Pieces per unit, a whole number from 1. */
  readonly quantity: number;
  /** Task time: time of one piece x quantity. */
  readonly time: Micros;
  /** Said to work on the base unit (`on-base: true`). */
  readonly onBase: boolean;
  /** Words of caution, printed wherever the task is handed to people. */
  readonly caution: string | null;
  /** Mass lifted by hand as typed, such as "27 kg"; shown with a caution, never judged. */
  readonly lift: string | null;
  readonly place: Place;
}

/** A line file, read and checked: everything below may rely on it being sound. */
export interface Line {
  /** The path the line was read from, as the user gave it. */
  readonly file: string;
  readonly name: string;
  /** What a bare number means in task times, handling and `--cycle`; null when the file gives no unit. */
  readonly unit: TimeUnit | null;
  readonly demand: Demand | null;
  readonly calendar: Calendar | null;
  /** Shares from above 0 to 1; 1 when the file is silent. */
  readonly uptime: Ratio;
  readonly yield: Ratio;
  readonly planTo: Ratio;
  /** Time per unit and station lost to moving and positioning. */
  readonly handling: Micros;
  /** The pace keys that the file spells out, in the order of the table of keys. */
  readonly given: readonly PaceKey[];
  /** In natural order of ids; every number of a task is its index here. */
  readonly tasks: readonly Task[];
  /** For each task the tasks directly before it, from `after` and `chains`, ascending, without doubles; no loops. */
  readonly before: readonly (readonly number[])[];
}

/** Keys that set the pace and that `--cycle` sets aside. */
export const PACE_KEYS = ["demand", "calendar", "uptime", "yield", "handling", "plan-to"] as const;
export type PaceKey = (typeof PACE_KEYS)[number];
