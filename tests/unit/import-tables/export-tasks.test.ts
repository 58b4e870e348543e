import fc from "fast-check";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { checkExport } from "../../../src/import-tables/check-export.js";
import { exportTasks } from "../../../src/import-tables/export-tasks.js";
import { lineFileOf } from "../../../src/import-tables/line-of-tasks.js";
import { readTaskTable } from "../../../src/import-tables/read-task-table.js";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { keysOfTasks } from "../../../src/line/write/keys-of-tasks.js";
import { readTable } from "../../../src/table/read-table.js";
import { type CsvHabits, guarded, type Sheet } from "../../../src/table/sheet.js";
import { writeCsv } from "../../../src/table/write-csv.js";
import { writeWorkbook } from "../../../src/table/write-workbook.js";
import { readDuration } from "../../../src/time/duration.js";
import { readPage } from "../../readme/read-page.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

/* What is written by one library is read by another: csv-stringify by csv-parse, write-excel-file by read-excel-file. */

const COMMAS: CsvHabits = { delimiter: ",", decimals: ".", guard: true };
const HABITS: readonly CsvHabits[] = ([",", ";", "\t", "|"] as const).flatMap((delimiter) =>
  ([".", ","] as const).map((decimals) => ({ delimiter, decimals, guard: true })),
);

function exported(text: string) {
  const { line, document, findings } = readLine("l.yaml", text);
  expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
  return { line: line!, ...exportTasks({ line: line!, source: text, document: document! }) };
}

const csvBytes = (sheet: Sheet, habits: CsvHabits) => new TextEncoder().encode(writeCsv(sheet, habits));

/** The line that import makes of a table, without any option. */
async function importedLine(bytes: Uint8Array, models: readonly string[]) {
  const { table, findings } = await readTable("t.csv", bytes);
  expect(findings).toEqual([]);
  const options = {
    unit: null,
    columns: new Map(),
    ranges: false,
    nothing: [],
    others: [],
    hasOrders: false,
    decimals: null,
  };
  const read = readTaskTable(table!, { ...options, models });
  const told = [...read.findings, ...read.asLine().findings];
  expect(told.filter(({ severity }) => severity === "error")).toEqual([]);
  const text = lineFileOf(read.imported!);
  const made = readLine("t.yaml", text);
  expect(made.findings.filter(({ severity }) => severity === "error")).toEqual([]);
  return { line: made.line!, noted: notesOf(text) };
}

/** What `study` writes of each task, which no figure rests on: a line file is asked, as a line does not have it. */
function notesOf(text: string) {
  const { document, line } = readLine("l.yaml", text);
  return [...keysOfTasks(document!)].map(([id, keys]) => {
    const typed = (key: string) => keys.find((each) => each.key === key)?.texts?.[0];
    const spread = typed("spread");
    return [id, typed("readings"), spread === undefined ? null : readDuration(spread, line!.unit)];
  });
}

/** All that a table says of the tasks, by the key of the id. */
const told = ({ tasks, before }: Line) =>
  new Map(
    tasks.map((task, at) => [
      task.id.normalize("NFC").trim(),
      {
        name: task.name,
        times: task.times,
        quantity: task.quantity,
        walking: task.walking,
        machineTime: task.machineTime,
        every: task.every,
        people: task.people,
        zone: task.zone,
        skills: [...task.skills].sort(),
        equipment: [...task.equipment].sort(),
        kind: task.kind,
        lift: task.lift === null ? null : Number.parseFloat(task.lift),
        caution: task.caution,
        moveCost: task.moveCost,
        training: task.training,
        learning: task.learning,
        stations: task.stations,
        notBefore: task.notBefore,
        notAfter: task.notAfter,
        onBase: task.onBase,
        checks: task.checks,
        after: before[at]!.map((each) => tasks[each]!.id.normalize("NFC").trim()).sort(),
      },
    ]),
  );

