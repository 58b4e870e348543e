import { describe, expect, test } from "vitest";
import { findDecimalMark, withPoint } from "../../../src/table/decimal-mark.js";
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
    expect(findDecimalMark([one!, two!])).toEqual({ mark: null, shownBy: one, against: two });
  });

  test("numbers of a workbook say nothing of it", () => {
    const [typed] = cells("2.5");
    expect(findDecimalMark([{ ...typed!, kind: "number" }]).mark).toBeNull();
  });
});

describe("with a comma", () => {
  const mark = findDecimalMark(cells("2,5"));
  test.each([
    ["2,5 s", "2.5 s"],
    [",5", ".5"],
    ["1,234", "1.234"],
    ["12", "12"],
  ])("%s is read as %s", (text, read) => {
    expect(withPoint(cells(text)[0]!, mark)).toEqual({ ok: true, value: read });
  });

  test("a point has two readings and is refused", () => {
    expect(withPoint(cells("1.234")[0]!, mark)).toEqual({
      ok: false,
      problem:
        '"1.234" has a point, but decimals take a comma here ("2,5" in row 2, column B); write 1234 or 1,234',
    });
  });

  test("a number that the workbook types is left as it is", () => {
    expect(withPoint({ ...cells("1.5")[0]!, kind: "number" }, mark)).toEqual({ ok: true, value: "1.5" });
  });
});
