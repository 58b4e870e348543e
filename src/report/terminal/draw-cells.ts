import CliTable from "cli-table3";
import stringWidth from "string-width";
import { widthOf } from "./width-of.js";

/** Spaces before a table and between its columns. */
export const [INDENT, GAP] = ["  ", "  "];

export interface DrawnColumn {
  readonly width: number;
  readonly align: "left" | "right";
}

/** Lines of cells in columns of given widths; no cell is wider than its column. */
export function drawCells(columns: readonly DrawnColumn[], lines: readonly (readonly string[])[]): string[] {
  const filled = (cell: string, { width, align }: DrawnColumn) => {
    // A column of nothing takes one, too.
    const spaces = " ".repeat(Math.max(0, Math.max(1, width) - widthOf(cell)));
    return align === "left" ? cell + spaces : spaces + cell;
  };
  return lines.map((line) => {
    const cells = columns.map((column, at) => filled(line[at] ?? "", column));
    return `${INDENT}${cells.join(GAP)}`.trimEnd();
  });
}

/** Words put into lines of so many columns; each of them must fit one. A word may have spaces of its own. */
export function fillLines(words: readonly string[], width: number): string[] {
  const lines: string[] = [];
  for (const part of inParts(words)) {
    const standIns = new StandIns();
    const begun = lines.splice(-1);
    const text = [...begun, ...part].map((word) => standIns.put(word).replaceAll(" ", HELD)).join(" ");
    lines.push(...standIns.takeBack(fill(text, width)));
  }
  return lines;
}

/** What is drawn at once: it takes the square of that. */
function inParts<Each>(all: readonly Each[]): Each[][] {
  const parts = Math.ceil(all.length / AT_ONCE);
  return Array.from({ length: parts }, (_, part) => all.slice(part * AT_ONCE, (part + 1) * AT_ONCE));
}

const AT_ONCE = 50;

function fill(text: string, width: number): string {
  const table = new CliTable({
    chars: NO_CHARS,
    style: { "padding-left": 0, "padding-right": 0, head: [], border: [] },
    colWidths: [width],
    wordWrap: true,
  });
  table.push([text]);
  return table.toString();
}

const NO_CHARS = Object.fromEntries(
  [
    ...["top", "top-mid", "top-left", "top-right", "bottom", "bottom-mid", "bottom-left", "bottom-right"],
    ...["left", "left-mid", "mid", "mid-mid", "right", "right-mid", "middle"],
  ].map((name) => [name, ""]),
);

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
      const standIn = this.known.get(waiting) ?? this.standFor(waiting, stringWidth(waiting));
      if (standIn === "") continue;
      done += standIn;
      waiting = "";
    }
    return done + waiting;
  }

  /** The lines of what was drawn, with nothing behind them. */
  takeBack(drawn: string): string[] {
    const text = drawn.replaceAll(HELD, " ").replaceAll(PRIVATE, (each) => this.texts.get(each) ?? "");
    return text.split("\n").map((line) => line.trimEnd());
  }

  private standFor(text: string, width: number): string {
    if (width === 0) return "";
    // While one is as long as it is wide, it is drawn faster.
    const number = this.known.size;
    const first = String.fromCodePoint(number < MOST_SHORT ? FIRST + number : FIRST_LONG + number);
    const standIn = first + FURTHER.repeat(width - 1);
    this.known.set(text, standIn);
    this.texts.set(first, text);
    return standIn;
  }
}

/** Colour codes as well. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: it begins a colour code
const PLAIN = /^[\u001b\x20-\x7e]*$/u;
const PRIVATE = /[\u{E000}-\u{F8FF}\u{F0000}-\u{FFFFD}]/gu;
/** A space at which no line ends, and what stands for the second column of a character. */
const [HELD, FURTHER] = ["\u{E000}", "\u{E001}"];
const [FIRST, FIRST_LONG] = [0xe002, 0xf0000];
const MOST_SHORT = 6_000;
