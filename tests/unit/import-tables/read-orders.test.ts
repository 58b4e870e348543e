import { describe, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { type NamedTask, readOrders } from "../../../src/import-tables/read-orders.js";
import { readTable } from "../../../src/table/read-table.js";

const TASKS: readonly NamedTask[] = [
  { id: "frame", name: "Load frame" },
  { id: "fork", name: "Fit fork, steering" },
  { id: "motor", name: "Fit motor" },
  { id: "7", name: "Wipe" },
  { id: "007", name: "Wipe" },
];

async function read(text: string, file = "folder/bike 1.csv") {
  const { table, findings } = await readTable(file, new TextEncoder().encode(text));
  if (table === null) throw new Error(findings[0]!.message);
  const { orders, findings: told } = readOrders(table, TASKS);
  return {
    layout: orders?.layout,
    units: orders?.units.map(({ name, steps }) => [name, steps.map(({ task }) => TASKS[task]!.id).join(" ")]),
    told: told.map(({ severity, message, place }) => `${severity} ${place?.line}: ${message}`),
  };
}

describe("An order of one unit", () => {
  const bike = [["bike 1", "frame motor fork"]];
  test.each([
    ["a task a line without a heading", "frame\nmotor\n\nfork\n"],
    ["below a heading of the trade", "Task\nframe\nmotor\nfork\n"],
    [
      "by names, in any case and with more blanks",
      'Operation\nload  frame\nFIT MOTOR\n"Fit fork, steering"\n',
    ],
    [
      "with ids and names side by side",
      'Id,Name\nframe,Load frame\nmotor,anything\nfork,"Fit fork, steering"\n',
    ],
    ["with its rows numbered otherwise", "No,Task\n30,fork\n10,frame\n20,motor\n"],
    ["with a sequence", "Task;Sequence\nfork;3\nframe;1\nmotor;2\n"],
  ])("%s", async (_, text) => {
    expect(await read(text)).toEqual({ layout: "row a task", units: bike, told: [] });
  });

  test("leaves other columns out, and says so", async () => {
    const { units, told } = await read("Task,Time (s),Who\nframe,28,Ann\nmotor,75,Ben\nfork,41,Ann\n");
    expect(units).toEqual(bike);
    expect(told).toEqual([
      'warning 1: row 1, column B: the column "Time (s)" is not read',
      'warning 1: row 1, column C: the column "Who" is not read',
    ]);
  });
});

describe("A table of tasks", () => {
  test("is no order of a unit: its rows stand in any order", async () => {
    const tasks = "Task,Time (s),Predecessors\nframe,28,\nmotor,75,frame\nfork,41,frame\n";
    expect(await read(tasks)).toEqual({
      layout: undefined,
      units: undefined,
      told: [
        'error 1: row 1, column C: the column "Predecessors" tells what comes before each task, and no column tells of a unit: the table seems to hold tasks, not the order in which a unit was built; try: linepoise import folder/bike 1.csv',
      ],
    });
  });

  test("tells orders where it says in which order its tasks were done", async () => {
    const { units } = await read("Task,Predecessors,Sequence\nframe,,1\nfork,frame,3\nmotor,frame,2\n");
    expect(units).toEqual([["bike 1", "frame motor fork"]]);
  });
});

describe("Orders of several units", () => {
  test("a column a unit, which may lack tasks", async () => {
    expect(await read("A 1;A 2\nframe;motor\nfork;-\nmotor;frame\n;fork\n")).toEqual({
      layout: "column a unit",
      units: [
        ["A 1", "frame fork motor"],
        ["A 2", "motor frame fork"],
      ],
      told: [],
    });
  });

  test("columns without headings, which are called by their letters", async () => {
    expect((await read("frame,motor\nfork,frame\n")).units).toEqual([
      ["bike 1, column A", "frame fork"],
      ["bike 1, column B", "motor frame"],
    ]);
  });

  test("a row a task with its unit, in the order of the rows", async () => {
    const { layout, units } = await read("Serial No,Task\n17,frame\n18,motor\n17,fork\n18,frame\n");
    expect(layout).toBe("row a task and unit");
    expect(units).toEqual([
      ["17", "frame fork"],
      ["18", "motor frame"],
    ]);
  });

  test("a number for each task and unit", async () => {
    const { layout, units } = await read("Task,bike 17,bike 18\nframe,1,3\nfork,20,\nmotor,3,1\n");
    expect(layout).toBe("numbers by unit");
    expect(units).toEqual([
      ["bike 17", "frame motor fork"],
      ["bike 18", "motor frame"],
    ]);
  });
});

test("A first row that may be slips for tasks is taken for headings, and told", async () => {
  const { units, told } = await read("frme,mtor\nfork,frame\n");
  expect(units).toEqual([
    ["frme", "fork"],
    ["mtor", "frame"],
  ]);
  expect(told).toEqual([
    'warning 1: row 1, column A: this row is taken for headings, each a unit; if "frme" is a slip for frame, mend it',
  ]);
});

test("A workbook, whose numbers and dates are what it says they are", async () => {
  const workbook = await writeWorkbook([
    ["Task", "bike 1", "bike 2"],
    ["frame", 1, 2],
    ["fork", 2, 1],
    ["7", 3, null],
  ]).toBuffer();
  const { table } = await readTable("o.xlsx", workbook);
  const { orders } = readOrders(table!, TASKS);
  expect(orders!.units.map(({ name, steps }) => [name, steps.map(({ task }) => TASKS[task]!.id)])).toEqual([
    ["bike 1", ["frame", "fork", "7"]],
    ["bike 2", ["fork", "frame"]],
  ]);
});

describe("Faults are told at once, each with its cell", () => {
  test("tasks that nobody knows, with what is near, and tasks that are done twice", async () => {
    const { layout, told } = await read("frame\nforc\nmotor\nframe\nWipe\n5-Mar\n");
    expect(layout).toBeUndefined();
    expect(told).toEqual([
      'error 2: row 2, column A: no task is called "forc"; nearest: fork',
      "error 4: row 4, column A: bike 1: frame is done in row 1, column A already; leave the one out that does not count",
      'error 5: row 5, column A: "Wipe" is the name of 7 and 007; write the id of the one that is meant',
      'error 6: row 6, column A: "5-Mar" looks like a date that a spreadsheet made out of an id; format the column as text and type it again',
    ]);
  });

  test.each([
    ["a slip in the first task is no heading", "frme\nfork\n", 'no task is called "frme"; nearest: frame'],
    [
      "a column of something else is one fault",
      "A,B\nframe,x\nfork,y\n",
      'none of 2 cells names a task, beginning with "x"',
    ],
    ["a number twice", "Task,A\nframe,1\nfork,1\n", "the number 1 stands in row 2, column B as well"],
    ["a unit twice", "A,a,A\nframe,fork,motor\n", '"A" heads row 1, column A as well'],
    ["a unit that is missing", "Unit,Task\n1,frame\n,fork\n", "the unit is missing in this row"],
    ["a task that is missing", "Unit,Task\n1,frame\n1,\n", "the task is missing in this row"],
    ["a column without a heading", "A,,B\nframe,fork,motor\n", "the column has no heading"],
    ["nothing below the headings", "Task,Unit\n", "no task stands below the headings"],
  ])("%s", async (_, text, words) => {
    const { layout, told } = await read(text);
    expect(layout).toBeUndefined();
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(words);
  });
});

describe("A table with a row a unit", () => {
  const refused = (line: number, row: string, unit: string) => ({
    layout: undefined,
    units: undefined,
    told: [
      `error ${line}: row ${line}, column ${row}: the table has a row for each unit, as that of "${unit}" shows; a column for each unit is read: turn rows into columns, as "paste special, transposed" of spreadsheets does, with one task in each cell`,
    ],
  });

  test.each([
    ["with headings", "unit,1,2,3\nu1,frame,motor,fork\nu2,frame,fork,motor\n", 2],
    ["without headings", "u1,frame,motor,fork\nu2,frame,fork\n", 1],
    ["of one unit", "unit,1,2\nu1,frame,motor\n", 2],
    ["with all tasks of a unit in one cell", "unit,tasks\nu1,frame;motor;fork\nu2,frame > fork\n", 2],
    ["with blanks between the tasks of one cell", "unit,tasks\nu1,frame motor fork\nu2,frame  fork\n", 2],
  ])("%s is told so once, with what to do, and no task is said to be unknown", async (_, text, line) => {
    expect(await read(text)).toEqual(refused(line, "A", "u1"));
  });

  test("that names no units is known by its rows, which all have the same tasks, some of them below themselves", async () => {
    expect(await read("frame,motor,fork\nframe,fork,motor\n")).toEqual(refused(1, "A", "frame"));
  });

  test("is none where the same rows are read down without a task twice", async () => {
    expect((await read("frame,motor\nmotor,frame\n")).units).toEqual([
      ["bike 1, column A", "frame motor"],
      ["bike 1, column B", "motor frame"],
    ]);
  });
});
