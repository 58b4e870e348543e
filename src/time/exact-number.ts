import { add, type Ratio, ratio } from "./ratio.js";

/** Fractions that are one character; Unicode's own decomposition would run 7½ together to 71/2. */
const ONE_CHARACTER: Readonly<Record<string, readonly [number, number]>> = {
  "½": [1, 2],
  "⅓": [1, 3],
  "⅔": [2, 3],
  "¼": [1, 4],
  "¾": [3, 4],
  "⅕": [1, 5],
  "⅖": [2, 5],
  "⅗": [3, 5],
  "⅘": [4, 5],
  "⅙": [1, 6],
  "⅚": [5, 6],
  "⅛": [1, 8],
  "⅜": [3, 8],
  "⅝": [5, 8],
  "⅞": [7, 8],
};

/** A number as people write it: 12, 0.5, .5, 1/3, 7 1/2, 7½; a pattern to be built into others. */
export const NUMBER = `(?:\\d+\\s+)?\\d+[/⁄]\\d+|(?:\\d+\\s?)?[${Object.keys(ONE_CHARACTER).join("")}]|\\d+(?:\\.\\d+)?|\\.\\d+`;

const WHOLE_NUMBER = new RegExp(`^(?:${NUMBER})$`, "u");
const FRACTION = /^(?:(\d+)\s+)?(\d+)[/⁄](\d+)$/u;
/** The longest text, in characters, that any reader of numbers looks into. */
export const LONGEST_TEXT = 100;

/**
 * The exact value of a number, or null where the text is none. Fractions are proper ones (71/2 is far more often
 * a copied 7 1/2 than 35.5); signs, commas and exponents are no part of a number.
 */
export function readNumber(text: string): Ratio | null {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST_TEXT || !WHOLE_NUMBER.test(trimmed)) return null;
  const fraction = FRACTION.exec(trimmed);
  if (fraction) return mixed(fraction[1] ?? "0", BigInt(fraction[2]!), BigInt(fraction[3]!));
  const last = ONE_CHARACTER[trimmed.at(-1)!];
  if (last) return mixed(trimmed.slice(0, -1).trim() || "0", BigInt(last[0]), BigInt(last[1]));
  const [whole, rest = ""] = trimmed.split(".");
  return ratio(BigInt(`${whole}${rest}`), 10n ** BigInt(rest.length));
}

function mixed(whole: string, part: bigint, parts: bigint): Ratio | null {
  return part < parts ? add(ratio(BigInt(whole)), ratio(part, parts)) : null;
}
