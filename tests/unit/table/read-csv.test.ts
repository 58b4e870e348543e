import { describe, expect, test } from "vitest";
import { readDelimiter } from "../../../src/table/find-delimiter.js";
import { readTable } from "../../../src/table/read-table.js";
import { MOST_COLUMNS, MOST_ROWS, type TableOptions } from "../../../src/table/table.js";

const bytesOf = (text: string) => new TextEncoder().encode(text);
const wide = (text: string, mark: readonly number[] = []) =>
  Uint8Array.from([...mark, ...Buffer.from(text, "utf16le")]);
const swapped = (bytes: Uint8Array) => bytes.map((_, at) => bytes[at % 2 === 0 ? at + 1 : at - 1]!);

async function read(given: string | Uint8Array, options: TableOptions = {}) {
  const bytes = typeof given === "string" ? bytesOf(given) : given;
  const { table, findings } = await readTable("tasks.csv", bytes, options);
  return {
    understood: table?.understood,
    rows: table?.rows.map((row) => row.map(({ text }) => text)),
    numbers: table?.rows.map((row) => row[0]!.row),
    places: table?.rows.map((row) => row.map((cell) => table.whereIs(cell))),
    faults: findings.map(({ rule, place, message }) => `${place?.line ?? "-"} ${rule}: ${message}`),
  };
}

const PLAIN = [
  ["id", "time"],
  ["frame", "30"],
];

describe("every way in which a spreadsheet writes the same table", () => {
  test.each<[string, string | Uint8Array]>([
    ["with commas", "id,time\nframe,30\n"],
    ["with semicolons", "id;time\nframe;30\n"],
    ["with tabs", "id\ttime\nframe\t30\n"],
    ["with pipes", "id|time\nframe|30\n"],
    ["with a byte order mark", "\ufeffid,time\nframe,30\n"],
    ["with lines that end in CR LF", "id,time\r\nframe,30\r\n"],
    ["with lines that end in CR", "id,time\rframe,30\r"],
    ["without an end of the last line", "id,time\nframe,30"],
    ["with blank rows", "\nid,time\n,\n\nframe,30\n,,,\n"],
    ["with every cell in quotes", '"id","time"\n"frame","30"\n'],
    ["in UTF-16 with its mark", wide("id;time\nframe;30\n", [0xff, 0xfe])],
    ["in UTF-16 without a mark", wide("id;time\nframe;30\n")],
    ["in UTF-16 with the high byte first", swapped(wide("id;time\nframe;30\n", [0xff, 0xfe]))],
    ["with a line that states the delimiter", "sep=;\r\nid;time\r\nframe;30\r\n"],
    ["with that line in quotes", '"sep=;"\nid;time\nframe;30\n'],
  ])("%s", async (_, given) => {
    const { rows, faults } = await read(given);
    expect(rows).toEqual(PLAIN);
    expect(faults).toEqual([]);
  });
});

describe("delimiters", () => {
  test("decimal commas are not counted: the headings tell", async () => {
    const { rows, understood } = await read("id;time\nA;2,5\nB;3,5\n");
    expect(rows).toEqual([
      ["id", "time"],
      ["A", "2,5"],
      ["B", "3,5"],
    ]);
    expect(understood).toMatchObject({ kind: "csv", encoding: "UTF-8", delimiter: ";" });
  });

  test("headings with more commas than semicolons are told by the rows", async () => {
    const { rows } = await read("id;time (s, mean, net);pred\nA;12;\n");
    expect(rows![0]).toEqual(["id", "time (s, mean, net)", "pred"]);
  });

  test("a title above the headings tells nothing", async () => {
    const { understood } = await read("Frame line\nid;time\nA;2,5\n");
    expect(understood?.delimiter).toBe(";");
  });

  test("delimiters inside quotes divide nothing", async () => {
    const { rows } = await read('id;name\nA;"fit; check, and mark"\n');
    expect(rows![1]).toEqual(["A", "fit; check, and mark"]);
  });

  test("two delimiters that both fit are refused, with the option that says which", async () => {
    const { rows, faults } = await read("a,b;c\n1,2;3\n");
    expect(rows).toBeUndefined();
    expect(faults).toEqual([
      "1 delimiter: the cells may be divided by comma and semicolon; say which with --delimiter, as in --delimiter comma",
    ]);
    expect((await read("a,b;c\n1,2;3\n", { delimiter: ";" })).rows).toEqual([
      ["a,b", "c"],
      ["1,2", "3"],
    ]);
  });

  test("a stated sign that divides no cells is refused", async () => {
    expect((await read("sep=x\nidxtime\n")).faults[0]).toContain('1 delimiter: "x" divides no cells here');
  });

  test("one column has none", async () => {
    const { rows, understood } = await read("id\nA\nB\n");
    expect([rows, understood?.delimiter]).toEqual([[["id"], ["A"], ["B"]], null]);
  });
});

