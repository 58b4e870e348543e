import { createRequire } from "node:module";
import type CliTable from "cli-table3";
import stringWidth from "string-width";

/** Spaces before a table and between its columns. */
export const [INDENT, GAP] = ["  ", "  "];

export interface DrawnColumn {
  readonly width: number;
  readonly align: "left" | "right";
}

/** The lines of rows of cells in columns of given widths; a cell has the lines that its text has, none of them wider than its column. */
export function drawCells(columns: readonly DrawnColumn[], rows: readonly (readonly string[])[]): string[] {
  const lines: string[] = [];
  for (let from = 0; from < rows.length; from += AT_ONCE) {
    const table = newTable({
      colWidths: columns.map(({ width }) => width),
      colAligns: columns.map(({ align }) => align),
    });
    const standIns = new StandIns();
    table.push(...rows.slice(from, from + AT_ONCE).map((row) => row.map((cell) => standIns.put(cell))));
    lines.push(...standIns.takeBack(table.toString()).split("\n"));
  }
  return lines.map((line) => line.trimEnd());
}

/** A text broken at spaces into lines of so many columns; every word of it must fit one. Breaks that it has already stay. */
export function fillLines(text: string, width: number): string[] {
  const table = newTable({ colWidths: [width], chars: NO_CHARS, wordWrap: true });
  const standIns = new StandIns();
  table.push([standIns.put(text).replaceAll(HELD_SPACES, (spaces) => HELD.repeat(spaces.length))]);
  return standIns
    .takeBack(table.toString())
    .split("\n")
    .map((line) => line.trimEnd());
}

/** Between a number and its unit, and at the start of a line. */
const HELD_SPACES = /(?<=\d) (?=(?:%|s|min|h|cmin|tmu)(?!\w))|^ +/gmu;

/** Rows that are laid out together: it takes the square of their number. */
const AT_ONCE = 50;

const NO_CHARS = Object.fromEntries(
  [
    ...["top", "top-mid", "top-left", "top-right", "bottom", "bottom-mid", "bottom-left", "bottom-right"],
    ...["left", "left-mid", "mid", "mid-mid", "right", "right-mid", "middle"],
  ].map((name) => [name, ""]),
);

/** The package is loaded where something is drawn, and not before: the program is to start fast. */
let loaded: typeof CliTable | null = null;

function newTable(options: CliTable.TableConstructorOptions): CliTable.Table {
  loaded ??= createRequire(import.meta.url)("cli-table3") as typeof CliTable;
  return new loaded({
    chars: { ...NO_CHARS, left: INDENT, middle: GAP },
    style: { "padding-left": 0, "padding-right": 0, head: [], border: [] },
    ...options,
  });
}

const letters = new Intl.Segmenter("en", { granularity: "grapheme" });

/**
 * Characters of private use in place of what the package counts by rules of its own: one for each column that wide, joined and combining
 * characters take.
 */
class StandIns {
  private readonly known = new Map<string, string>();
  private readonly texts = new Map<string, string>();

  put(text: string): string {
    if (PLAIN.test(text)) return text;
    let waiting = "";
    let done = "";
    for (const { segment } of letters.segment(text)) {
      if (waiting === "" && PLAIN.test(segment)) {
        done += segment;
        continue;
      }
      // What takes no column goes with the next that does.
      waiting += segment;
      const width = stringWidth(waiting);
      if (width === 0) continue;
      done += this.standFor(waiting, width);
      waiting = "";
    }
    return done + waiting;
  }

  takeBack(text: string): string {
    return text
      .replaceAll(HELD, " ")
      .replaceAll(/[\u{F0000}-\u{FFFFD}]/gu, (each) => this.texts.get(each) ?? "");
  }

  private standFor(text: string, width: number): string {
    let standIn = this.known.get(text);
    if (standIn === undefined) {
      const first = String.fromCodePoint(FIRST + this.known.size);
      standIn = first + FURTHER.repeat(width - 1);
      this.known.set(text, standIn);
      this.texts.set(first, text);
    }
    return standIn;
  }
}

/** Colour codes as well. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: it begins a colour code
const PLAIN = /^[\n\u001b\x20-\x7e]*$/u;
const FIRST = 0xf0001;
const FURTHER = "\u{F0000}";
/** A space at which no line ends. */
const HELD = "\u{FFFFD}";
