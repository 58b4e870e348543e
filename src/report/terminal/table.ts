import { drawCells, GAP, INDENT } from "./draw-cells.js";
import { widthOf } from "./width-of.js";
import { widestWord, wrapText } from "./wrap-text.js";

export interface Column {
  readonly head: string;
  readonly align?: "left" | "right";
  /** The one column that takes the room that is left, and wraps. */
  readonly wraps?: boolean;
  /** The fewest columns of that one. */
  readonly narrowest?: number;
  /** Wraps as well where the table is too wide otherwise, as names may be long. */
  readonly givesWay?: boolean;
  /** Is broken between its words where the table is too wide even then. */
  readonly breaks?: boolean;
}

/** A wrapping column never gets narrower than this, however narrow the terminal, unless it says so. */
const NARROWEST = 16;

/**
 * A table without borders, for a width in columns, endless in a pipe. Cells are plain text; `paint` may colour a finished cell line without
 * changing its width. Nothing is cut off: what does not fit wraps.
 */
export function formatTable(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width: number,
  paint: (text: string, row: number, column: number) => string = (text) => text,
): string {
  const heads = columns.some((column) => column.head !== "") ? [columns.map((column) => column.head)] : [];
  const cells = [...heads, ...rows].map((row) => columns.map((_, column) => row[column] ?? ""));
  const most = columnWidths(columns, cells, width);
  const wrapped = cells.map((row) => row.map((text, column) => wrapText(text, most[column]!)));
  const drawn = columns.map(({ align = "left" }, column) => ({
    align,
    width: Math.max(0, ...wrapped.flatMap((row) => row[column]!.map((line) => widthOf(line)))),
  }));
  const lines = wrapped.flatMap((row, number) => {
    const height = Math.max(...row.map((cell) => cell.length));
    return Array.from({ length: height }, (_, at) =>
      row.map((cell, column) => {
        const text = cell[at] ?? "";
        return text === "" ? "" : paint(text, number - heads.length, column);
      }),
    );
  });
  return drawCells(drawn, lines)
    .map((line) => `${line}\n`)
    .join("");
}

/** A table, or another way to say it where some line of it is wider than there is room for. */
export const orElse = (table: string, width: number, narrow: () => string): string =>
  table.split("\n").some((line) => widthOf(line) > width) ? narrow() : table;

/** A table, or where it is too wide what stands in each row beside its first cell: "S1  busy 95 %, down 5 %". */
export const formatOrFold = (
  columns: readonly [Column, ...Column[]],
  rows: readonly (readonly string[])[],
  width: number,
  paint?: (text: string, row: number, column: number) => string,
): string =>
  orElse(formatTable(columns, rows, width, paint), width, () => {
    const wordsOf = (cell: string, at: number) =>
      at === 0 || cell === "" ? [] : [`${columns[at]!.head} ${cell}`.trim()];
    return formatTable(
      [
        { head: columns[0].head, givesWay: true },
        { head: "", wraps: true },
      ],
      rows.map((row) => [row[0]!, row.flatMap(wordsOf).join(", ")]),
      width,
      paint,
    );
  });

/** A table without the column of that head where it is too wide with it. */
export function formatWithout(
  left: string,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  width: number,
): string {
  const isKept = (_: unknown, at: number) => columns[at]!.head !== left;
  return orElse(formatTable(columns, rows, width), width, () =>
    formatTable(
      columns.filter(isKept),
      rows.map((row) => row.filter(isKept)),
      width,
    ),
  );
}

/**
 * The columns that a line of each column may take: what its cells take, but for one that gives way to the others and one that wraps in
 * the room that all of them leave. Both keep a few. Where that is still too wide, those that may be are broken between words.
 */
function columnWidths(
  columns: readonly Column[],
  cells: readonly (readonly string[])[],
  width: number,
): number[] {
  const widest = columns.map((_, at) => Math.max(0, ...cells.map((row) => widthOf(row[at]!))));
  const leastOf = ({ wraps, narrowest = NARROWEST }: Column, at: number) =>
    wraps ? Math.min(widest[at]!, narrowest) : widest[at]!;
  let room = width - INDENT.length - GAP.length * (columns.length - 1);
  const missing = columns.reduce((sum, column, at) => sum + leastOf(column, at), -room);
  const given = columns.findIndex(({ givesWay }) => givesWay === true);
  const kept = widest.map((each, at) =>
    at === given && missing > 0 ? Math.max(Math.min(LEAST_GIVEN, each), each - missing) : each,
  );
  const others = kept.reduce(
    (sum, each, at) => sum + (columns[at]!.wraps ? leastOf(columns[at]!, at) : each),
    0,
  );
  if (others > room) breakBetweenWords(kept, columns, cells, others - room);
  for (const [at, { wraps }] of columns.entries()) if (!wraps) room -= kept[at]!;
  return columns.map(({ wraps, narrowest = NARROWEST }, at) =>
    wraps ? Math.max(narrowest, room) : kept[at]!,
  );
}

/** Takes so many columns away: the widest that still holds several words beside each other gives one, again and again. */
function breakBetweenWords(
  kept: number[],
  columns: readonly Column[],
  cells: readonly (readonly string[])[],
  excess: number,
): void {
  const least = kept.map((_, at) => Math.max(0, ...cells.map((row) => widestWord(row[at]!))));
  for (let left = excess; left > 0; left -= 1) {
    const able = kept.flatMap((each, at) => (columns[at]!.breaks && each > least[at]! ? [at] : []));
    if (able.length === 0) return;
    kept[able.reduce((best, at) => (kept[at]! > kept[best]! ? at : best))]! -= 1;
  }
}

/** What a column that gives way keeps. */
const LEAST_GIVEN = 9;
