import { describe, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { readReadingsTable } from "../../../src/study/read-readings-table.js";
import { readReadingsYaml } from "../../../src/study/read-readings-yaml.js";
import type { ReadingsReading } from "../../../src/study/readings.js";
import { readTable } from "../../../src/table/read-table.js";
import type { TimeUnit } from "../../../src/time/units.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

interface Given {
  readonly unit?: TimeUnit | null;
  readonly mark?: string;
}

async function read(text: string | Uint8Array, { unit = "s", mark }: Given = {}) {
  const bytes = typeof text === "string" ? new TextEncoder().encode(text) : text;
  const { table } = await readTable("readings.csv", bytes);
  return told(readReadingsTable(table!, { unit, leaveOut: mark ?? null }));
}

const told = ({ readings, findings }: ReadingsReading) => ({
  elements: readings?.elements.map(({ name, task, every, readings: taken }) => ({
    name,
    task,
    every,
    seconds: taken.map(({ shown }) => (shown === null ? null : shown / 1e6)),
    marked: taken.map(({ isMarked }) => isMarked),
    taken,
  })),
  unit: readings?.unit,
  decimalMark: readings?.decimalMark,
  faults: findings.map(
    ({ severity, place, message }) => `${place?.line}:${place?.column} ${severity} ${message}`,
  ),
});

const seconds = async (text: string, given: Given = {}) => {
  const { elements, faults } = await read(text, given);
  return elements?.map((each) => each.seconds) ?? faults;
};

describe("one row an element", () => {
  test("takes each column that is headed by a number, whatever else stands between them", async () => {
    const { elements, faults } = await read(
      "Study of 5 May\nelement,task,every,1,rating,2\nfit,frame,,12,,14\nwipe,frame,5,30,,\n",
    );
    expect(elements!.map(({ taken: _taken, ...each }) => each)).toEqual([
      { name: "fit", task: "frame", every: 1, seconds: [12, 14], marked: [false, false] },
      { name: "wipe", task: "frame", every: 5, seconds: [30], marked: [false] },
    ]);
    expect(faults).toEqual([]);
  });

  test.each([
    "Element,Reading 1,Reading 2",
    "Work element,Cycle 1,cycle 2",
    "element,Obs. 1,Observation 2",
    "Task element,R1,R 2",
    "element,# 1,No. 2",
    "element,Reading 1 (s),2",
  ])("%s number the readings", async (headings) => {
    expect(await seconds(`${headings}\na,12 s,14 s\nb,0:05,6 s\n`)).toEqual([
      [12, 14],
      [5, 6],
    ]);
  });

  test("the unit may stand with the first number", async () => {
    expect(await seconds("element,R1 (cmin),R2 (cmin)\na,50,100\n", { unit: null })).toEqual([[30, 60]]);
  });

  test("a rating of the row is that of each of its readings; 1.2, 120 and 120 % are the same", async () => {
    const { elements } = await read("element,rating,1\na,1.2,5\nb,120,5\nc,120 %,5\nd,,5\n");
    expect(elements!.map(({ taken }) => taken[0]!.rating)).toEqual([
      { num: 6n, den: 5n },
      { num: 6n, den: 5n },
      { num: 6n, den: 5n },
      null,
    ]);
  });

  test("a blank cell is no reading, never 0", async () => {
    expect(await seconds("element,1,2,3\na,5,,7\n")).toEqual([[5, 7]]);
  });

  test("decimal commas are read where the file has them", async () => {
    const { elements, decimalMark } = await read("element;1;2\na;2,5;3,125\n");
    expect([elements![0]!.seconds, decimalMark]).toEqual([[2.5, 3.125], ","]);
  });
});

describe("readings that may be thousands or decimals", () => {
  const file = "element;1;2;3\nfit-fork;980;1.033;1.102\n";
  const studied = (content: string, ...args: string[]) =>
    runLinepoise({ args: ["study", "r.csv", ...args], files: { "r.csv": content } });

  test.each(["tmu", "s", "cmin"])("are asked for in %s", async (unit) => {
    const { status, stdout, stderr } = await studied(file, "--unit", unit);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain('"1.033" is 1033 where decimals take a comma');
    expect(stderr.match(/decimal-mark/gu)).toHaveLength(1);
  });

  test.each([
    ["comma", 1038.333333],
    ["point", 327.378333],
  ])("are what --decimals %s makes them", async (mark, mean) => {
    const { stdout } = await studied(file, "--unit", "s", "--decimals", mark, "--json");
    expect(JSON.parse(stdout).elements[0].meanSeconds).toBe(mean);
  });

  test.each([
    ["turn;1,5;2;2", [980, 1033, 1102]],
    ["turn;1.5;2;2", [980, 1.033, 1.102]],
  ])("are decided by another row: %s", async (row, read) => {
    expect((await seconds(`${file}${row}\n`))[0]).toEqual(read);
  });

  test("are not ratings, of which none is above a thousand", async () => {
    const { elements } = await read("element,rating,1\na,1.125,5\n");
    expect(elements![0]!.taken[0]!.rating).toEqual({ num: 9n, den: 8n });
  });
});

describe("one row a reading", () => {
  test("keeps cycles and observers apart", async () => {
    const { elements } = await read(
      "element,cycle,reading,observer\na,1,5,Ann\nb,1,9,Ann\na,2,6,Ann\na,1,7,Ben\n",
    );
    expect(elements!.map((each) => each.seconds)).toEqual([[5, 6, 7], [9]]);
    expect(elements![0]!.taken.map(({ observer }) => observer)).toEqual(["Ann", "Ann", "Ben"]);
    const cycles = elements![0]!.taken.map(({ cycle }) => cycle);
    expect(new Set(cycles).size).toBe(3);
    expect(elements![1]!.taken[0]!.cycle).toBe(cycles[0]);
  });

  test("headings may carry the unit", async () => {
    expect(await seconds("Element;Reading (cmin)\na;50\n", { unit: null })).toEqual([[30]]);
  });
});

describe("units", () => {
  test("of a row win over those of the file", async () => {
    const { elements, unit } = await read("element,unit,1\na,cmin,50\nb,,30\nc,,1 min\n", { unit: "s" });
    expect([elements!.map((each) => each.seconds), unit]).toEqual([[[30], [30], [60]], null]);
  });

  test("of a heading and of --unit that differ are refused", async () => {
    expect((await read("element,reading (cmin)\na,50\n", { unit: "min" })).faults).toEqual([
      "1:9 error row 1, column B: the file says cmin here, and --unit says min; leave out the one that is wrong",
    ]);
  });

  test("4:17 is minutes and seconds under any unit", async () => {
    expect(await seconds("element,1\na,4:17\n", { unit: "min" })).toEqual([[257]]);
  });

  test("bare numbers without a unit are refused, once for all of them", async () => {
    expect((await read("element,1,2\na,12,4:17\nb,13,14\n", { unit: null })).faults).toEqual([
      "2:3 error row 2, column B: bare numbers need a unit; give --unit s, min or cmin, or `unit` in the file",
    ]);
  });
});

describe("marks", () => {
  test.each(["3.7a", "a3.7", "3.7 a"])("%s is left out where a is the mark", async (text) => {
    const { elements } = await read(`element,1,2\nx,${text},.4\n`, { mark: "a" });
    expect(elements![0]).toMatchObject({ seconds: [3.7, 0.4], marked: [true, false] });
  });

  test("a mark alone is a reading that was missed", async () => {
    const { elements } = await read("element,1,2\nx,M,4\n", { mark: "M" });
    expect(elements![0]).toMatchObject({ seconds: [null, 4], marked: [true, false] });
  });

  test("a letter beside a number is no part of it, and the option that takes it is named", async () => {
    expect((await read("element,1,2\nx,.4,3.7a\n")).faults).toEqual([
      '2:6 error row 2, column C: "3.7a" is not a time: "a" is no unit; units are s, min, h, cmin, tmu. If "a" marks a reading that does not count, give --leave-out a',
    ]);
  });
});

test("a mark that means files on a command line is quoted in the option that takes it", async () => {
  expect((await read("element,1\nx,3.7*\n")).faults[0]).toContain("give --leave-out '*'");
});

describe("every fault is told with its row and column", () => {
  test.each<[string, string, string]>([
    ["a reading that is none", "element,1\na,abc\n", '2:3 error row 2, column B: "abc" is not a time'],
    ["about so much", "element,1\na,~12\n", '2:3 error row 2, column B: "~12" is not a time'],
    ["a range", "element,1\na,12-15\n", '2:3 error row 2, column B: "12-15" is not a time'],
    ["a negative one", "element,1\na,−5\n", '2:3 error row 2, column B: "−5" is not a time'],
    ["no time at all", "element,1\na,0\n", '2:3 error row 2, column B: "0" is no reading'],
    [
      "mm:ss read as hh:mm",
      "element,1\na,4:17:00\n",
      '2:3 error row 2, column B: "4:17:00" is 4 h 17 min; spreadsheets make that of mm:ss',
    ],
    [
      "both decimal marks",
      "element;1;2\na;2,5;2.5\n",
      '2:7 error row 2, column C: decimals take another mark in "2.5" than in "2,5" (row 2, column B)',
    ],
    [
      "a rating far from 100 %",
      "element,rating,1\na,40 %,5\n",
      '2:3 error row 2, column B: "40 %" is too far from 100 %',
    ],
    [
      "a rating with two readings",
      "element,rating,1\na,11,5\n",
      '2:3 error row 2, column B: "11" is too far from 100 %',
    ],
    ["a unit that is none", "element,unit,1\na,sec,5\n", '2:3 error row 2, column B: "sec" is no unit'],
    [
      "an element without a name",
      "element,1\n,5\n",
      "2:1 error row 2, column A: the element is missing in this row",
    ],
    ["an element twice", "element,1\na,5\na,6\n", '3:1 error row 3, column A: "a" stands here a second time'],
    ["no readings", "element,1\na,\n", '2:1 error row 2, column A: "a" has no readings'],
    [
      "more cells than headings",
      "element,1\na,5,6\n",
      "2:5 error row 2, column C: the row has more cells than there are headings",
    ],
    [
      "no column of elements",
      "elemnt,1\na,5\n",
      "1:1 error row 1, column A: no column is called element; nearest: element",
    ],
    [
      "no column of readings",
      "element,time\na,5\n",
      "1:1 error row 1, column A: there is no column of readings",
    ],
    [
      "both layouts",
      "element,reading,1\na,5,6\n",
      "1:1 error row 1, column A: there is a column reading and there are columns headed by numbers",
    ],
    [
      "a number twice",
      "element,R1,Cycle 1\na,5,6\n",
      "1:12 error row 1, column C: a second column is headed 1",
    ],
    ["a heading twice", "element,1,1\na,5,6\n", "1:11 error row 1, column C: a second column is headed 1"],
    [
      "a missing reading",
      "element,reading\na,\n",
      "2:1 error row 2, column A: the reading is missing in this row",
    ],
    [
      "two tasks of an element",
      "element,task,reading\na,x,5\na,y,6\n",
      '3:3 error row 3, column B: "a" is a part of "x" in row 2, column A',
    ],
  ])("%s", async (_, text, fault) => {
    const { elements, faults } = await read(text);
    expect(elements).toBeUndefined();
    expect(
      faults.some((each) => each.startsWith(fault)),
      faults.join("\n"),
    ).toBe(true);
  });

  test("rows with faults are rows: no word of a table without any", async () => {
    expect((await read("element,1\n,5\n")).faults).toHaveLength(1);
    expect((await read("element,1\n")).faults).toEqual([
      "1:1 error row 1, column A: no element stands below the headings",
    ]);
  });

  test("all of them in one run", async () => {
    expect((await read("element,rating,1\na,9,x\nb,,0\n")).faults).toHaveLength(3);
  });

  test("a sum and a column that is not read are told and left out", async () => {
    const { elements, faults } = await read("element,1,remark\na,5,x\nTOTAL,5,\n");
    expect(elements!.map(({ name }) => name)).toEqual(["a"]);
    expect(faults).toEqual([
      '1:11 warning row 1, column C: the column "remark" is not read',
      '3:1 warning row 3, column A: "TOTAL" is taken for a sum and left out',
    ]);
  });
});

describe("a workbook", () => {
  test("has typed numbers and times of day", async () => {
    const bytes = await writeWorkbook([
      ["element", "rating", 1, 2],
      ["fit", 1.1, 12.5, { value: 42 / 86_400, type: Number, format: "[mm]:ss" }],
    ]).toBuffer();
    const { elements } = await read(bytes);
    expect(elements![0]).toMatchObject({ seconds: [12.5, 42] });
  });

  test("has calculated numbers as a spreadsheet shows them, with 15 digits that count", async () => {
    const bytes = await writeWorkbook([
      ["element", 1, 2],
      ["fit", 33.199999999999996, 0.1 + 0.2],
    ]).toBuffer();
    expect((await read(bytes)).elements![0]!.seconds).toEqual([33.2, 0.3]);
  });

  test("has thirds of a minute, which are rounded to a microsecond and told of once", async () => {
    const bytes = await writeWorkbook([
      ["element", "unit", 1, 2],
      ["fit", "min", 1 / 3, 2 / 3],
      ["press", "s", 1 / 3, 12],
    ]).toBuffer();
    const { elements, faults } = await read(bytes);
    expect(elements!.map(({ seconds }) => seconds)).toEqual([
      [20, 40],
      [0.333333, 12],
    ]);
    expect(faults).toEqual([
      '2:3 warning row 2, column C: "0.333333333333333" is rounded to 20 s, a whole number of microseconds; so are 2 further readings',
    ]);
  });

  test("shows a number beyond all times whole", async () => {
    const bytes = await writeWorkbook([
      ["element", 1],
      ["fit", 1e300],
    ]).toBuffer();
    expect((await read(bytes)).faults[0]).toContain('"1e+300" is not a time');
  });

  test("that took 4:17 for a time of day, or 3-5 for a date, is told so", async () => {
    const bytes = await writeWorkbook([
      ["element", 1, 2],
      [
        "fit",
        { value: 15_420 / 86_400, type: Number, format: "hh:mm" },
        { value: new Date(Date.UTC(2026, 2, 5)), type: Date, format: "d-mmm" },
      ],
    ]).toBuffer();
    const { faults } = await read(bytes);
    expect(faults[0]).toContain('row 2, column B: "4:17:00" is 4 h 17 min');
    expect(faults[1]).toContain("row 2, column C: the spreadsheet keeps 2026-03-05 here");
  });
});

test("the sheets of a workbook that were not read are named", async () => {
  const bytes = await writeWorkbook([
    {
      sheet: "May",
      data: [
        ["element", 1],
        ["fit", 5],
      ],
    },
    { sheet: "June", data: [["other"]] },
  ]).toBuffer();
  const run = await runLinepoise({
    args: ["study", "r.xlsx", "--unit", "s"],
    files: { "r.xlsx": new Uint8Array(bytes) },
  });
  expect(run.stdout).toContain("1 element: one row an element; sheet May, not June; snapback watch");
});

test("the readings of an element are drawn at 100 columns where the report has no end", async () => {
  const drawn = async (env: Readonly<Record<string, string>>) => {
    const files = {
      "r.csv": `element,${Array.from({ length: 60 }, (_, at) => at + 1)}\nfit${",5".repeat(60)}\n`,
    };
    return (await runLinepoise({ args: ["study", "r.csv", "--unit", "s", "--picture", "fit"], files, env }))
      .stdout;
  };
  const hundred = (await drawn({ COLUMNS: "100" })).split("READINGS\n")[1]!;
  expect(hundred.match(/•/gu)!.length).toBe(61);
  for (const columns of ["", "0", "-5", "abc"])
    expect((await drawn({ COLUMNS: columns })).split("READINGS\n")[1]).toContain(
      hundred.split("• reading")[0],
    );
});

describe("YAML", () => {
  test("of a unit is refused where --unit says another", () => {
    const read = (unit: TimeUnit) =>
      told(readReadingsYaml("r.yaml", "unit: s\nelements:\n  fit: [5]\n", { unit, leaveOut: null })).faults;
    expect(read("min")).toEqual([
      "1:7 error the file says s here, and --unit says min; leave out the one that is wrong",
    ]);
    expect(read("s")).toEqual([]);
  });

  test("of a line is no file of readings, and is told so alone", () => {
    expect(yaml("line: Bench\nunit: s\ntasks:\n  fit: 40\n").faults).toEqual([
      "1:1 error this is a line file; study takes readings of a stopwatch (`elements:` in YAML), and puts times into a line file by --into",
    ]);
  });

  const yaml = (text: string, mark: string | null = null) =>
    told(readReadingsYaml("readings.yaml", text, { unit: null, leaveOut: mark }));

  test("has lists of readings, or maps with more", () => {
    const { elements, faults } = yaml(
      "unit: cmin\nelements:\n  fit: [50, 3.5*, 0:31]\n  wipe: {task: frame, every: 5, unit: s, rating: 90 %, readings: [12]}\n",
      "*",
    );
    expect(faults).toEqual([]);
    expect(elements!.map(({ taken: _taken, ...each }) => each)).toEqual([
      { name: "fit", task: null, every: 1, seconds: [30, 2.1, 31], marked: [false, true, false] },
      { name: "wipe", task: "frame", every: 5, seconds: [12], marked: [false] },
    ]);
  });

  test("tells of every fault with its place", () => {
    expect(yaml("unit: s\nelements:\n  fit: [5, x]\n  wipe: []\n  oil: {reading: [5]}\n").faults).toEqual([
      expect.stringMatching(/^5:\d+ error elements, oil: no key "reading" is known here; nearest: readings/u),
      expect.stringMatching(/^5:\d+ error elements, oil: `readings` is missing/u),
      '3:12 error element fit: "x" is not a time: write a number and a unit (s, min, h, cmin, tmu), such as 40 s, or mm:ss',
      "4:3 error element wipe: it has no readings",
    ]);
  });
});
