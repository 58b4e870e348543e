import stringWidth from "string-width";
import type { Place } from "./finding.js";
import { visibleText } from "./visible-text.js";

/** What the reader sees as one character: its text made visible, its columns, and whether the place covers it. */
interface Cell {
  readonly text: string;
  readonly width: number;
  readonly marked: boolean;
}

/** The part of a source line that may be shown, and whether there is more of it on either side. */
interface Cells {
  readonly cells: readonly Cell[];
  readonly more: { readonly before: boolean; readonly behind: boolean };
}

const CUT: Cell = { text: "…", width: 1, marked: false };
const LEAST_WIDTH = 10;
const MOST_WIDTH = 400;

/** Two lines: the source line after its number, and carets under the place; cut around the place to the width. */
export function underline(sourceLine: string, place: Place, width: number): string {
  const number = String(place.line);
  const room = Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, width - number.length - 5));
  const cells = cutCells(readCells(sourceLine, place, room), room);
  const source = cells.map((cell) => cell.text).join("");
  const marks = cells.map((cell) => (cell.marked ? "^" : " ").repeat(cell.width)).join("");
  const carets = marks.includes("^") ? marks.trimEnd() : `${" ".repeat(totalWidth(cells))}^`;
  return `${`  ${number} | ${source}`.trimEnd()}\n  ${" ".repeat(number.length)} | ${carets}\n`;
}

/** Only what may be shown is looked at: telling characters apart takes long on a line of a million. */
function readCells(sourceLine: string, place: Place, room: number): Cells {
  // A letter with a mark of its own takes two signs and one column.
  const reach = 2 * room;
  const from = Math.max(0, place.column - 1 - reach);
  const to = Math.min(sourceLine.length, place.column - 1 + reach);
  const shown = sourceLine.slice(from, to);
  const isMarked = (at: number, length: number) => at + length > place.column - 1 && at < place.endColumn - 1;
  const cells = PLAIN.test(shown)
    ? Array.from(shown, (text, index): Cell => ({ text, width: 1, marked: isMarked(from + index, 1) }))
    : Array.from(CHARACTERS.segment(shown), ({ segment, index }): Cell => {
        const text = visibleText(segment);
        return { text, width: stringWidth(text), marked: isMarked(from + index, segment.length) };
      });
  return { cells, more: { before: from > 0, behind: to < sourceLine.length } };
}

/** Text of which each sign is a character of one column, as nearly all is: nobody need tell them apart. */
const PLAIN = /^[ -~]*$/u;
const CHARACTERS = new Intl.Segmenter("en", { granularity: "grapheme" });

/** The cells that fit the room: all of them, or a stretch that starts a little before the marked ones. */
function cutCells({ cells, more }: Cells, room: number): readonly Cell[] {
  if (!more.before && !more.behind && totalWidth(cells) <= room) return cells;
  const from = firstCell(cells, room, more.before);
  const kept: Cell[] = from > 0 || more.before ? [CUT] : [];
  let used = totalWidth(kept);
  for (let at = from; at < cells.length; at++) {
    const last = at === cells.length - 1 && !more.behind;
    if (used + cells[at]!.width > room - (last ? 0 : 1)) break;
    used += cells[at]!.width;
    kept.push(cells[at]!);
    if (last) return kept;
  }
  return [...kept, CUT];
}

/** The line from its start where the marked end fits; otherwise a third of the room leads up to the mark. */
function firstCell(cells: readonly Cell[], room: number, cutBefore: boolean): number {
  const firstMarked = cells.findIndex((cell) => cell.marked);
  const mark = firstMarked < 0 ? cells.length : firstMarked;
  const lastMarked = cells.findLastIndex((cell) => cell.marked);
  if (!cutBefore && totalWidth(cells.slice(0, Math.max(mark, lastMarked) + 1)) < room) return 0;
  let lead = Math.floor(room / 3);
  let from = mark;
  while (from > 0 && cells[from - 1]!.width <= lead) lead -= cells[--from]!.width;
  return from;
}

function totalWidth(cells: readonly Cell[]): number {
  return cells.reduce((sum, cell) => sum + cell.width, 0);
}