/** Signs that tables, spreadsheets and YAML give a meaning to, and letters of many scripts. */
const SIGNS = [..."=+-@'\"`,;|/&()[]{}<>#%:.?*!$^~\\ _x0123456789eEaAñßœяж中🙂Ａ"];
const words = (most: number) =>
  fc.oneof(
    fc.array(fc.constantFrom(...SIGNS), { minLength: 1, maxLength: most }).map((signs) => signs.join("")),
    fc.string({ unit: "grapheme", minLength: 1, maxLength: most }),
    fc.constantFrom(
      "=1+1",
      "'=x",
      "''",
      "-",
      "--",
      "none",
      "TOTAL",
      "n/a",
      "1E+5",
      "3-5",
      "007",
      "_x0041_",
      "and",
      "A x 2",
      "true",
      "two\nlines",
      "5-Mar",
      "toString",
      "__proto__",
    ),
  );
const UNSEEN = /[\p{Cc}\p{Cn}\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]|\p{Surrogate}/gu;
const seen = (text: string) => text.replace(UNSEEN, "").trim();
const ids = fc.uniqueArray(
  words(8).map((text) => seen(text) || "x"),
  { minLength: 1, maxLength: 7, selector: (id) => id.normalize("NFC") },
);
const name = words(12).map((text) => text.replace(/[\r\ufeff]|\p{Surrogate}/gu, "").trim() || "x");
const named = fc.option(name);
const task = fc.record({
  time: fc.integer({ min: 1, max: 4e9 }),
  quantity: fc.integer({ min: 1, max: 3 }),
  walking: fc.constantFrom(0, 1, 1_234_000, 2_500_000),
  machine: fc.constantFrom(0, 40_000_000),
  every: fc.constantFrom(1, 10),
  people: fc.constantFrom(1, 2),
  name: named,
  caution: named,
  zone: fc.option(words(5).map((text) => seen(text) || "z")),
  skill: fc.uniqueArray(
    words(5).map((text) => seen(text) || "s"),
    { maxLength: 2, selector: (word) => word.normalize("NFC") },
  ),
  equipment: fc.uniqueArray(
    words(5).map((text) => seen(text) || "e"),
    { maxLength: 2, selector: (word) => word.normalize("NFC") },
  ),
  kind: fc.constantFrom(null, "necessary"),
  lift: fc.constantFrom(null, "4 kg", "27.5 kg", "1.234 kg"),
  moveCost: fc.constantFrom(null, "3"),
  training: fc.constantFrom(null, "2 h", "1 s"),
  learning: fc.constantFrom(null, "85 %"),
  station: fc.constantFrom(null, "S1", ["S1", "S2"]),
  notBefore: fc.constantFrom(null, "S1"),
  notAfter: fc.constantFrom(null, "S3"),
  onBase: fc.constantFrom(null, "true", "false"),
  check: fc.uniqueArray(name, { maxLength: 2 }),
  spread: fc.constantFrom(null, "0.5 s", "1234 tmu"),
  readings: named,
  before: fc.array(fc.nat(), { maxLength: 3 }),
});

const seconds = (micros: number) => `${Math.floor(micros / 1e6)}.${String(micros % 1e6).padStart(6, "0")} s`;

