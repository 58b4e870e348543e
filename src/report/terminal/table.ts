import stringWidth from "string-width";
import { wrapText } from "./wrap-text.js";

export interface Column {
  readonly head: string;
  readonly align?: "left" | "right";
  /** The one column that takes the room that is left, and wraps. */
  readonly wraps?: boolean;
  /** The fewest columns of that one. */
  readonly narrowest?: number;
  /** Wraps as well where the table is too wide otherwise, as names may be long. */
  readonly givesWay?: boolean;
}

/** Spaces before a table and between its columns. */
const [INDENT, GAP] = ["  ", "  "];
/** A wrapping column never gets narrower than this, however narrow the terminal, unless it says so. */
const NARROWEST = 16;

/**
 * A table without lines, for a width in columns. Cells are plain text; `paint` may colour a finished cell line without
 * changing its width. Nothing is cut off: what does not fit wraps.
 */
export function formatTable(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width: number,
  paint: (text: string, row: number, column: number) => string = (text) => text,
): string {
  const heads = columns.some((column) => column.head !== "") ? [columns.map((column) => column.head)] : [];
  const cells = wrapRows(columns, [...heads, ...rows], width);
  const widths = columns.map((_, at) =>
    Math.max(0, ...cells.flatMap((row) => row[at]!.map((line) => stringWidth(line)))),
  );
  return cells
    .flatMap((row, number) => {
      const height = Math.max(...row.map((lines) => lines.length));
      return Array.from({ length: height }, (_, at) => {
        const painted = row.map((lines, column) => {
          const text = lines[at] ?? "";
          const space = " ".repeat(widths[column]! - stringWidth(text));
          const shown = text === "" ? "" : paint(text, number - heads.length, column);
          return columns[column]!.align === "right" ? space + shown : shown + space;
        });
        return `${INDENT}${painted.join(GAP).trimEnd()}\n`;
      });
    })
    .join("");
}

function wrapRows(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width: number,
): string[][][] {
  const widest = widthsOf(columns, rows, width);
  const fixed = columns.reduce((sum, column, at) => sum + (column.wraps ? 0 : widest[at]!), 0);
  const room = width - INDENT.length - GAP.length * (columns.length - 1) - fixed;
  return rows.map((row) =>
    columns.map((column, at) => {
      const text = row[at] ?? "";
      if (column.wraps) return wrapText(text, Math.max(column.narrowest ?? NARROWEST, room));
      const isTooWide = column.givesWay === true && stringWidth(text) > widest[at]!;
      return isTooWide ? wrapText(text, widest[at]!) : [text];
    }),
  );
}

/** The columns that each column takes; one that gives way has what the others leave it, though never less than a few. */
function widthsOf(columns: readonly Column[], rows: readonly (readonly string[])[], width: number): number[] {
  const widest = columns.map((_, at) => Math.max(0, ...rows.map((row) => stringWidth(row[at] ?? ""))));
  const least = columns.map(({ wraps, narrowest }, at) =>
    wraps ? Math.min(widest[at]!, narrowest ?? NARROWEST) : widest[at]!,
  );
  const total =
    INDENT.length + GAP.length * (columns.length - 1) + least.reduce((sum, each) => sum + each, 0);
  const given = columns.findIndex(({ givesWay }) => givesWay === true);
  if (given < 0 || total <= width) return widest;
  const left = Math.max(Math.min(LEAST_GIVEN, widest[given]!), widest[given]! - (total - width));
  return widest.map((each, at) => (at === given ? left : each));
}

/** What a column that gives way keeps. */
const LEAST_GIVEN = 9;
