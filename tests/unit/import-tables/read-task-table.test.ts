import fc from "fast-check";
import { describe, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { hasErrors } from "../../../src/findings/finding.js";
import { lineFileOf } from "../../../src/import-tables/line-of-tasks.js";
import { readTaskTable } from "../../../src/import-tables/read-task-table.js";
import { readGivenColumns } from "../../../src/import-tables/task-columns.js";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { readTable } from "../../../src/table/read-table.js";
import type { TimeUnit } from "../../../src/time/units.js";
import { readPage } from "../../readme/read-page.js";
import { runLinepoise } from "../../tools/run-linepoise.js";

/* Shapes of cells and headings are common practice in published exercises and shop sheets; workbooks are written by a second library. */

interface Given {
  readonly unit?: TimeUnit;
  readonly columns?: string;
  readonly ranges?: boolean;
  readonly nothing?: readonly string[];
  readonly models?: readonly string[];
  readonly decimals?: "," | ".";
}

async function read(content: string | Uint8Array, given: Given = {}) {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const { table, findings } = await readTable("tasks.csv", bytes);
  expect(findings).toEqual([]);
  const columns = given.columns === undefined ? null : readGivenColumns(given.columns);
  if (columns?.ok === false) throw new Error(columns.problem);
  const result = readTaskTable(table!, {
    unit: given.unit ?? null,
    columns: columns?.value ?? new Map(),
    ranges: given.ranges === true,
    nothing: given.nothing ?? [],
    others: [],
    models: given.models ?? [],
    decimals: given.decimals ?? null,
    hasOrders: false,
  });
  const told = [...result.findings, ...result.asLine().findings];
  const imported = hasErrors(told) ? null : result.imported;
  return {
    imported,
    tasks:
      imported && Object.fromEntries(imported.tasks.map(({ id, times }) => [id, times[0].micros! / 1e6])),
    after: imported && Object.fromEntries(imported.tasks.map(({ id, after }) => [id, after])),
    unit: imported?.unit?.unit ?? null,
    errors: told.filter(({ severity }) => severity === "error").map(({ message }) => message),
    warnings: told.filter(({ severity }) => severity === "warning").map(({ message }) => message),
    findings: told,
  };
}

const sheet = async (...rows: readonly (readonly unknown[])[]): Promise<Uint8Array> =>
  writeWorkbook(rows as never).toBuffer();

describe("headings", () => {
  test.each([
    ["Op No.,Operation,Std time (min),Immediate predecessors", ["id", "name", "time", "after"], "min"],
    ["Task,Time (s),Successors", ["id", "time", "before"], "s"],
    ["Work element,Description,Duration [sec],Preceding tasks", ["id", "name", "time", "after"], "s"],
    ["#,Activity,Minutes,Depends on", ["id", "name", "time", "after"], "min"],
    ["task_id,time_s,predecessor_ids", ["id", "time", "after"], "s"],
    ["Step,Cycle time in cmin,Preceded by", ["id", "time", "after"], "cmin"],
    ['Job,"Time, TMU",Prerequisites', ["id", "time", "after"], "tmu"],
    ["Element,SMV,Must follow", ["id", "time", "after"], "min"],
    ["Step no.,What is done,Cycle (sec),Comes after", ["id", "name", "time", "after"], "s"],
    ["Task,Work description,Std (min),Done before", ["id", "name", "time", "before"], "min"],
  ])("%s", async (headings, keys, unit) => {
    const cells = keys.map((key) => (key === "id" ? "A" : key === "time" ? "2" : ""));
    const { imported } = await read(`${headings}\n${cells.join(",")}\n`);
    expect([...imported!.columns.keys()]).toEqual(keys);
    expect(imported!.unit!.unit).toBe(unit);
  });

  test.each([
    ["Minutes : seconds", "1:30", []],
    ["Time (mm:ss)", "1:30", []],
    ["min:sec", "1:30", []],
    ["Std time [h:mm:ss]", "0:01:30", []],
    ["Time (h:mm:ss)", "1:30", ['row 2, column B: "1:30" is read as minutes and seconds (mm:ss)']],
    [
      "Time, mm:ss",
      "0:01:30",
      ['row 2, column B: "0:01:30" is read as hours, minutes and seconds (h:mm:ss)'],
    ],
    ["Time (min)", "1:30", ['row 2, column B: "1:30" is read as minutes and seconds (mm:ss)']],
  ])("%s heads times such as %s, which need no unit", async (heading, time, doubts) => {
    const { tasks, unit, warnings } = await read(`id,"${heading}",pred\nA,${time},\n`);
    expect(tasks).toEqual({ A: 90 });
    expect(unit).toBe(heading === "Time (min)" ? "min" : null);
    expect(warnings).toEqual(doubts);
  });

  test.each(["Time (h:mm)", "hh:mm", "hours : minutes"])(
    "%s heads no minutes and seconds",
    async (heading) => {
      expect((await read(`id,${heading},pred\nA,0:30,\nB,1:05,A\nC,0:00:45,B\nD,90 s,\n`)).errors).toEqual([
        'row 2, column B: "0:30" stands below hours and minutes, but a:b is always minutes and seconds; write 30 min',
        'row 3, column B: "1:05" stands below hours and minutes, but a:b is always minutes and seconds; write 65 min',
      ]);
    },
  );

  test("a bare number below minutes and seconds is asked about", async () => {
    const { errors } = await read("id,Minutes : seconds,pred\nA,1:30,\nB,45,A\n");
    expect(errors).toEqual([expect.stringContaining("row 3, column B: bare numbers need a unit")]);
  });

  test("a column that may head times does not stand beside one that does", async () => {
    const { tasks, warnings } = await read("id,Std (min),Time (s),pred\nA,2,90,\n");
    expect(tasks).toEqual({ A: 90 });
    expect(warnings).toEqual([expect.stringContaining('the column "Std (min)" is not read')]);
  });

  test("a column of tasks holds ids, and names beside numbers", async () => {
    const { imported } = await read("No,Task,Time (s)\n10,Load frame,5\n");
    expect(imported!.tasks[0]!.id).toBe("10");
    expect(imported!.tasks[0]!.texts.get("name")!.text).toBe("Load frame");
  });

  test("without any id the names are the ids", async () => {
    const { tasks, after } = await read("Description,Time (s),Pred\nLoad frame,5,\nFit fork,6,Load frame\n");
    expect([tasks, after]).toEqual([
      { "Load frame": 5, "Fit fork": 6 },
      { "Load frame": [], "Fit fork": ["Load frame"] },
    ]);
  });

  test("rows above the headings are told of", async () => {
    const { tasks, warnings } = await read("Line 4,,\nid,time (s),pred\nA,5,\n");
    expect(tasks).toEqual({ A: 5 });
    expect(warnings).toEqual(["row 1, column A: 1 row above the headings is not read"]);
  });

  test("two columns of times are not chosen between", async () => {
    const { errors } = await read("id,time (s),duration,pred\nA,1,2,\n");
    expect(errors).toEqual([
      'row 1, column C: "time (s)" in column B means time as well; say which is to be read, as in --columns time=B',
    ]);
    expect(
      (await read("id,time (s),duration,pred\nA,1,2,\n", { columns: "time=C", unit: "s" })).tasks,
    ).toEqual({ A: 2 });
  });

  test("predecessors and successors in one table are refused unless one is left out", async () => {
    const table = "id,time (s),pred,succ\nA,1,,B\nB,2,A,\n";
    expect((await read(table)).errors).toEqual([
      expect.stringContaining("--columns after=- or --columns before=-"),
    ]);
    expect((await read(table, { columns: "before=-" })).after).toEqual({ A: [], B: ["A"] });
  });

  test("columns are given by heading, commas inside, or by letters", async () => {
    const table = 'Code,"Std, net",X\nA,1,\nB,2,A\n';
    const { tasks, after } = await read(table, { columns: "time=Std, net, after=C", unit: "s" });
    expect([tasks, after]).toEqual([
      { A: 1, B: 2 },
      { A: [], B: ["A"] },
    ]);
  });

  test("a heading that is given and not there is told with what is near", async () => {
    const { errors } = await read("id,time (s)\nA,1\n", { columns: "time=tiem (s)" });
    expect(errors).toEqual([expect.stringContaining('no column is called "tiem (s)"; nearest: time (s)')]);
  });

  test("a table without tasks and times says how to name the columns", async () => {
    expect((await read("foo,bar\nA,1\n")).errors).toEqual([
      expect.stringContaining('--columns "id=Task, time=Std (min)"'),
    ]);
  });
});

describe("predecessors of H", () => {
  const of = async (cell: string, given: Given = {}, others = ["B", "F", "G"]) => {
    const rows = others.map((id) => `${id}\t1\t`).join("\n");
    return read(`id\ttime (s)\tpreds\n${rows}\nH\t2\t${cell}\n`, given);
  };

  test.each([
    ["B,F,G,", ["B", "F", "G"]],
    ["B; F", ["B", "F"]],
    ["B F", ["B", "F"]],
    ["B/F", ["B", "F"]],
    ['"B, F"', ["B", "F"]],
    ["B and F", ["B", "F"]],
    ["B & F + G", ["B", "F", "G"]],
    ['"B\nF"', ["B", "F"]],
    ["G,B", ["G", "B"]],
    ...["-", "—", "-----", "none", "NONE", "Nil", "n/a", ""].map((word) => [word, []] as const),
  ] as const)("%j", async (cell, wanted) => {
    const { after, errors } = await of(cell);
    expect(errors).toEqual([]);
    expect(after!.H).toEqual(wanted);
  });

  test("a word for nothing that is a task is that task, and this is told", async () => {
    const { after, warnings } = await of("none", {}, ["none", "B"]);
    expect(after!.H).toEqual(["none"]);
    expect(warnings).toEqual(['row 4, column C: "none" is taken for the task of that id, not for no task']);
  });

  test("0 is no task unless it is said to mean none", async () => {
    expect((await of("0", {}, ["1", "2"])).errors).toEqual([expect.stringContaining("give --nothing 0")]);
    expect((await of("0", { nothing: ["0"] }, ["1", "2"])).after!.H).toEqual([]);
  });

  test("3-5 is refused, and a range where that is asked for, and an id where one is called so", async () => {
    const ids = ["1", "2", "3", "4", "5"];
    expect((await of("3-5", {}, ids)).errors).toEqual([
      'row 7, column C: predecessor of H: "3-5" may be a range; write 3, 4, 5, or give --ranges where the table means them all',
    ]);
    expect((await of("1, 3-5", { ranges: true }, ids)).after!.H).toEqual(["1", "3", "4", "5"]);
    expect((await of("3-5", {}, [...ids, "3-5"])).after!.H).toEqual(["3-5"]);
    expect((await of("A1-A3", { ranges: true }, ["A1", "A3"])).errors).toEqual([
      expect.stringContaining('runs over "A2"'),
    ]);
    const tens = ["10", "20", "30"];
    expect((await of("10-30", {}, tens)).errors).toEqual([
      expect.stringContaining('"10-30" may be a range; write each task that is meant, with commas between'),
    ]);
    expect((await of("10-30", { ranges: true }, tens)).errors).toEqual([
      expect.stringContaining('"10-30" runs over "11", which is no task; write each task that is meant'),
    ]);
  });

  test.each(["5-Mar", "Mar-05", "2026-03-05", "05/03/2026"])("%s is a date", async (date) => {
    const { errors } = await of(date, {}, ["3", "5"]);
    expect(errors).toEqual([
      expect.stringMatching(/^row 4, column C: .* looks like a date .* (?:3-5 or 5-3|5-3 or 3-5)/u),
    ]);
  });

  test("3.4 was two tasks", async () => {
    expect((await of("3.4", {}, ["3", "4"])).errors).toEqual([expect.stringContaining("write 3, 4 as text")]);
  });

  test("007 is not found by 7, but named", async () => {
    expect((await of("7", {}, ["007"])).errors).toEqual([
      expect.stringContaining('no task is called "7"; nearest: 007'),
    ]);
  });

  test("an id that holds a comma or a slash is found", async () => {
    expect((await of('"Fit, front; Drill/ream"', {}, ['"Fit, front"', "Drill/ream"])).after!.H).toEqual([
      "Fit, front",
      "Drill/ream",
    ]);
  });

  test("a task named twice counts once, and this is told", async () => {
    const { after, warnings } = await of("B, B");
    expect(after!.H).toEqual(["B"]);
    expect(warnings).toEqual([expect.stringContaining("names a task twice")]);
  });
});

describe("ids", () => {
  test("keep their text", async () => {
    const { tasks, warnings } = await read("id,time (s),pred\n22E1,10,\n220,12,\n007,5,\n7,6,\n");
    expect(Object.keys(tasks!).sort()).toEqual(["007", "220", "22E1", "7"]);
    expect(warnings).toEqual([expect.stringContaining("task 7 looks like task 007 (line 4)")]);
  });

  test.each(['="007"', "'007"])("%s is 007", async (cell) => {
    expect((await read(`id;time (s);pred\n${cell};12;\nB;1;007\n`)).after).toEqual({ "007": [], B: ["007"] });
  });

  test("behind an apostrophe are told of", async () => {
    expect((await read("id;time (s);pred\n'007;12;\n")).warnings).toEqual([
      `row 2, column A: "'007" is read as 007: a leading apostrophe marks text`,
    ]);
  });

  test("that differ in case or script only are told of", async () => {
    const { tasks, warnings } = await read("id,time (s),pred\nt1,1,\nT1,2,\nA1,3,\n\u04101,4,\n");
    expect(Object.values(tasks!)).toEqual([1, 2, 3, 4]);
    expect(warnings).toEqual([
      expect.stringContaining("looks like task"),
      expect.stringContaining("looks like task"),
    ]);
  });

  test("that are twice in the table name both rows", async () => {
    expect((await read("id,time (s),pred\nA,1,\nB,1,\n A ,2,\n")).errors).toEqual([
      'row 4, column A: "A" is already the id in row 2, column A; one row a task is expected',
    ]);
  });

  test("are compared composed, without blanks around them", async () => {
    const { after } = await read("id,time (s),pred\n\u00c9crou,1,\nB,2,E\u0301crou\nFit,3,\nC,4,Fit \n");
    expect([after!.B, after!.C]).toEqual([["\u00c9crou"], ["Fit"]]);
  });

  test("that are missing where cells are merged are asked for", async () => {
    expect((await read("id,time (s),pred\nA,1,\n,2,A\n")).errors).toEqual([
      "row 3, column B: the id is missing in this row; where cells are merged, write it in every row",
    ]);
  });

  test("that are twice or missing keep no other cell of their row from being judged", async () => {
    const table = `id,time (s),pred,lift,skill
A,1,,,
A,fast,A,heavy,saw
,slow,Q,3 kg,
Section two,,,,
,,,light,
B,2,A,,
`;
    const { errors } = await read(table);
    expect(errors).toEqual([
      expect.stringContaining('row 3, column A: "A" is already the id in row 2'),
      expect.stringContaining("row 4, column B: the id is missing in this row"),
      expect.stringContaining("row 6, column D: the id is missing in this row"),
      expect.stringContaining('row 4, column C: predecessor of row 4: no task is called "Q"'),
      expect.stringContaining('row 3, column B: "fast"'),
      expect.stringContaining('row 4, column B: "slow"'),
      "row 5, column B: the time is missing in this row (blank is never 0)",
      expect.stringContaining('row 3, column D: task A (row 3), lift: "heavy"'),
      expect.stringContaining('row 6, column D: task row 6, lift: "light"'),
    ]);
  });

  test("shortened by a spreadsheet are refused", async () => {
    expect((await read("id,time (s),pred\n1.23E+15,1,\n")).errors).toEqual([
      expect.stringContaining("writes a long number"),
    ]);
  });

  test("that look like dates are kept and told of", async () => {
    const { tasks, warnings } = await read("id,time (s),pred\n5-Mar,1,\n");
    expect(tasks).toEqual({ "5-Mar": 1 });
    expect(warnings).toEqual([expect.stringContaining("looks like a date")]);
  });

  test("typed as dates in a workbook are refused", async () => {
    const date = { value: new Date(Date.UTC(2026, 2, 5)), type: Date, format: "d-mmm" };
    const { errors } = await read(await sheet(["id", "time (s)", "pred"], [date, 4, null]));
    expect(errors).toEqual([expect.stringContaining('row 2, column A: "2026-03-05" looks like a date')]);
  });

  test("typed as numbers beside text with leading zeros are told of", async () => {
    const { tasks, warnings } = await read(
      await sheet(["id", "time (s)", "pred"], ["007", 4, null], [8, 4, "007"]),
    );
    expect(tasks).toEqual({ "007": 4, "8": 4 });
    expect(warnings).toEqual([expect.stringContaining("leading zeros may be lost")]);
  });
});

describe("times", () => {
  const of = (cell: string, heading = "time (s)") => read(`id;${heading};pred\nA;${cell};\n`);

  test.each([
    ["12 s", 12],
    ["12 sec", 12],
    ["0,5 mins", 30],
    ["1000 TMU", 36],
    ["0:40", 40],
    ["½", 0.5],
    ["0", 0],
  ])("%s", async (cell, seconds) => {
    expect((await of(cell)).tasks).toEqual({ A: seconds });
  });

  test.each(["~12", "12-15", "１２", "−5", "1\u00a0234", "", "3.7a", "1E3", "1,234", "12,5*", "abc"])(
    "%j is refused at its cell",
    async (cell) => {
      const { errors, imported } = await of(cell);
      expect(imported).toBeNull();
      expect(errors).toEqual([expect.stringMatching(/^row 2, column B: /u)]);
    },
  );

  test("units of one file are told apart exactly", async () => {
    const { tasks, unit } = await read(
      "id,time,pred\nA,1000 TMU,\nB,0.60 min,\nC,60 cmin,\nD,36 s,\nE,1500 TMU,\n",
    );
    expect(tasks).toEqual({ A: 36, B: 36, C: 36, D: 36, E: 54 });
    expect(unit).toBeNull();
  });

  test("bare numbers without a unit are refused once", async () => {
    expect((await read("id,time,pred\nA,70,\nB,60,\n")).errors).toEqual([
      expect.stringContaining("bare numbers need a unit"),
    ]);
  });

  test("a heading and --unit that differ are refused", async () => {
    expect((await read("id,time (min),pred\nA,70,\n", { unit: "s" })).errors).toEqual([
      expect.stringContaining("says min, and --unit says s"),
    ]);
  });

  test("a column of units holds for each row", async () => {
    const { tasks, imported } = await read("id,time,unit,pred\nA,2,min,\nB,3,sec,\n");
    expect(tasks).toEqual({ A: 120, B: 3 });
    expect(readLine("x.yaml", lineFileOf(imported!)).line!.tasks.map(({ times }) => times)).toEqual([
      [120e6],
      [3e6],
    ]);
  });

  test("4:17 below minutes is 257 s, which is told", async () => {
    const { tasks, warnings } = await of("4:17", "time (min)");
    expect(tasks).toEqual({ A: 257 });
    expect(warnings).toEqual([expect.stringContaining("minutes and seconds (mm:ss)")]);
  });

  test("4:17:00 is what a spreadsheet makes of 4:17, as text and in a workbook", async () => {
    expect((await of("4:17:00")).errors).toEqual([expect.stringContaining("write 0:04:17")]);
    const clock = { value: 15420 / 86400, type: Number, format: "hh:mm" };
    expect((await read(await sheet(["id", "time", "pred"], ["A", clock, null]))).errors).toEqual([
      expect.stringContaining("write 0:04:17"),
    ]);
  });

  test("a date among the times is refused", async () => {
    const date = { value: new Date(Date.UTC(2026, 4, 2)), type: Date, format: "d-mmm" };
    expect((await read(await sheet(["id", "time (s)", "pred"], ["A", date, null]))).errors).toEqual([
      expect.stringContaining("keeps 2026-05-02 here"),
    ]);
  });

  test("a third worked out by a spreadsheet is rounded, which is told", async () => {
    const { tasks, warnings } = await read(await sheet(["id", "time (min)", "pred"], ["A", 1 / 3, null]));
    expect(tasks).toEqual({ A: 20 });
    expect(warnings).toEqual([expect.stringContaining("rounded to 20 s")]);
  });

  test("1.234 alone is read with decimals, which is told", async () => {
    const { tasks, warnings } = await of("1.234");
    expect(tasks).toEqual({ A: 1.234 });
    expect(warnings).toEqual([expect.stringContaining("--decimals comma")]);
  });

  test("--decimals says what 1.234 and 1,234 are", async () => {
    const one = async (text: string, decimals: "," | ".") =>
      (await read(`id;time (s);pred\nA;${text};\n`, { decimals })).tasks;
    expect(await one("1.234", ".")).toEqual({ A: 1.234 });
    expect(await one("1.234", ",")).toEqual({ A: 1234 });
    expect(await one("1,234", ",")).toEqual({ A: 1.234 });
    expect(await one("1,234", ".")).toEqual({ A: 1234 });
  });

  test("two decimal marks in a file are refused", async () => {
    expect((await read("id;time (s);pred\nA;2,5;\nB;2.5;\n")).errors).toContainEqual(
      expect.stringContaining("one mark is expected in a file"),
    );
  });
});

describe("rows", () => {
  test.each(["TOTAL", "Sum:", "Grand total"])("%s is left out, which is told", async (word) => {
    const { tasks, warnings } = await read(
      `station,id,time (s),pred\nS1,A,10,\n,B,12,A\n,,,\n${word},,22,\n`,
    );
    expect(tasks).toEqual({ A: 10, B: 12 });
    expect(warnings).toContainEqual(expect.stringMatching(/^row 5, column A: .* taken for a sum/u));
  });

  test("below merged cells of another column are tasks, and blank rows and sums are none", async () => {
    const { tasks, warnings, errors } = await read("station,id,time (s)\nS1,A,10\n,B,12\n,,\nTOTAL,,22\n");
    expect([tasks, errors]).toEqual([{ A: 10, B: 12 }, []]);
    expect(warnings).toContainEqual(expect.stringContaining('"TOTAL" is taken for a sum and left out'));
  });

  test("with more cells than headings are refused", async () => {
    expect((await read("id;time (s);pred\nA;2;;B\n")).errors).toEqual([
      expect.stringContaining("more cells than there are headings"),
    ]);
  });

  test("of merged zones are told of", async () => {
    const { warnings } = await read("id,time (s),pred,zone\nA,1,,front\nB,1,,\nC,1,,rear\n");
    expect(warnings).toEqual([expect.stringContaining("where cells are merged")]);
  });

  test("that wait for each other are printed as a loop, by rows", async () => {
    const table = await sheet(["id", "time (s)", "pred"], ["A", 1, "B"], ["B", 1, "A"]);
    expect((await read(table)).errors).toEqual([
      "row 3, column C: these tasks wait for each other: A -> B -> A; take one of these precedences out (rows 2, 3)",
    ]);
  });

  test("with many faults are told of in one run", async () => {
    const { errors } = await read("id,time (s),pred\nA,x,\nB,1,Q\nA,1,\n,1,\n");
    expect(errors).toHaveLength(4);
  });

  test("that only a line file refuses are told of in the same run, in the same row too", async () => {
    const rows = ["id,time (s),pred,on base,move cost", "A,x,,maybe,1", "B,1,A,yes,-1", "C,1,B,no,1"];
    const { errors } = await read(`${rows.join("\n")}\n`);
    expect(errors).toEqual([
      expect.stringMatching(/^row 2, column B: .*"x" is not a time/u),
      expect.stringMatching(/^row 2, column D: .*"maybe"/u),
      expect.stringMatching(/^row 3, column E: .*"-1"/u),
    ]);
  });
});

test("further columns become keys, and what a line file refuses of them is told at the cell", async () => {
  const headings =
    "id,time (s),pred,zone,operators,skill,equipment,lift (kg),caution,qty,walk time (s),side,kind";
  const row = 'A,5,,front,2,"press, brakes",press,27,Hoist only,2,1.5,left,necessary';
  const { imported } = await read(`${headings}\n${row}\n`);
  const [task] = readLine("x.yaml", lineFileOf(imported!)).line!.tasks;
  expect(task).toMatchObject({
    zone: "front",
    people: 2,
    skills: ["brakes", "press"],
    equipment: ["press"],
    lift: "27 kg",
    caution: "Hoist only",
    quantity: 2,
    walking: 1.5e6,
    side: "left",
    kind: "necessary",
  });
  const { errors } = await read("id,time (s),pred,people\nA,5,,two\n");
  expect(errors).toEqual([expect.stringMatching(/^row 2, column D: .*"two"/u)]);
});

describe("times of models side by side", () => {
  const cell = (line: Line | null) =>
    line!.tasks.map(({ id, times }) => [id, times.map((time) => time && time / 1e6)]);

  test.each([
    ["beside a word for times", "id,Time city (s),Time cargo (s),pred"],
    ["before it", "id,City time (s),Cargo time (s),pred"],
    ["as names with a unit alone", "id,City (s),Cargo (s),pred"],
    ["with the unit behind a comma", 'id,"Time city, s","Time cargo, s",pred'],
  ])("are read where the headings name models %s", async (_, headings) => {
    const { imported, warnings } = await read(`${headings}\nA,24,38,\nB,-,46,A\nC,22,-,A\n`);
    expect(warnings[0]).toMatch(/"[Cc]ity" and "[Cc]argo" are read as models/u);
    const { line, findings } = readLine("x.yaml", lineFileOf(imported!));
    expect(findings.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(line!.models.map(({ id }) => id.toLowerCase())).toEqual(["cargo", "city"]);
    expect(cell(line)).toEqual([
      ["A", [38, 24]],
      ["B", [46, null]],
      ["C", [null, 22]],
    ]);
  });

  test("carry a unit of their own where columns differ", async () => {
    const { imported } = await read("id,Time city (s),Time cargo (min),pred\nA,24,0.5,\n");
    expect(lineFileOf(imported!)).toContain("A: {time: {city: 24, cargo: 0.5 min}}");
  });

  test("are found by --columns", async () => {
    const columns = "time city=Std A (s), time cargo=C";
    const { imported } = await read("id,Std A (s),Std B (s),pred\nA,24,38,\n", { columns });
    expect(lineFileOf(imported!)).toContain("A: {time: {city: 24, cargo: 38}}");
  });

  test("are refused where a cell is blank, where no model has a task, and beside a time of all", async () => {
    const { errors } = await read("id,Time city (s),Time cargo (s),pred\nA,24,,\nB,-,-,\n");
    expect(errors).toEqual([
      expect.stringMatching(/^row 2, column C: .*blank is never 0/u),
      expect.stringMatching(/^row 3, column A: no model has this task/u),
    ]);
    const both = await read("id,time (s),pred,x\nA,24,,3\n", { columns: "time city=x" });
    expect(both.errors).toEqual([expect.stringContaining("times for all models")]);
    const ofModels = await read("id,time (s),pred,x (s)\nA,24,,3\n", { columns: "time=-, time city=x (s)" });
    expect(ofModels.imported!.models).toEqual(["city"]);
  });

  test("of a line are known by its models", async () => {
    const { imported, warnings } = await read("id,CITY (s),pred\nA,24,\n", { models: ["city", "cargo"] });
    expect([imported!.models, warnings]).toEqual([["city"], []]);
  });
});

test("parts come with how many of each", async () => {
  const { imported } = await read("id,time (s),pred,parts\nA,5,,HC-12 x 2; 3 x bolt M6; clip\n");
  expect(lineFileOf(imported!)).toContain("  A: {time: 5, parts: {HC-12: 2, bolt M6: 3, clip: 1}}\n");
  expect((await read("id,time (s),pred,parts\nA,5,,clip; clip x 2\n")).errors).toEqual([
    expect.stringContaining('row 2, column D: "clip" stands twice'),
  ]);
});

test("any list of tasks comes back from the line file that it makes, from CSV and from a workbook", async () => {
  const id = fc
    .stringMatching(/^[^\s"=',;|/&+\p{C}\p{M}.-][^\s"=',;|/&+\p{C}\p{M}-]{0,8}$/u)
    .map((text) => `${text.normalize("NFC")}_`);
  const list = fc
    .uniqueArray(id, { minLength: 1, maxLength: 8 })
    .chain((ids) =>
      fc.tuple(
        fc.constant(ids),
        fc.array(fc.integer({ min: 1, max: 9999 }), { minLength: ids.length, maxLength: ids.length }),
        fc.array(fc.nat(), { minLength: ids.length, maxLength: ids.length }),
      ),
    );
  await fc.assert(
    fc.asyncProperty(list, async ([ids, times, before]) => {
      const rows = ids.map((each, at) => [each, times[at]! / 10, at === 0 ? "" : ids[before[at]! % at]!]);
      const csv = [["id", "time (s)", "pred"], ...rows].map((row) => row.join(",")).join("\r\n");
      for (const content of [csv, await sheet(["id", "time (s)", "pred"], ...rows)]) {
        const { imported } = await read(content);
        const { line } = readLine("x.yaml", lineFileOf(imported!));
        const back = new Map(
          line!.tasks.map((task, at) => [
            task.id,
            [task.times[0]! / 1e6, line!.before[at]!.map((one) => line!.tasks[one]!.id)],
          ]),
        );
        expect(ids.map((each) => back.get(each))).toEqual(
          rows.map(([, time, one]) => [time, one === "" ? [] : [one]]),
        );
      }
    }),
    { numRuns: 35, seed: 7 },
  );
});

test("the spreadsheet of the demo has the times and the order of the demo line", async () => {
  const [csv, yaml] = ["tasks.csv", "line.yaml"].map((name) => readPage(`examples/cargo-bike.${name}`));
  const { imported } = await read(csv!);
  const [made, demo] = [lineFileOf(imported!), yaml!].map((text) => readLine("x.yaml", text).line!);
  const ofTasks = ({ tasks, before }: Line) =>
    tasks.map(({ id, times, machineTime, lift, caution, equipment }, task) => [
      id,
      times,
      machineTime,
      lift,
      caution,
      equipment,
      before[task],
    ]);
  expect(ofTasks(made!)).toEqual(ofTasks(demo!));
});

describe("the command", () => {
  const files = { "a.csv": "Task;Time (s);Predecessors\nA;2,5;\nB;3,5;A\n" };

  test("prints a line file that balances, and writes nothing unasked", async () => {
    const { stdout, status, written } = await run(["import", "a.csv"], files);
    expect([status, written]).toEqual([0, []]);
    const balanced = await run(["balance", "l.yaml", "--cycle", "4 s", "--json"], { "l.yaml": stdout });
    expect(JSON.parse(balanced.stdout).stations.map((each: { tasks: unknown }) => each.tasks)).toHaveLength(
      2,
    );
  });

  test("names the likely slip where times in minutes stand against a cycle in minutes that seconds would fit", async () => {
    const table = "id,time\nA,70\nB,60\nC,120\nD,60\nE,240\nF,100\nG,190\n";
    const balanced = async (unit: string) => {
      const { stdout } = await run(["import", "a.csv", "--unit", unit], { "a.csv": table });
      return run(["balance", "l.yaml", "--cycle", "5 min", "--json"], { "l.yaml": stdout });
    };
    const inSeconds = JSON.parse((await balanced("s")).stdout);
    expect([inSeconds.measures.workContentSeconds, inSeconds.measures.stations]).toEqual([840, 3]);
    const { status, stdout } = await balanced("min");
    expect(status).toBe(1);
    expect(JSON.stringify(JSON.parse(stdout).findings)).toContain("read in s (60 times shorter)");
  });

  test("tells in JSON what was understood", async () => {
    const { stdout } = await run(["import", "a.csv", "--json"], files);
    expect(JSON.parse(stdout)).toMatchObject({
      format: "linepoise/1",
      command: "import",
      understood: {
        delimiter: ";",
        decimalMark: ",",
        unit: "s",
        columns: { id: "Task", time: "Time (s)", after: "Predecessors" },
      },
      tasks: [
        { id: "A", seconds: 2.5, after: [] },
        { id: "B", seconds: 3.5, after: ["A"] },
      ],
      findings: [],
    });
  });

  test("refuses a table with status 2, and replaces no file unless forced", async () => {
    const { status, stdout, stderr } = await run(["import", "a.csv"], { "a.csv": "id;time (s)\nA;x\n" });
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain("a.csv:2:3: row 2, column B:");
    expect((await run(["import", "a.csv", "--out", "l.yaml"], { ...files, "l.yaml": "" })).status).toBe(2);
    expect((await run(["import", "a.csv", "--out", "l.yaml"], files)).written).toEqual(["l.yaml"]);
  });
});

async function run(args: readonly string[], files: Record<string, string>) {
  const result = await runLinepoise({ args: [...args], files });
  return { ...result, written: Object.keys(result.files).filter((name) => files[name] === undefined) };
}

test("more tasks than a line has are refused", async () => {
  const rows = "A,5\n".repeat(20_001);
  expect((await read(`id,time\n${rows}`, { unit: "s" })).errors).toEqual([
    "row 1, column A: 20,001 tasks stand below the headings; at most 20,000 are read",
  ]);
});

describe("cells of half a million signs", () => {
  const LONG = 500_000;

  test("a heading so long heads nothing", async () => {
    for (const signs of ["-", "(", " x", "_s"])
      expect((await read(`id,time,${signs.repeat(LONG)}\nA,5,x\n`, { unit: "s" })).tasks).toEqual({ A: 5 });
  });

  test("a time so long is no time", async () => {
    for (const signs of [" ", "1", ","]) {
      const { errors } = await read(`id;time\nA;1${signs.repeat(LONG)}x\n`, { unit: "s" });
      expect(errors[0]).toContain("is too long a text for a time");
    }
  });
});
