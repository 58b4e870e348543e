import Table from "cli-table3";
import stringWidth from "string-width";
import { wrapText } from "./wrap-text.js";

export interface Column {
  readonly head: string;
  readonly align?: "left" | "right";
  /** The one column that takes the room that is left, and wraps. */
  readonly wraps?: boolean;
}

/** Spaces before a table and between its columns. */
const INDENT = "  ";
const GAP = "  ";
/** A wrapping column never gets narrower than this, however narrow the terminal. */
const NARROWEST = 16;

const NO_LINES = {
  top: "",
  "top-mid": "",
  "top-left": "",
  "top-right": "",
  bottom: "",
  "bottom-mid": "",
  "bottom-left": "",
  "bottom-right": "",
  left: INDENT,
  "left-mid": "",
  mid: "",
  "mid-mid": "",
  right: "",
  "right-mid": "",
  middle: GAP,
};

/**
 * A table without lines, for a width in columns. Cells are plain text; `paint` may colour a finished cell line without
 * changing its width.
 */
export function formatTable(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width: number,
  paint: (text: string, row: number, column: number) => string = (text) => text,
): string {
  const heads = columns.some((column) => column.head !== "") ? [columns.map((column) => column.head)] : [];
  const wrapped = wrapRows(columns, [...heads, ...rows], width);
  const table = new Table({
    chars: NO_LINES,
    style: { head: [], border: [], "padding-left": 0, "padding-right": 0, compact: true },
    colAligns: columns.map((column) => column.align ?? "left"),
  });
  table.push(
    ...wrapped.map((cells, row) =>
      cells.map((lines, column) =>
        lines.map((line) => (line === "" ? "" : paint(line, row - heads.length, column))).join("\n"),
      ),
    ),
  );
  return withoutTrailingSpace(table.toString());
}

function wrapRows(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width: number,
): string[][][] {
  const widest = columns.map((_, at) => Math.max(0, ...rows.map((row) => stringWidth(row[at] ?? ""))));
  const fixed = columns.reduce((sum, column, at) => sum + (column.wraps ? 0 : widest[at]!), 0);
  const room = width - INDENT.length - GAP.length * (columns.length - 1) - fixed;
  return rows.map((row) =>
    columns.map((column, at) =>
      column.wraps ? wrapText(row[at] ?? "", Math.max(NARROWEST, room)) : [row[at] ?? ""],
    ),
  );
}

function withoutTrailingSpace(text: string): string {
  return `${text
    .split("\n")
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colour codes may follow the last letter
    .map((line) => line.replace(/[ ]+((?:\u001b\[\d+m)*)$/u, "$1"))
    .join("\n")}\n`;
}
