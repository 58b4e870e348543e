import type { Finding } from "../findings/finding.js";
import type { LineReading } from "../line/read-line.js";
import type { DecimalMark } from "../table/decimal-mark.js";
import type { Cell, Understood } from "../table/table.js";
import type { Ratio } from "../time/ratio.js";
import type { Micros, TimeUnit } from "../time/units.js";
import { FURTHER_KEYS, type TaskColumns } from "./task-columns.js";

/** Keys of a task that are taken over as text; the line file judges what they hold. */
export const TEXT_KEYS = ["name", ...FURTHER_KEYS] as const;
export type TextKey = (typeof TEXT_KEYS)[number];

/** How many of each part, as typed. */
export type Pieces = ReadonlyMap<string, string>;

/** A value of a task, one word or several or parts with their numbers, and the cell that it stands in. */
export interface CellValue {
  readonly text: string | readonly string[] | Pieces;
  readonly cell: Cell;
}

/** The time of one piece of a task, or that of one model. */
export interface ImportedTime {
  /** Null where one time is for all models. */
  readonly model: string | null;
  /** As a line file takes it, and in microseconds: "-" and null where the model does not have the task. */
  readonly text: string;
  readonly micros: Micros | null;
  readonly cell: Cell;
}

/** A task of a table. */
export interface ImportedTask {
  readonly id: string;
  /** One, or one for each model that has a column. */
  readonly times: readonly [ImportedTime, ...ImportedTime[]];
  /** Ids of the tasks directly before it, in the order of the table. */
  readonly after: readonly string[];
  readonly texts: ReadonlyMap<TextKey, CellValue>;
  readonly cells: { readonly id: Cell; readonly after: Cell };
}

/** Tasks of a table and how the table was understood. */
export interface ImportedTasks {
  readonly file: string;
  readonly tasks: readonly ImportedTask[];
  readonly columns: TaskColumns;
  /** Of bare numbers, and where that comes from; null where no number is bare. */
  readonly unit: { readonly unit: TimeUnit; readonly from: "heading" | "option" } | null;
  readonly decimalMark: DecimalMark["mark"];
  /** Models that have columns of times; empty where one time is for all. */
  readonly models: readonly string[];
  /** Of one piece of every task together, in the order of the models. */
  readonly totals: readonly Ratio[];
  /** What orders of work have added to the order of the table; null where none were given. */
  readonly orders: { readonly units: number; readonly precedences: number } | null;
  /** Ids of the tasks that nothing comes before, and of those that nothing comes after. */
  readonly starts: readonly string[];
  readonly ends: readonly string[];
  readonly table: Understood;
}

export interface TasksReading {
  /** Null where an error keeps the table from being a list of tasks. */
  readonly imported: ImportedTasks | null;
  readonly findings: readonly Finding[];
  /**
   * What the reader of line files makes of these tasks alone, told at the cells of the table; the line is null where they are none. It takes as
   * long as a line file does, so whoever reads them in a line anyway asks only where that has findings.
   */
  asLine(): Omit<LineReading, "document">;
}
