import type { Micros } from "./duration.js";
import type { Ratio } from "./ratio.js";

/** A named stretch of a shift that is taken off the available time, such as 3 changeovers of 10 min. */
export interface NamedTime {
  readonly name: string;
  readonly count: number;
  readonly each: Micros;
}

export interface Shift {
  readonly name: string;
  /** Clock times as typed; null where the file gives a length. */
  readonly from: string | null;
  readonly to: string | null;
  /** From start to end, over midnight where `to` is before `from`. */
  readonly gross: Micros;
  readonly breaks: readonly NamedTime[];
  readonly stops: readonly NamedTime[];
  readonly changeovers: readonly NamedTime[];
  readonly overtime: Micros;
}

export interface Calendar {
  /** One or more, in natural order of names. */
  readonly shifts: readonly Shift[];
  /** Counts as given; null where the file is silent. */
  readonly daysPerWeek: Ratio | null;
  readonly daysPerMonth: Ratio | null;
  readonly daysPerYear: Ratio | null;
  readonly weeksPerYear: Ratio | null;
}
