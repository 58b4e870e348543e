import { wrapText } from "../report/terminal/wrap-text.js";
import type { Terminal } from "./io.js";

/** Columns by which the further lines of one that was broken are set in. */
const INDENT = 2;

/**
 * Text for a terminal, its long lines broken between words; in a pipe every message stays on one line, as programs read it. A line of
 * progress, which takes its own place again, is left as it is.
 */
export function wrapForTerminal({ isTTY, columns }: Terminal, text: string): string {
  if (isTTY !== true || columns === undefined || columns <= 2 * INDENT || text.includes("\r")) return text;
  return text
    .split("\n")
    .map((line) => (wrapText(line, columns).length === 1 ? line : broken(line, columns)))
    .join("\n");
}

function broken(line: string, columns: number): string {
  const start = /^ */u.exec(line)![0];
  const text = line.slice(start.length);
  const [first = ""] = wrapText(text, columns - start.length);
  const further = " ".repeat(start.length + INDENT);
  const rest = wrapText(text.slice(first.length).trimStart(), columns - further.length);
  return [`${start}${first}`, ...rest.map((each) => `${further}${each}`)].join("\n");
}
