import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import type { Understood } from "./table.js";

type Delimiter = NonNullable<Understood["delimiter"]>;

export const DELIMITERS: readonly Delimiter[] = [",", ";", "\t", "|"];

const NAMES: Readonly<Record<Delimiter, string>> = {
  ",": "comma",
  ";": "semicolon",
  "\t": "tab",
  "|": "pipe",
};

/** What a delimiter is called. */
export const delimiterName = (delimiter: Delimiter): string => NAMES[delimiter];

/** A delimiter by its name or its sign, as given on a command line. */
export function readDelimiter(text: string): Reading<Delimiter> {
  const found = DELIMITERS.find((each) => each === text || NAMES[each] === text.trim().toLowerCase());
  if (found !== undefined) return accept(found);
  return refuse(`${quoted(text)} is no delimiter; comma, semicolon, tab or pipe is expected`);
}

/** How many rows are looked at. */
const LOOKED_AT = 1_000;

/**
 * The delimiter of a text whose lines end in line feeds: the one that its headings are divided by. Several may stand in the headings,
 * as in `id;time (s, mean)`: then it is the one that divides every row into as many cells as the headings, or else the one that divides none
 * into more. Null where no delimiter is in the headings; where two are left, both, as nobody should guess.
 */
export function findDelimiter(text: string): Delimiter | null | readonly Delimiter[] {
  const rows = countCells(text).filter(({ isBlank }) => !isBlank);
  const headings = rows.findIndex(({ cells }) => DELIMITERS.some((each) => cells[each] > 1));
  if (headings < 0) return null;
  const [first, ...others] = rows.slice(headings);
  const dividing = DELIMITERS.filter((each) => first!.cells[each] > 1);
  if (dividing.length === 1) return dividing[0]!;
  const even = dividing.filter((each) => others.every(({ cells }) => cells[each] === first!.cells[each]));
  if (even.length === 1) return even[0]!;
  const fitting = dividing.filter((each) => others.every(({ cells }) => cells[each] <= first!.cells[each]));
  const left = fitting.length === 0 || even.length > 1 ? dividing : fitting;
  const divided = left.filter((each) => others.some(({ cells }) => cells[each] > 1));
  return divided.length === 1 ? divided[0]! : left;
}

interface Counted {
  readonly isBlank: boolean;
  /** Cells of the row for each delimiter. */
  readonly cells: Record<Delimiter, number>;
}

/** Delimiters outside quotes, a row at a time. Quotes open at the start of a cell only, whatever the delimiter is. */
function countCells(text: string): Counted[] {
  const rows: Counted[] = [];
  let [cells, isBlank, isQuoted, isStart] = [one(), true, false, true];
  for (const sign of text) {
    if (isQuoted) {
      // A doubled quote closes and opens again at once.
      if (sign === '"') isQuoted = false;
      continue;
    }
    if (sign === "\n") {
      rows.push({ isBlank, cells });
      if (rows.length === LOOKED_AT) return rows;
      [cells, isBlank, isStart] = [one(), true, true];
      continue;
    }
    const delimiter = DELIMITERS.find((each) => each === sign);
    if (delimiter !== undefined) cells[delimiter] += 1;
    else if (sign.trim() !== "") isBlank = false;
    if (sign === '"' && isStart) isQuoted = true;
    isStart = delimiter !== undefined || (sign === '"' && isStart);
  }
  rows.push({ isBlank, cells });
  return rows;
}

const one = (): Record<Delimiter, number> => ({ ",": 1, ";": 1, "\t": 1, "|": 1 });
