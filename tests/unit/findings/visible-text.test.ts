import { expect, test } from "vitest";
import { escapedInJson, unseenCharacters, visibleText } from "../../../src/findings/visible-text.js";

test("Controls, bidirectional marks, widthless characters and lone surrogates are made visible", () => {
  expect(visibleText("a\u001b[2Jb\tc\r\nd\u0000\u007f")).toBe("a␛[2Jb␉c␍␊d␀␡");
  expect(visibleText("\u202eabc\u2066\u200b\ufeff\u0085\u2028\ud800")).toBe(
    "\\u{202e}abc\\u{2066}\\u{200b}\\u{feff}\\u{0085}\\u{2028}\\u{d800}",
  );
});

test("Letters of every script, marks and joined emoji stay as they are", () => {
  const text = "東京ライト e\u0301 👩‍🔧 ⚡\ufe0f فارسی می‌شود Ωμ";
  expect(visibleText(text)).toBe(text);
  expect(unseenCharacters(text)).toEqual([]);
});

test("Unseen characters are listed in order of appearance", () => {
  expect(unseenCharacters("x\u001by\u202ez\t")).toEqual(["␛", "\\u{202e}", "␉"]);
});

test("JSON with such characters escaped means the same, and has none left but its own line ends", () => {
  const values = ["a\u007f\u009b\u202e\u2066\ufeff\u00ad\u2028", { "\u200b": "\u001b\n" }];
  const escaped = escapedInJson(JSON.stringify(values, null, 2));
  expect(JSON.parse(escaped)).toEqual(values);
  expect(escaped.split("\n").flatMap(unseenCharacters)).toEqual([]);
});