/** A line file in which every text is in quotes. */
function lineText(
  names: readonly string[],
  tasks: readonly (typeof task extends fc.Arbitrary<infer T> ? T : never)[],
): string {
  const rows = names.map((id, at) => {
    const each = tasks[at % tasks.length]!;
    const after = at === 0 ? [] : [...new Set(each.before.map((one) => names[one % at]!))];
    const keys = {
      name: each.name,
      time: seconds(each.time),
      quantity: String(each.quantity),
      walking: each.walking === 0 ? null : seconds(each.walking),
      "machine-time": each.machine === 0 ? null : seconds(each.machine),
      every: String(each.every),
      people: String(each.people),
      zone: each.zone,
      skill: each.skill.length === 0 ? null : each.skill,
      equipment: each.equipment.length === 0 ? null : each.equipment,
      kind: each.kind,
      lift: each.lift,
      caution: each.caution,
      "move-cost": each.moveCost,
      training: each.training,
      learning: each.learning,
      station: each.station,
      "not-before": each.notBefore,
      "not-after": each.notAfter,
      "on-base": each.onBase,
      check: each.check.length === 0 ? null : each.check,
      spread: each.spread,
      readings: each.readings,
      after: after.length === 0 ? null : after,
    };
    const said = Object.entries(keys).filter(([, value]) => value !== null);
    return `  ${JSON.stringify(id)}: {${said.map(([key, value]) => `${key}: ${JSON.stringify(value)}`).join(", ")}}\n`;
  });
  return `unit: s\ntasks:\n${rows.join("")}`;
}

describe("a table that is exported", () => {
  test("gives back the line with whatever names and values, from CSV of every dialect and from a workbook", async () => {
    const lines = ids.chain((names) =>
      fc.tuple(fc.constant(names), fc.array(task, { minLength: names.length, maxLength: names.length })),
    );
    await fc.assert(
      fc.asyncProperty(lines, fc.constantFrom(...HABITS), async ([names, tasks], habits) => {
        const text = lineText(names, tasks);
        const { line } = readLine("l.yaml", text);
        fc.pre(line !== null);
        const { sheet, leftOut } = exported(text);
        expect(leftOut).toEqual([]);
        for (const bytes of [csvBytes(sheet, habits), await writeWorkbook("Line", sheet)]) {
          const back = await importedLine(bytes, []);
          expect(told(back.line)).toEqual(told(line!));
          expect(back.noted).toEqual(notesOf(text));
        }
      }),
      { numRuns: 80, seed: 11 },
    );
  });

  test.each(["cargo-bike.line.yaml", "two-models.line.yaml"])(
    "of %s gives back its tasks and their order",
    async (file) => {
      const { line, sheet } = exported(readPage(`examples/${file}`));
      const models = line.models.map(({ id }) => id);
      for (const bytes of [
        ...HABITS.map((habits) => csvBytes(sheet, habits)),
        await writeWorkbook("Line", sheet),
      ])
        expect(told((await importedLine(bytes, models)).line)).toEqual(told(line));
    },
  );

  test("has times of models side by side, and a dash where a model does not have the task", () => {
    const { sheet } = exported(
      'unit: s\nmodels: {city: 1, cargo: 2}\ntasks:\n  A: {time: {city: 24, cargo: 38}}\n  B: {time: {city: "-", cargo: 46}, after: A}\n  C: 3\n',
    );
    expect(writeCsv(sheet, COMMAS)).toBe(
      "id,time cargo (s),time city (s),after\r\nA,38,24,\r\nB,46,-,A\r\nC,3,3,\r\n",
    );
  });

  test("is in the unit of the line where every time is a short decimal in it, and else in seconds", () => {
    const one = (text: string) => writeCsv(exported(text).sheet, COMMAS);
    expect(one("unit: min\ntasks:\n  A: 0.65\n")).toContain("id,time (min),after\r\nA,0.65,");
    expect(one("unit: min\ntasks:\n  A: 1 s\n")).toContain("id,time (s),after\r\nA,1,");
    expect(one("tasks:\n  A: 1000 tmu\n")).toContain("id,time (s),after\r\nA,36,");
  });

  test("has a fourth decimal where three might be thousands", () => {
    const { sheet } = exported("unit: s\ntasks:\n  A: 1.234\n");
    expect(writeCsv(sheet, { delimiter: ";", decimals: ",", guard: true })).toContain("A;1,2340;");
  });

  test("keeps the order of the file", () => {
    const { sheet } = exported("unit: s\ntasks:\n  T10: 1\n  T2: {time: 2, after: T10}\n  T1: 3\n");
    expect(sheet.slice(1).map(([id]) => id)).toEqual(["T10", "T2", "T1"].map((text) => ({ text })));
  });

  test("tells of each key that it cannot carry, with its tasks", () => {
    const { leftOut, findings } = exported(
      "unit: s\nmodels: {m: 1, n: 1}\ntasks:\n  A: {time: 1, quantity: {m: 1, n: 2}, variation: {shape: normal, cv: 20 %}}\n  B: {time: 2, after: {task: A, wait: 9 s}, variation: {shape: normal, cv: 10 %}, learning: {share: 85 %}}\n  C: {time: 1, parts: {p: {m: 1, n: 2}}}\n",
    );
    expect(leftOut).toEqual([
      { key: "quantity", tasks: ["A"] },
      { key: "variation", tasks: ["A", "B"] },
      { key: "after", tasks: ["B"] },
      { key: "learning", tasks: ["B"] },
      { key: "parts", tasks: ["C"] },
    ]);
    expect(findings.map(({ message }) => message)).toContain(
      "`variation` of A and B has no place in a table; it stays in the line file",
    );
  });

  test("carries parts, whatever they are called", async () => {
    const text = 'unit: s\ntasks:\n  A: {time: 1, parts: {HC-12: 2, "bolt; M6": 1, "a x 3": 4, "q\\"": 1}}\n';
    const { sheet } = exported(text);
    const { table } = await readTable("t.csv", csvBytes(sheet, COMMAS));
    const options = {
      unit: null,
      columns: new Map(),
      ranges: false,
      nothing: [],
      others: [],
      hasOrders: false,
      models: [],
      decimals: null,
    };
    const { imported } = readTaskTable(table!, options);
    expect(imported!.tasks[0]!.texts.get("parts")!.text).toEqual(
      new Map([
        ["HC-12", "2"],
        ["bolt; M6", "1"],
        ["a x 3", "4"],
        ['q"', "1"],
      ]),
    );
  });
});