describe("delimiters on a command line", () => {
  test.each([
    ["semicolon", ";"],
    [";", ";"],
    ["Tab", "\t"],
  ] as const)("%s is taken", (text, value) => {
    expect(readDelimiter(text)).toEqual({ ok: true, value });
  });

  test("another sign is refused", () => {
    expect(readDelimiter(":")).toEqual({
      ok: false,
      problem: '":" is no delimiter; comma, semicolon, tab or pipe is expected',
    });
  });
});

describe("quotes", () => {
  test("hold line ends and doubled quotes, and rows and lines are counted on", async () => {
    const { rows, numbers, places } = await read('id,name\nA,"two\r\nlines"\n\nB,"a ""quick"" check"\n');
    expect(rows).toEqual([
      ["id", "name"],
      ["A", "two\nlines"],
      ["B", 'a "quick" check'],
    ]);
    expect(numbers).toEqual([1, 2, 4]);
    expect(places![2]![1]).toEqual({ line: 5, column: 3, endColumn: 22 });
  });

  test("inside a cell are signs like any other", async () => {
    expect((await read('id,name\nA,5" bolt\n')).rows![1]).toEqual(["A", '5" bolt']);
  });

  test("that are never closed are told with the row that they open in", async () => {
    expect((await read('a,b\n1,2\n3,"x\n4,5\n')).faults[0]).toMatch(
      /^3 quotes: row 3: a quote opens a cell/u,
    );
  });

  test("with text behind them are told", async () => {
    expect((await read('a,b\n1,"x"y\n')).faults[0]).toMatch(
      /^2 quotes: row 2: text follows a closing quote/u,
    );
  });
});

describe("cells stay the text that they are", () => {
  test('="007" is 007, and no formula is worked out', async () => {
    const { rows } = await read('id;name\n="007";=1+2\n\'007;-washer\n22E1;+5V\n');
    expect(rows).toEqual([
      ["id", "name"],
      ["007", "=1+2"],
      ["'007", "-washer"],
      ["22E1", "+5V"],
    ]);
  });

  test("places count signs of the line", async () => {
    const { places } = await read("id;time\nÉcrou;12\n");
    expect(places![1]).toEqual([
      { line: 2, column: 1, endColumn: 6 },
      { line: 2, column: 7, endColumn: 9 },
    ]);
  });
});

describe("files that are no table", () => {
  test("an empty one", async () => {
    expect((await read("")).faults[0]).toMatch(/^1 empty-table: /u);
    expect((await read(",,\n\n;\n")).faults[0]).toMatch(/^1 empty-table: /u);
    expect((await read(",,\n\n")).faults[0]).toMatch(/^1 empty-table: /u);
  });

  test("text of another encoding is refused with its first line", async () => {
    const latin = Uint8Array.from(Buffer.from("id;b\n1;x\n2;é\n", "latin1"));
    expect((await read(latin)).faults[0]).toMatch(/^3 not-text: this is not UTF-8 text at byte 11 /u);
  });

  test("a PDF and an old workbook", async () => {
    expect((await read("%PDF-1.7\n")).faults[0]).toContain("this is a PDF");
    expect((await read(Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1))).faults[0]).toContain(
      "an old or a protected workbook",
    );
  });

  test("more columns than anybody keeps", async () => {
    const row = ",".repeat(MOST_COLUMNS);
    expect((await read(`id${row}\nA${row}\n`)).faults).toEqual([
      "- table-size: the table has 1,001 columns; at most 1,000 are read",
    ]);
  });

  test("more rows than anybody keeps, of which no more are counted", async () => {
    const rows = (count: number) => read(`id,time${"\nA,1".repeat(count - 1)}`);
    expect((await rows(MOST_ROWS)).faults).toEqual([]);
    expect((await rows(MOST_ROWS + 1)).faults).toEqual([
      "- table-size: the table has 100,001 rows; at most 100,000 are read",
    ]);
    expect((await rows(MOST_ROWS + 5)).faults).toEqual([
      "- table-size: the table has more than 100,000 rows; at most 100,000 are read",
    ]);
  });

  test("a row without an end", async () => {
    expect((await read(`id,t\nA,1\nB,"${"x".repeat(2_000_000)}\n`)).faults).toEqual([
      "3 quotes: row 3: the row is longer than 2,000,000 characters; is a quote open, or a line end missing?",
    ]);
  });
});

describe("large tables", () => {
  test("a hundred thousand blank rows are counted and cost nothing", async () => {
    const blank = "\n".repeat(100_000);
    const { numbers, places, faults } = await read(`id,time${blank}frame,30${blank}`);
    expect(numbers).toEqual([1, 100_001]);
    expect(places![1]![1]).toEqual({ line: 100_001, column: 7, endColumn: 9 });
    expect(faults).toEqual([]);
  });

  test("a quote that stays open behind blank rows is told where it stands", async () => {
    const { faults } = await read('\nid,time\n\nframe,30\n\n\n"fork,40\n');
    expect(faults[0]).toMatch(/^7 quotes: row 7: a quote opens a cell in this row/u);
  });
});
