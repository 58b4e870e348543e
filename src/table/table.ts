import type { Encoding } from "../findings/decode-bytes.js";
import { type Finding, finding, type Place } from "../findings/finding.js";

/** One cell of a table. */
export interface Cell {
  /** What the file itself says that the cell is. A CSV file says so of nothing: all its cells are text. */
  readonly kind: "text" | "number" | "date" | "duration" | "yes-no";
  /**
   * Text as typed, formulas never worked out; a number in plain digits with a point; a date as 2026-03-05; a duration, which
   * spreadsheets keep as a time of day, as h:mm:ss; true or false.
   */
  readonly text: string;
  /** As a spreadsheet counts them, from 1. */
  readonly row: number;
  readonly column: number;
}

/** A row in which something is written, with its blank cells. */
export type Row = readonly Cell[];

/** What was understood of a file before any of its cells was looked at. */
export interface Understood {
  readonly kind: "csv" | "workbook";
  /** Null for a workbook. */
  readonly encoding: Encoding | null;
  /** Null for a workbook, and for a file of one column. */
  readonly delimiter: "," | ";" | "\t" | "|" | null;
  /** The sheet that was read, and those that were not. */
  readonly sheet: string | null;
  readonly otherSheets: readonly string[];
}

/** The cells of a file. */
export interface Table {
  readonly file: string;
  readonly understood: Understood;
  readonly rows: readonly Row[];
  /** The text that findings underline; null for a workbook. */
  readonly source: string | null;
  /** Where a cell stands for findings: in the text of a CSV file, by row and column in a workbook. */
  whereIs(cell: Cell): Place;
}

export interface TableReading {
  /** Null where a fault keeps the file from being a table. */
  readonly table: Table | null;
  readonly findings: readonly Finding[];
}

/** What a user may say of a table that cannot be told for sure. */
export interface TableOptions {
  readonly delimiter?: NonNullable<Understood["delimiter"]>;
  /** The first one with anything in it when left out. */
  readonly sheet?: string;
}

/** More would be no list that people keep. */
export const MOST_ROWS = 100_000;
export const MOST_COLUMNS = 1_000;
export const MOST_CELLS = 2_000_000;
/** Tasks of a line, which reads no more, and elements of a study. */
export const MOST_NAMED = 20_000;
/** Bytes of the file as it is given. */
export const LARGEST_FILE = 50_000_000;
/** Bytes of a workbook when it is unpacked. */
export const LARGEST_UNPACKED = 100_000_000;

/** The letters of a column as spreadsheets show them: A, Z, AA. */
export function columnLetters(column: number): string {
  let [rest, letters] = [column, ""];
  while (rest > 0) {
    const digit = (rest - 1) % 26;
    letters = String.fromCharCode(65 + digit) + letters;
    rest = (rest - 1 - digit) / 26;
  }
  return letters;
}

/** Where people find a cell in a spreadsheet, as in "row 4, column C". */
export const addressOf = ({ row, column }: Pick<Cell, "row" | "column">): string =>
  `row ${row}, column ${columnLetters(column)}`;

/** A finding about a cell, which says where people find it. */
export function findingAt(
  table: Table,
  cell: Cell,
  { rule, severity, message }: Pick<Finding, "rule" | "severity" | "message">,
): Finding {
  const said = `${addressOf(cell)}: ${message}`;
  return finding({ rule, severity, message: said, file: table.file, place: table.whereIs(cell) });
}
