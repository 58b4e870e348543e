import { describe, expect, test } from "vitest";
import { askOfDecimals, findDecimalMark, withPoint } from "../../../src/table/decimal-mark.js";
import type { Cell } from "../../../src/table/table.js";

const cells = (...texts: string[]): Cell[] =>
  texts.map((text, at) => ({ kind: "text", text, row: at + 2, column: 2 }));

describe("what decimals take", () => {
  test.each([
    [",", ["12", "2,5"]],
    [",", ["2,5 s"]],
    [",", [",5"]],
    [",", ["1.234,5"]],
    [",", ["0,125"]],
    [".", ["2.5", "12"]],
    [".", ["1,234.5"]],
    [null, ["12", "40 s", "4:17"]],
    [null, ["1,234", "1.234"]],
    [null, ["1,234,567", "3,4,5"]],
    [null, ["2026.03.05"]],
  ])("is %s in %j", (mark, texts) => {
    expect(findDecimalMark(cells(...texts))).toMatchObject({ mark, against: null });
  });

  test("a file with both is told by a cell of each", () => {
    const [one, two] = cells("2,5", "3.5");
    const found = findDecimalMark([one!, two!]);
    expect(found).toEqual({ mark: null, shownBy: one, against: two, undecided: null });
    expect(askOfDecimals(found)).toEqual({
      cell: two,
      message:
        'decimals take another mark in "3.5" than in "2,5" (row 2, column B); one mark is expected in a file',
    });
  });

  test("numbers of a workbook say nothing of it", () => {
    const [typed] = cells("2.5");
    expect(findDecimalMark([{ ...typed!, kind: "number" }]).mark).toBeNull();
  });
});

describe("where every number with a mark may be thousands", () => {
  test.each([
    [["980", "1.033"], '"1.033" is 1033 where decimals take a comma, and 1.033 where they take a point'],
    [["1,033 s"], '"1,033 s" is 1033 s where decimals take a point, and 1.033 s where they take a comma'],
  ])("what %j take is asked", (texts, question) => {
    const asked = askOfDecimals(findDecimalMark(cells(...texts)));
    expect(asked?.message).toContain(question);
    expect(asked?.message).toContain("--decimals");
  });

  test.each([
    ["a cell of less than one", ["1.033", "0.125"], "."],
    ["a cell of one decimal", ["1.033", "2,5"], ","],
    ["more than three digits before the mark", ["1.033", "1033.125"], "."],
  ])("%s decides it", (_, texts, mark) => {
    expect(findDecimalMark(cells(...texts))).toMatchObject({ mark, undecided: null });
  });

  test("the user decides it", () => {
    const found = findDecimalMark(cells("1.033"), ",");
    expect([found.mark, askOfDecimals(found)]).toEqual([",", null]);
  });
});

describe("with a comma", () => {
  const mark = findDecimalMark(cells("2,5"));
  test.each([
    ["2,5 s", "2.5 s"],
    [",5", ".5"],
    ["1,234", "1.234"],
    ["1.234", "1234"],
    ["1.234,5", "1234.5"],
    ["1.234.567", "1234567"],
    ["12", "12"],
  ])("%s is read as %s", (text, read) => {
    expect(withPoint(cells(text)[0]!, mark)).toEqual({ ok: true, value: read });
  });

  test.each([
    ["1.5", "1,5"],
    ["0.125", "0,125"],
    ["12.34,5", "1234,5"],
  ])("the point of %s parts no thousands, and %s is a number", (text, write) => {
    expect(withPoint(cells(text)[0]!, mark)).toEqual({
      ok: false,
      problem: `"${text}" has a point, but decimals take a comma here ("2,5" in row 2, column B); write ${write}`,
    });
  });

  test("a number that the workbook types is left as it is", () => {
    expect(withPoint({ ...cells("1.5")[0]!, kind: "number" }, mark)).toEqual({ ok: true, value: "1.5" });
  });
});

test.each([
  ["1,234", "1234"],
  ["1,234.5 s", "1234.5 s"],
  ["0,125", "0,125"],
  ["4:07.125", "4:07.125"],
])("with a point, %s is read as %s", (text, read) => {
  expect(withPoint(cells(text)[0]!, findDecimalMark(cells("2.5")))).toEqual({ ok: true, value: read });
});
