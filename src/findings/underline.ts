import stringWidth from "string-width";
import type { Place } from "./finding.js";
import { visibleText } from "./visible-text.js";

/** What the reader sees as one character: its text made visible, its columns, and whether the place covers it. */
interface Cell {
  readonly text: string;
  readonly width: number;
  readonly marked: boolean;
}

const CUT: Cell = { text: "…", width: 1, marked: false };
const LEAST_WIDTH = 10;

/** Two lines: the source line after its number, and carets under the place; cut around the place to the width. */
export function underline(sourceLine: string, place: Place, width: number): string {
  const number = String(place.line);
  const gutter = number.length + 5;
  const cells = cutCells(readCells(sourceLine, place), Math.max(LEAST_WIDTH, width - gutter));
  const source = cells.map((cell) => cell.text).join("");
  const marks = cells.map((cell) => (cell.marked ? "^" : " ").repeat(cell.width)).join("");
  const bare = marks.includes("^") ? marks.trimEnd() : `${" ".repeat(totalWidth(cells))}^`;
  const blank = " ".repeat(number.length);
  return `${`  ${number} | ${source}`.trimEnd()}\n  ${blank} | ${bare}\n`;
}

function readCells(sourceLine: string, place: Place): Cell[] {
  const characters = new Intl.Segmenter("en", { granularity: "grapheme" });
  const cells: Cell[] = [];
  for (const { segment, index } of characters.segment(sourceLine)) {
    const text = visibleText(segment);
    const marked = index + segment.length > place.column - 1 && index < place.endColumn - 1;
    cells.push({ text, width: stringWidth(text), marked });
  }
  return cells;
}

/** The cells that fit the width: all of them, or a stretch that starts a little before the marked ones. */
function cutCells(cells: readonly Cell[], width: number): readonly Cell[] {
  if (totalWidth(cells) <= width) return cells;
  const from = firstCell(cells, width);
  const kept: Cell[] = from > 0 ? [CUT] : [];
  let used = totalWidth(kept);
  let at = from;
  while (at < cells.length && used + cells[at]!.width <= width - (at === cells.length - 1 ? 0 : 1)) {
    used += cells[at]!.width;
    kept.push(cells[at++]!);
  }
  return at < cells.length ? [...kept, CUT] : kept;
}

/** The line from its start where the marked end fits; otherwise a third of the width leads up to the mark. */
function firstCell(cells: readonly Cell[], width: number): number {
  const firstMarked = cells.findIndex((cell) => cell.marked);
  const mark = firstMarked < 0 ? cells.length : firstMarked;
  const lastMarked = cells.findLastIndex((cell) => cell.marked);
  if (totalWidth(cells.slice(0, Math.max(mark, lastMarked) + 1)) < width) return 0;
  let lead = Math.floor(width / 3);
  let from = mark;
  while (from > 0 && cells[from - 1]!.width <= lead) lead -= cells[--from]!.width;
  return from;
}

function totalWidth(cells: readonly Cell[]): number {
  return cells.reduce((sum, cell) => sum + cell.width, 0);
}
