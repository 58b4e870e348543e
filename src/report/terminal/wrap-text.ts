import { fillLines } from "./draw-cells.js";
import { widthOf } from "./width-of.js";

/** Spaces, but for those between a number and its unit. */
const BREAKS = /(?<!\d) | (?!(?:%|s|min|h|cmin|tmu)(?![\w]))/u;

/** Breaks a text at spaces so that no line is wider than `width` columns; a longer word is broken, never cut off. */
export function wrapText(text: string, width: number): string[] {
  if (widthOf(text) <= width) return [text];
  const words = text.trimStart().split(BREAKS);
  // No character takes more than two columns.
  return fillLines(
    words.flatMap((word) => breakWord(word, width)),
    Math.max(2, width),
  );
}

/** The columns of the widest word of a text, which `wrapText` keeps whole in as many. */
export const widestWord = (text: string): number =>
  Math.max(...text.split(BREAKS).map((each) => widthOf(each)));

const letters = new Intl.Segmenter("en", { granularity: "grapheme" });

/** Broken behind hyphens and the like where they come in time, so that names of several words stay easy to read. */
function breakWord(word: string, width: number): string[] {
  if (widthOf(word) <= width) return [word];
  const parts: string[] = [];
  let [part, taken] = ["", 0];
  const add = (piece: string, columns: number) => {
    if (part !== "" && taken + columns > width) {
      parts.push(part);
      [part, taken] = ["", 0];
    }
    part += piece;
    taken += columns;
  };
  for (const piece of word.split(JOINTS)) {
    const columns = widthOf(piece);
    if (columns <= width) add(piece, columns);
    else for (const { segment } of letters.segment(piece)) add(segment, widthOf(segment));
  }
  return [...parts, part];
}

/** Behind a hyphen, underscore, slash, dot or colon between two others. */
const JOINTS = /(?<=[^\s][-_/.:])(?=[^-_/.:\s])/u;

/**
 * A text in exactly `width` columns: spaces behind it, or cut behind the last of its parts that fits, as a number cut off from its unit
 * is another one; behind the last word or letter where no part does.
 */
export function fitText(text: string, width: number): string {
  const whole = widthOf(text) <= width ? text : "";
  const fitted = whole || longestThatFits(text, /[,:] /gu, width) || longestThatFits(text, / /gu, width);
  if (fitted !== "") return fitted + " ".repeat(width - widthOf(fitted));
  let cut = "";
  for (const { segment } of letters.segment(text)) {
    if (widthOf(cut + segment) > width) break;
    cut += segment;
  }
  return cut + " ".repeat(width - widthOf(cut));
}

/** The text up to the last of these ends that leaves it no wider; empty where none does. */
function longestThatFits(text: string, ends: RegExp, width: number): string {
  const upTo = [...text.matchAll(ends)].map(({ index }) => text.slice(0, index));
  return upTo.filter((each) => widthOf(each) <= width).at(-1) ?? "";
}
