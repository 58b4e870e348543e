import { expect, test } from "vitest";
import { definitions } from "./commands-block.js";
import { ROWS } from "./keys-block.js";
import { PAGES } from "./pages.js";
import { readPage } from "./read-page.js";
import { TERMS } from "./terms.js";

/** Words of a sentence that one reads once. */
const MOST_WORDS = 20;

/** Sentences of more words than that; what stands in code is one word. */
const tooLong = (text: string): string[] =>
  text
    .replace(/`[^`]*`/g, "code")
    .replace(/\]\([^)]*\)/g, "]")
    .split(/(?<=[.:?!])\s+|;\s+|\n\n+|\n(?=[-#|>] ?)/u)
    .filter((sentence) => sentence.split(/\s+/).filter((word) => /\p{L}/u.test(word)).length > MOST_WORDS);

test.each(PAGES)("The sentences of %s are short", (path) => {
  const prose = readPage(path)
    .replace(/^```[\s\S]*?^```$/gm, "")
    .replace(/^<!-- .*; written by the tests -->\n[\s\S]*?^<!-- end -->$/gm, "")
    .replace(/^> .*$/gm, "")
    .replace(/\|/g, "\n\n");
  expect(tooLong(prose)).toEqual([]);
});

test("The sentences on keys of a line file, terms and options are short", () => {
  const options = definitions.flatMap((each) => [
    each.description(),
    ...[...each.options, ...each.registeredArguments].map(({ description }) => description),
  ]);
  const terms = Object.values(TERMS).flat();
  const said = [...ROWS.map(({ meaning }) => meaning), ...terms.map(({ meaning }) => meaning), ...options];
  expect(said.flatMap(tooLong)).toEqual([]);
});
