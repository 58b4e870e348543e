import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { addressOf, type Cell } from "./table.js";

/** What decimals take in a file: as the user says, or else by its own cells. */
export interface DecimalMark {
  /** Null where no cell has decimals, or where it may be either. */
  readonly mark: "," | "." | null;
  /** A cell that shows the mark; and one that shows the other, which a file should not have. */
  readonly shownBy: Cell | null;
  readonly against: Cell | null;
  /** A cell that may be thousands or decimals, where nothing shows the mark. */
  readonly undecided: Cell | null;
}

/** What decimals take, as given on a command line. */
export function readDecimals(text: string): Reading<"," | "."> {
  const found = (
    [
      [",", "comma"],
      [".", "point"],
    ] as const
  ).find(([mark, name]) => mark === text.trim() || name === text.trim().toLowerCase());
  if (found !== undefined) return accept(found[0]);
  return refuse(`${quoted(text)} is no mark of decimals; comma or point is expected`);
}

const NUMBER = /^\D{0,3}?(\d*(?:[.,'’\s]\d{3})*)([.,])(\d+)(?![\d.,])/u;
const EITHER = "either";

/**
 * Whether decimals take a comma or a point, once for all these cells: `2,5` and `1.234,5` show a comma, `2.5` and `1,234.5` a point;
 * `1,234` and `1.234` show neither, as they may be thousands. Cells that the file types as numbers say nothing of it.
 */
export function findDecimalMark(cells: Iterable<Cell>, given: "," | "." | null = null): DecimalMark {
  if (given !== null) return { mark: given, shownBy: null, against: null, undecided: null };
  const first = new Map<string, Cell>();
  for (const cell of cells) {
    const mark = cell.kind === "text" ? markIn(cell.text.trim()) : null;
    if (mark !== null && !first.has(mark)) first.set(mark, cell);
  }
  const undecided = first.get(EITHER) ?? null;
  first.delete(EITHER);
  const [one = null, two = null] = first.entries();
  if (one === null) return { mark: null, shownBy: null, against: null, undecided };
  return {
    mark: two === null ? (one[0] as "," | ".") : null,
    shownBy: one[1],
    against: two?.[1] ?? null,
    undecided: null,
  };
}

function markIn(text: string): string | null {
  const found = NUMBER.exec(text);
  if (found === null) return null;
  const [, whole = "", mark = "", decimals = ""] = found;
  if (whole.includes(mark)) return null;
  const mayBeThousands = decimals.length === 3 && /^[1-9]\d{0,2}$/u.test(whole);
  return mayBeThousands ? EITHER : mark;
}

/** What a file must be asked of its decimals, and the cell that asks it; null where nothing is open. */
export function askOfDecimals({
  shownBy,
  against,
  undecided,
}: DecimalMark): { readonly cell: Cell; readonly message: string } | null {
  if (against !== null) {
    const message = `decimals take another mark in ${quoted(against.text.trim())} than in ${quoted(shownBy!.text.trim())} (${addressOf(shownBy!)}); one mark is expected in a file`;
    return { cell: against, message };
  }
  if (undecided === null) return null;
  const text = undecided.text.trim();
  const [mark, other] = text.includes(".") ? ["point", "comma"] : ["comma", "point"];
  const message = `${quoted(text)} is ${text.replace(/[.,]/u, "")} where decimals take a ${other}, and ${text.replace(",", ".")} where they take a ${mark}; no cell shows which, so give --decimals ${other} or --decimals ${mark}`;
  return { cell: undecided, message };
}

/** Digits in threes that are parted by the mark that decimals do not take. */
const GROUPS = {
  ",": /(?<![\d.,:])[1-9]\d{0,2}(?:\.\d{3})+(?![\d.])/gu,
  ".": /(?<![\d.,:])[1-9]\d{0,2}(?:,\d{3})+(?![\d,])/gu,
} as const;

/** The text of a cell with a point for decimals and thousands put together, as numbers, times and shares are read; or why it is no number. */
export function withPoint(cell: Cell, { mark, shownBy }: DecimalMark): Reading<string> {
  if (cell.kind !== "text" || mark === null) return accept(cell.text);
  const joined = cell.text.replace(GROUPS[mark], (digits) => digits.replace(/[.,]/gu, ""));
  if (mark === ".") return accept(joined);
  if (/\d\.\d/u.test(joined)) {
    const by = shownBy === null ? "" : ` (${quoted(shownBy.text.trim())} in ${addressOf(shownBy)})`;
    const written = joined.includes(",") ? joined.replaceAll(".", "") : joined.replace(".", ",");
    return refuse(
      `${quoted(cell.text.trim())} has a point, but decimals take a comma here${by}; write ${written.trim()}`,
    );
  }
  return accept(joined.replace(/(?<=\d),(?=\d)|^,(?=\d)/u, "."));
}
