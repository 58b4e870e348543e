import { zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { readTable } from "../../../src/table/read-table.js";
import type { TableOptions } from "../../../src/table/table.js";

/* Workbooks are written by a library that shares nothing with the one that reads them. */

async function read(bytes: Uint8Array, options: TableOptions = {}) {
  const { table, findings } = await readTable("tasks.xlsx", bytes, options);
  return {
    understood: table?.understood,
    rows: table?.rows.map((row) => row.map(({ kind, text }) => [kind, text])),
    numbers: table?.rows.map((row) => row[0]!.row),
    faults: findings.map(({ rule, message }) => `${rule}: ${message}`),
  };
}

const DAY = 24 * 60 * 60;
const text = (value: string) => ["text", value];

describe("what a workbook types is kept apart", () => {
  test("text, numbers, dates, times of day, marks and blanks", async () => {
    const bytes = await writeWorkbook([
      ["id", "time", "date", "clock", "mark"],
      [
        "007",
        0.1,
        { value: new Date(Date.UTC(2026, 2, 5)), type: Date, format: "d-mmm" },
        { value: 257 / DAY, type: Number, format: "[mm]:ss" },
        true,
      ],
      [null, null, null, null, null],
      ["Écrou ", 1e-7, null, { value: 15420 / DAY, type: Number, format: "hh:mm" }, false],
    ]).toBuffer();
    const { rows, numbers, understood, faults } = await read(bytes);
    expect(rows!.slice(1)).toEqual([
      [text("007"), ["number", "0.1"], ["date", "2026-03-05"], ["duration", "0:04:17"], ["yes-no", "true"]],
      [text("Écrou "), ["number", "0.0000001"], text(""), ["duration", "4:17:00"], ["yes-no", "false"]],
    ]);
    expect(numbers).toEqual([1, 2, 4]);
    expect(understood).toEqual({
      kind: "workbook",
      encoding: null,
      delimiter: null,
      sheet: "Sheet1",
      otherSheets: [],
    });
    expect(faults).toEqual([]);
  });

  test("times of day are whole seconds whatever part of a day they are", async () => {
    const seconds = Array.from({ length: 120 }, (_, at) => 7 * at + 1);
    const bytes = await writeWorkbook(
      seconds.map((each) => [{ value: each / DAY, type: Number, format: "[mm]:ss" }]),
    ).toBuffer();
    const shown = seconds.map((each) => {
      const [minutes, rest] = [Math.floor(each / 60), each % 60];
      return `0:${String(minutes).padStart(2, "0")}:${String(rest).padStart(2, "0")}`;
    });
    expect((await read(bytes)).rows!.map(([cell]) => cell![1])).toEqual(shown);
  });

  test("text that looks like a formula is text", async () => {
    const bytes = await writeWorkbook([["id"], ["=1+2"], ["-washer"], ["+5V"], ["@tag"]]).toBuffer();
    expect((await read(bytes)).rows!.map(([cell]) => cell)).toEqual(
      ["id", "=1+2", "-washer", "+5V", "@tag"].map(text),
    );
  });
});

describe("sheets", () => {
  const sheets = [
    { sheet: "Cover", data: [[null]] },
    { sheet: "Tasks", data: [["id"], ["A"]] },
    { sheet: "Notes", data: [["old"]] },
  ];

  test("the first with anything in it is read, and the others are named", async () => {
    const { rows, understood } = await read(await writeWorkbook(sheets).toBuffer());
    expect(rows).toEqual([[text("id")], [text("A")]]);
    expect(understood).toMatchObject({ sheet: "Tasks", otherSheets: ["Notes"] });
  });

  test("another is read where it is asked for, and one that is not there is refused", async () => {
    const bytes = await writeWorkbook(sheets).toBuffer();
    expect((await read(bytes, { sheet: "Notes" })).rows).toEqual([[text("old")]]);
    expect((await read(bytes, { sheet: "Task" })).faults).toEqual([
      'sheet: no sheet is called "Task"; nearest: Tasks',
    ]);
  });
});

/** A workbook of one sheet with this XML for its rows, and with others that have no cells anywhere. */
const made = (rows: string, more: Record<string, Uint8Array> = {}, others = "") => {
  const main = "http://schemas.openxmlformats.org";
  const file = (content: string) => new TextEncoder().encode(content);
  return zipSync(
    {
      "xl/workbook.xml": file(
        `<workbook xmlns="${main}/spreadsheetml/2006/main" xmlns:r="${main}/officeDocument/2006/relationships"><sheets><sheet name="One" sheetId="1" r:id="rId1"/>${others}</sheets></workbook>`,
      ),
      "xl/_rels/workbook.xml.rels": file(
        `<Relationships xmlns="${main}/package/2006/relationships"><Relationship Id="rId1" Type="${main}/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
      ),
      "xl/worksheets/sheet1.xml": file(
        `<worksheet xmlns="${main}/spreadsheetml/2006/main"><sheetData>${rows}</sheetData></worksheet>`,
      ),
      ...more,
    },
    { level: 1 },
  );
};

describe("what is wrong is told with its row and column", () => {
  test("numbers with the noise of binary fractions are the number that was typed", async () => {
    const bytes = made(
      '<row r="1"><c r="A1"><v>0.10000000000000001</v></c><c r="B1"><v>1.5E-3</v></c></row>',
    );
    expect((await read(bytes)).rows).toEqual([
      [
        ["number", "0.1"],
        ["number", "0.0015"],
      ],
    ]);
  });

  test("a formula without a value", async () => {
    const bytes = made('<row r="1"/><row r="2"><c r="C2" t="str"><f>A1&amp;"x"</f></c></row>');
    expect((await read(bytes)).faults).toEqual([
      "cell-error: row 2, column C: the formula has no value in the file; open it in a spreadsheet and save it again",
    ]);
  });

  test("an error that the spreadsheet shows", async () => {
    const bytes = made('<row r="1"><c r="A1" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>');
    expect((await read(bytes)).faults).toEqual([
      "cell-error: row 1, column A: the spreadsheet itself shows #DIV/0! here; mend its formula",
    ]);
  });
});

describe("archives that are no workbook, or too much of one", () => {
  test("a damaged one and another archive", async () => {
    const bytes = await writeWorkbook([["id"], ["A"]]).toBuffer();
    expect((await read(bytes.subarray(0, 800))).faults[0]).toContain("the workbook is damaged");
    expect((await read(zipSync({ "content.xml": new Uint8Array(9) }))).faults[0]).toContain(
      "an archive but no workbook",
    );
    const without = made("", {}, '<sheet name="Two" sheetId="2" r:id="rId9"/>');
    expect((await read(without)).faults).toEqual([
      'workbook: the workbook is damaged: the cells of sheet "Two" are missing; save it anew',
    ]);
    const broken = Uint8Array.from(bytes);
    broken.fill(0xaa, 60, 200);
    expect((await read(broken)).faults[0]).toContain("the workbook is damaged");
  });

  const bomb = made("", { "xl/worksheets/sheet2.xml": new Uint8Array(101_000_000) });

  test("one that unpacks to more than is read is refused before it is unpacked whole", async () => {
    expect(bomb.length).toBeLessThan(1_000_000);
    expect((await read(bomb)).faults).toEqual([
      "workbook: the workbook unpacks to more than 100,000,000 bytes, which no list of tasks needs",
    ]);
  });

  test("what it says of its own size is not believed", async () => {
    const lying = Uint8Array.from(bomb);
    const view = new DataView(lying.buffer);
    for (let at = 0; at + 30 < lying.length; at += 1) {
      if (view.getUint32(at, true) === 0x04034b50) view.setUint32(at + 22, 1, true);
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 1, true);
    }
    expect((await read(lying)).faults[0]).toContain("unpacks to more than 100,000,000 bytes");
  });

  test("a cell far out does not fill the memory with the rows before it", async () => {
    const far = made(
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>',
    );
    expect((await read(far)).faults).toEqual([
      "workbook: a sheet reaches to row 1,048,576 and column 16,384; at most 100,000 rows, 1,000 columns and 2,000,000 cells are read",
    ]);
  });

  test("formats without content reach nowhere", async () => {
    const formats = made(
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576" s="0"/></row>',
    );
    expect((await read(formats)).rows).toEqual([[["number", "1"]]]);
  });

  test("more tags than a table has are refused, and each sheet counts that is one and the same file", async () => {
    const refusal =
      "workbook: the sheets of the workbook hold more than 1,000,000 tags of XML, four for a cell; no more are read: keep the one table in a workbook of its own";
    const styled = "<row/>".repeat(1_000_000);
    expect((await read(made(styled))).faults).toEqual([refusal]);
    const sheets = '<sheet name="One" sheetId="1" r:id="rId1"/>'.repeat(200);
    const main = "http://schemas.openxmlformats.org";
    const content = `<workbook xmlns="${main}/spreadsheetml/2006/main" xmlns:r="${main}/officeDocument/2006/relationships"><sheets>${sheets}</sheets></workbook>`;
    const same = { "xl/workbook.xml": new TextEncoder().encode(content) };
    expect((await read(made("<row/>".repeat(5_000), same))).faults).toEqual([refusal]);
  });

  test("an archive of thousands of files is refused", async () => {
    const files = Array.from({ length: 5_001 }, (_, at) => [`xl/media/${at}.png`, new Uint8Array(0)]);
    expect((await read(made("", Object.fromEntries(files)))).faults).toEqual([
      "workbook: the workbook is an archive of 5,004 files; at most 5,000 are read",
    ]);
  });

  test("cells that are never closed are looked at once, not each with all behind it", async () => {
    const open = made(`<row r="1"><c r="A1"><v>1</v></c>${'<c r="B1" t="e"><v>#N/A</v>'.repeat(20_000)}`);
    expect((await read(open)).faults).toHaveLength(1);
  });

  test("a tag of a megabyte is refused before the library gets it, and words without an end are read once", async () => {
    const long = (value: string) => made(`<row r="1"><c r="A1" ${value}><v>1</v></c></row>`);
    const refusal =
      "workbook: the workbook is damaged: xl/worksheets/sheet1.xml has a tag without an end; save it anew";
    expect((await read(long(`x="${"a".repeat(1_000_000)}"`))).faults).toEqual([refusal]);
    expect((await read(long("a".repeat(90_000)))).rows).toEqual([[["number", "1"]]]);
  });
});
