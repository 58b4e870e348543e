import type { Finding, Place } from "../findings/finding.js";
import type { Understood } from "../table/table.js";
import type { TimeUnit } from "../time/duration.js";
import type { Ratio } from "../time/ratio.js";
import type { Micros } from "../time/units.js";

/** One reading of a stopwatch as it was taken down. */
export interface TakenReading {
  /** What the watch showed; null where only a mark stands, as for a reading that was missed. */
  readonly shown: Micros | null;
  /** Marked as foreign to the work. */
  readonly isMarked: boolean;
  /** Of this reading or its element; null where nothing is said. */
  readonly rating: Ratio | null;
  readonly observer: string | null;
  /** The cycle it belongs to and its turn in it: what the watch showed before is the reading before. */
  readonly cycle: number;
  readonly turn: number;
  readonly place: Place;
  /** Where people find it, as in "row 3, column D". */
  readonly address: string;
}

/** An element of the work, with its readings in the order in which they were taken down. */
export interface ReadElement {
  /** As typed. */
  readonly name: string;
  /** The task it is a part of; the element is the task where nothing is said. */
  readonly task: string | null;
  /** Done on every so many units only; 1 is every unit. */
  readonly every: number;
  readonly place: Place;
  readonly readings: readonly TakenReading[];
}

/** A file of readings. */
export interface Readings {
  readonly file: string;
  readonly elements: readonly ReadElement[];
  /** What bare numbers are in, where one unit is given for all. */
  readonly unit: TimeUnit | null;
  readonly decimalMark: "," | "." | null;
  /** What was understood of the table; null for YAML. */
  readonly table: Understood | null;
  /** How the file is laid out. */
  readonly layout: "row an element" | "row a reading" | "YAML";
}

export interface ReadingsReading {
  /** Null where an error keeps the file from being read. */
  readonly readings: Readings | null;
  readonly findings: readonly Finding[];
  /** The text that findings underline; null for a workbook. */
  readonly source: string | null;
}

/** What the command line says of a file of readings. */
export interface ReadingsOptions {
  readonly unit: TimeUnit | null;
  /** What is written beside a reading that is foreign to the work. */
  readonly leaveOut: string | null;
  /** What decimals take in a table; null for what its cells show. */
  readonly decimals?: "," | "." | null;
}