describe("cells that a spreadsheet would work out", () => {
  test("never begin with what begins a formula, and read back as they were", async () => {
    await fc.assert(
      fc.asyncProperty(words(10), async (text) => {
        // Readers of CSV take CR and CRLF for LF.
        const plain = text.replace(/(?!\n)\p{Cc}|\ufeff|\p{Surrogate}/gu, "");
        fc.pre(plain.trim() !== "" && plain !== "-");
        expect(guarded(plain)).not.toMatch(/^[=+@\t-]/u);
        const bytes = csvBytes(
          [
            [{ text: "head" }, { text: "other" }],
            [{ text: plain }, { text: "x" }],
          ],
          COMMAS,
        );
        const { table } = await readTable("t.csv", bytes);
        expect(table!.rows[1]![0]!.text).toBe(plain);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  test("are text in a workbook, in which numbers are numbers (ISO/IEC 29500, SpreadsheetML)", async () => {
    const rows: Sheet = [
      [{ text: "a" }, { text: "b" }],
      [{ text: "=1+1" }, { number: "27.5" }],
    ];
    const bytes = await writeWorkbook("x", rows);
    const files = unzipSync(bytes);
    const sheet = strFromU8(files["xl/worksheets/sheet1.xml"]!);
    expect(sheet).toMatch(/<c r="A2"[^>]* t="s"[^>]*><v>\d+<\/v><\/c><c r="B2"[^>]*><v>27\.5<\/v><\/c>/u);
    expect(sheet).not.toContain("<f>");
    expect(await writeWorkbook("x", rows)).toEqual(bytes);
  });
});

describe("the command", () => {
  const LINE =
    "line: Bench\nunit: s\ntasks:\n  A: {time: 2.5, name: Fräse} # bare\n  B: {time: 4, after: A, variation: {shape: normal, cv: 10 %}}\n";
  const run = (args: readonly string[], files: Record<string, string> = { "l.yaml": LINE }) =>
    runLinepoise({ args: ["export", ...args], files });

  test("prints CSV, tells what is left out, and status 0", async () => {
    const { status, stdout, stderr } = await run(["l.yaml"]);
    expect([status, stdout]).toEqual([0, "id,name,time (s),after\r\nA,Fräse,2.5,\r\nB,,4,A\r\n"]);
    expect(stderr).toContain("warning: `variation` of B has no place in a table");
  });

  test("writes the habits that are named: semicolons go with decimal commas", async () => {
    const { stdout } = await run(["l.yaml", "--decimals", "comma", "--byte-order-mark"]);
    expect(stdout).toBe("\ufeffid;name;time (s);after\r\nA;Fräse;2,5;\r\nB;;4;A\r\n");
    expect((await run(["l.yaml", "--delimiter", "tab"])).stdout).toContain("A\tFräse\t2.5\t");
  });

  test("writes a workbook where the file ends in .xlsx, which changes nothing when it is imported into its line", async () => {
    const { status, files } = await run(["l.yaml", "--out", "t.csv"]);
    expect([status, files["t.csv"]]).toEqual([0, "id,name,time (s),after\r\nA,Fräse,2.5,\r\nB,,4,A\r\n"]);
    expect((await run(["l.yaml", "--out", "t.xlsx"])).files["t.xlsx"]).toMatch(/^PK/u);
    const { line, sheet } = exported(LINE);
    const bytes = await writeWorkbook(line.name, sheet);
    const back = await runLinepoise({
      args: ["import", "t.xlsx", "--into", "l.yaml"],
      files: { "l.yaml": LINE, "t.xlsx": bytes },
    });
    expect([back.status, back.files["l.yaml"]]).toEqual([0, LINE]);
  });

  test("tells in JSON what stands in each column", async () => {
    const { stdout } = await run(["l.yaml", "--json"]);
    expect(JSON.parse(stdout)).toMatchObject({
      format: "linepoise/1",
      command: "export",
      line: "Bench",
      unit: "s",
      columns: [
        { key: "id", heading: "id" },
        { key: "name", heading: "name" },
        { key: "time", heading: "time (s)" },
        { key: "after", heading: "after" },
      ],
      rows: [
        ["A", "Fräse", 2.5, null],
        ["B", null, 4, "A"],
      ],
      leftOut: [{ key: "variation", tasks: ["B"] }],
      out: null,
    });
  });

  test("refuses a faulty line with status 2, and replaces no file unless forced", async () => {
    const { status, stdout, stderr } = await run(["l.yaml"], { "l.yaml": "tasks:\n  A: x\n" });
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("l.yaml:2");
    expect((await run(["l.yaml", "--out", "t.csv"], { "l.yaml": LINE, "t.csv": "" })).status).toBe(2);
    expect((await run(["l.yaml", "--out", "l.yaml", "--force"])).status).toBe(2);
  });
});

test("A table that import would read otherwise is told of", async () => {
  const source = "unit: s\nmodels: {a: 1, b: 1}\ntasks:\n  A: {time: {a: 1, b: 2}}\n";
  const { line, document } = readLine("l.yaml", source);
  const file = { line: line!, document: document!, source };
  const told = async (csv: string) =>
    (await checkExport("t.csv", new TextEncoder().encode(csv), file, exportTasks(file))).map(
      ({ rule, message }) => `${rule}: ${message}`,
    );
  expect(await told("id,time a (s),time b (s),after\nA,1,2,\n")).toEqual([]);
  expect(await told("id,time a (s),time b (s),after\nA,2,1,\n")).toEqual([
    "not-read-back: import reads other values of A (time) than the line has; look at these cells",
  ]);
  expect(await told("id,time a (s),time c (s),after\nA,1,2,\n")).toHaveLength(1);
  expect(await told("task\nA\n")).toHaveLength(1);
});
