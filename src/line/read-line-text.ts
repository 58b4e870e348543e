import { finding } from "../findings/finding.js";
import { A_TABLE, otherText } from "../findings/other-text.js";
import { type LineReading, readLine } from "./read-line.js";

/** Reads the text of a line file; of a plan file, and of what is no such file at all, that alone is said. */
export function readLineText(file: string, text: string): LineReading {
  const other = RESULT_START.test(text) ? "JSON that a command printed" : otherText(text);
  if (other === null && !PLAN_START.test(text)) return readLine(file, text);
  const message =
    other === null
      ? "this is a plan file, not a line; try: linepoise check LINE PLAN"
      : `this seems to be ${other}; a line file in YAML is expected, ${other === A_TABLE ? "`linepoise import` makes one of a table of tasks" : "`linepoise new` prints one to start from"}`;
  return {
    line: null,
    findings: [finding({ rule: "not-a-line", severity: "error", message, file })],
    document: null,
  };
}

/**
 * What only plans say, in block style and flow style, keys quoted or not: their format, and what they were made for. What leads up to it is
 * looked for on its own line, as a look over all blank lines from each of them takes minutes where there are a million.
 */
const PLAN_START = /^[ \t]*(?:\{[ \t]*)?["']?(?:format["']?\s*:\s*["']?linepoise-plan\/|made-for["']?\s*:)/mu;

/** How the answers of all commands begin. */
const RESULT_START = /^\s*\{\s*"format"\s*:\s*"linepoise\/\d+"/u;
