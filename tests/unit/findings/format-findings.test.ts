import { expect, test } from "vitest";
import { type Finding, finding } from "../../../src/findings/finding.js";
import { formatFindings } from "../../../src/findings/format-findings.js";

const FILE = "bike.line.yaml";

function at(line: number, column: number, endColumn: number, more: Partial<Finding> = {}): Finding {
  const place = { line, column, endColumn };
  return finding({ rule: "planted", severity: "error", message: "wrong", file: FILE, place, ...more });
}

const format = (text: string, width: number, ...findings: Finding[]) =>
  formatFindings(findings, new Map([[FILE, text]]), width);

test("Findings are sorted by place, doubles are told once, and only warnings and notes say what they are", () => {
  const text = "unit: s\ntasks:\n";
  const told = format(
    text,
    80,
    at(2, 1, 6, { severity: "note" }),
    at(1, 7, 8, { severity: "warning" }),
    at(1, 1, 5),
    at(1, 1, 5),
  );
  expect(told).toBe(
    [
      "bike.line.yaml:1:1: wrong [planted]",
      "  1 | unit: s",
      "    | ^^^^",
      "bike.line.yaml:1:7: warning: wrong [planted]",
      "  1 | unit: s",
      "    |       ^",
      "bike.line.yaml:2:1: note: wrong [planted]",
      "  2 | tasks:",
      "    | ^^^^^",
      "",
    ].join("\n"),
  );
});

test("Without a place, a source or a file only what is known is printed", () => {
  const nowhere = finding({ rule: "planted", severity: "error", message: "wrong" });
  expect(format("", 80, nowhere)).toBe("wrong [planted]\n");
  expect(format("", 80, { ...nowhere, file: FILE })).toBe("bike.line.yaml: wrong [planted]\n");
  expect(formatFindings([at(3, 1, 2)], new Map(), 80)).toBe("bike.line.yaml:3:1: wrong [planted]\n");
  expect(format("one line", 80, at(9, 1, 2))).toBe("bike.line.yaml:9:1: wrong [planted]\n");
  expect(formatFindings([], new Map(), 80)).toBe("");
});

test("Carets stand under wide, joined and combined characters", () => {
  // 東京 is four columns wide, the joined emoji two, e with an accent one.
  const text = "東京: [👩‍🔧, e\u0301, zz]";
  const from = text.indexOf("zz") + 1;
  expect(format(text, 80, at(1, from, from + 2))).toBe(
    `${FILE}:1:${from}: wrong [planted]\n  1 | ${text}\n    |               ^^\n`,
  );
  expect(format(text, 80, at(1, 1, 3))).toContain("\n    | ^^^^\n");
});

test("Tabs, escapes and the byte order mark neither shift the carets nor reach the terminal", () => {
  expect(format("\ufeff\ta: \u001b[2J x\r\n", 80, at(1, 10, 11))).toBe(
    `${FILE}:1:10: wrong [planted]\n  1 | ␉a: ␛[2J x␍\n    |          ^\n`.replace("␍", ""),
  );
  expect(format("x", 80, at(1, 1, 2, { message: "id a\u001bb" }))).toContain("id a␛b [planted]");
});

test("A long line is cut around the place to the width, wherever the place is", () => {
  const text = Array.from({ length: 40 }, (_, number) => `word${number}`).join(" ");
  for (const word of ["word0", "word9", "word20", "word39"]) {
    const from = text.indexOf(word) + 1;
    const [, source = "", carets = ""] = format(text, 50, at(1, from, from + word.length)).split("\n");
    expect(source.length).toBeLessThanOrEqual(50);
    expect(source.slice(carets.indexOf("^"), carets.lastIndexOf("^") + 1)).toBe(word);
  }
});

test("A place at the end of a line or beyond it still gets its caret", () => {
  expect(format("tasks: [a", 80, at(1, 10, 11))).toContain("  1 | tasks: [a\n    |          ^\n");
  expect(format("", 80, at(1, 1, 2))).toBe(`${FILE}:1:1: wrong [planted]\n  1 |\n    | ^\n`);
});

test("Findings without a place stand in the order in which people count: S2 before S10", () => {
  const of = (station: string) => at(1, 1, 2, { place: null, message: `${station} is over` });
  expect(formatFindings(["S10", "S2", "S1"].map(of), new Map(), 80)).toBe(
    ["S1", "S2", "S10"].map((each) => `${FILE}: ${each} is over [planted]\n`).join(""),
  );
});

test("Of more than a thousand findings the worst are shown in their places, and the others are counted", () => {
  const many = Array.from({ length: 1_500 }, (_, line) => at(line + 1, 1, 2, { severity: "warning" }));
  const told = formatFindings([...many, at(1_400, 3, 4), at(2_000, 1, 2)], new Map(), 80).split("\n");
  expect(told.slice(0, 2)).toEqual([1, 2].map((line) => `${FILE}:${line}:1: warning: wrong [planted]`));
  expect(told.slice(997)).toEqual([
    `${FILE}:998:1: warning: wrong [planted]`,
    `${FILE}:1400:3: wrong [planted]`,
    `${FILE}:2000:1: wrong [planted]`,
    "502 more warnings not shown: these 1,000 come first",
    "",
  ]);
});
