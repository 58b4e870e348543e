import stringWidth from "string-width";

/** The columns that a text takes: plain letters and parts of bars take one each, and need not be taken apart to know that. */
export function widthOf(text: string): number {
  if (PLAIN.test(text)) return text.length;
  if (text.length <= LONGEST_WHOLE || text.includes("\u001b")) return stringWidth(text);
  return text.split(BETWEEN).reduce((sum, part) => sum + stringWidth(part), 0);
}

const PLAIN = /^[ -~■·]*$/u;
/** Telling characters apart takes the square of the length of a text, so a longer one is measured in parts. */
const LONGEST_WHOLE = 1_000;
/** Before a letter or sign that joins nothing before it, unless that joins what follows (Unicode Standard Annex 29, table 2). */
const BETWEEN = /(?<=[^\p{Cf}\p{Lo}]|\p{Ideographic})(?=[ -~\p{Lu}\p{Ll}\p{Ideographic}])/u;
