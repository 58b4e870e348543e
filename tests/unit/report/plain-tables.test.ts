import { describe, expect, it } from "vitest";
import { markdownTable, plainMarkdown } from "../../../src/report/markdown/markdown.js";
import type { Sheet } from "../../../src/table/sheet.js";
import { writeCsv } from "../../../src/table/write-csv.js";

const csvText = (sheet: Sheet) => writeCsv(sheet, { delimiter: ",", decimals: ".", guard: true });
const cells = (...texts: string[]) => texts.map((text) => ({ text }));

describe("CSV", () => {
  it("is quoted where a comma, a quote or a line end asks for it, with CRLF after every row (RFC 4180)", () => {
    expect(csvText([cells("a", "b;c"), cells("1,5", 'say "so"'), cells("two\nlines", "")])).toBe(
      'a,b;c\r\n"1,5","say ""so"""\r\n"two\nlines",\r\n',
    );
  });

  it.each(["=M6x20", "+5V lead", "-washer", "@tag", "\ttab", "\rreturn"])(
    "puts an apostrophe before %j, which a spreadsheet would take for a formula",
    (name) => {
      expect(csvText([cells(name)])).toContain(`'${name}`);
    },
  );

  it("leaves other names and numbers as they are, also those below 0", () => {
    expect(csvText([[{ text: "1-2" }, { text: "007" }, { number: "-1.5" }, null]])).toBe("1-2,007,-1.5,\r\n");
  });
});

describe("Markdown", () => {
  it("shows names as typed: no emphasis, no cells, no tags", () => {
    expect(plainMarkdown("a_b*c|d<e>`f`[g]&h;#1\\")).toBe("a\\_b\\*c\\|d\\<e\\>\\`f\\`\\[g\\]\\&h;\\#1\\\\");
  });

  it("begins no list with a name, and leaves numbers alone", () => {
    expect(["- lace", "+ lace", "1. lace", "66.7 %", "-1.5 s"].map(plainMarkdown)).toEqual([
      "\\- lace",
      "\\+ lace",
      "1\\. lace",
      "66.7 %",
      "-1.5 s",
    ]);
  });

  it("lines numbers up at the right", () => {
    expect(markdownTable(["figure", "a"], [["people", "4"]])).toBe(
      "| figure | a |\n| :--- | ---: |\n| people | 4 |\n",
    );
  });
});
