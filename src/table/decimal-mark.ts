import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { addressOf, type Cell } from "./table.js";

/** What decimals take in a file, by its own cells. */
export interface DecimalMark {
  /** Null where no cell has decimals, or where it may be either. */
  readonly mark: "," | "." | null;
  /** A cell that shows the mark; and one that shows the other, which a file should not have. */
  readonly shownBy: Cell | null;
  readonly against: Cell | null;
}

const NUMBER = /^\D{0,3}?(\d*(?:[.,'’\s]\d{3})*)([.,])(\d+)(?![\d.,])/u;

/**
 * Whether decimals take a comma or a point, once for all these cells: `2,5` and `1.234,5` show a comma, `2.5` and `1,234.5` a point;
 * `1,234` and `1.234` show neither, as they may be thousands. Cells that the file types as numbers say nothing of it.
 */
export function findDecimalMark(cells: Iterable<Cell>): DecimalMark {
  const first = new Map<string, Cell>();
  for (const cell of cells) {
    const mark = cell.kind === "text" ? markIn(cell.text.trim()) : null;
    if (mark !== null && !first.has(mark)) first.set(mark, cell);
  }
  const [one = null, two = null] = first.entries();
  if (one === null) return { mark: null, shownBy: null, against: null };
  return {
    mark: two === null ? (one[0] as "," | ".") : null,
    shownBy: one[1],
    against: two?.[1] ?? null,
  };
}

function markIn(text: string): string | null {
  const found = NUMBER.exec(text);
  if (found === null) return null;
  const [, whole = "", mark = "", decimals = ""] = found;
  if (whole.includes(mark)) return null;
  const mayBeThousands = decimals.length === 3 && /^[1-9]\d{0,2}$/u.test(whole);
  return mayBeThousands ? null : mark;
}

/** The text of a cell with a point for decimals, as numbers, times and shares are read; or why it has two readings. */
export function withPoint(cell: Cell, { mark, shownBy }: DecimalMark): Reading<string> {
  if (cell.kind !== "text" || mark !== ",") return accept(cell.text);
  const shown = `decimals take a comma here (${quoted(shownBy!.text.trim())} in ${addressOf(shownBy!)})`;
  if (/\d\.\d/u.test(cell.text)) {
    const [joined, comma] = [cell.text.replaceAll(".", ""), cell.text.replace(".", ",")].map((each) =>
      each.trim(),
    );
    return refuse(`${quoted(cell.text.trim())} has a point, but ${shown}; write ${joined} or ${comma}`);
  }
  return accept(cell.text.replace(/(?<=\d),(?=\d)|^,(?=\d)/u, "."));
}
