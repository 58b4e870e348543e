import { zipSync } from "fflate";
import { anyLine } from "./any-line.js";
import { anyOrders, anyReadings, anyTaskTable, csvOf, type Row, workbookOf } from "./any-table.js";
import type { Made } from "./case.js";
import type { Draw } from "./draw.js";
import { anyValue, oddName, unseenName } from "./hostile.js";
import { places, type Tree, valueAt, yamlOf } from "./tree.js";

/** Characters of a file: what is read of a megabyte in 2 s is asked of no larger one. */
const LARGEST = 1_000_000;
const [LINE, PLAN] = ["line.yaml", "plan.yaml"];

/** An input of up to a megabyte: many of something, something long or deep, or one piece over and over. */
export function largeCase(draw: Draw): Made {
  const make = draw.pick([
    lineOfMany,
    lineOfMany,
    lineOfMany,
    planOfMany,
    lineOfLong,
    overAndOver,
    tableOfMany,
  ]);
  return make(draw);
}

/** How many, on either side of what is read. */
const manyOf = (draw: Draw, each: number): number =>
  Math.max(1, Math.min(draw.pick([300, 3_000, 10_000, 19_000, 21_000, 60_000]), Math.floor(LARGEST / each)));

const lengthOf = (tree: Tree): number =>
  typeof tree === "string"
    ? tree.length + 4
    : (Array.isArray(tree) ? tree.map((each) => ["", each] as const) : [...tree]).reduce(
        (sum, [key, each]) => sum + key.length + lengthOf(each) + 4,
        8,
      );

/** Puts copies of an entry beside it, under names of their own. */
function multiply(tree: Map<string, Tree>, draw: Draw, what: readonly string[]): void {
  const holders = [tree, ...places(tree).map(({ holder, key }) => valueAt(holder, key))].filter(
    (each) => typeof each !== "string" && (Array.isArray(each) ? each.length : each.size) > 0,
  ) as (Tree[] | Map<string, Tree>)[];
  const wanted = tree.get(draw.pick(what));
  const holder = wanted instanceof Map && wanted.size > 0 && draw.once(2) ? wanted : draw.pick(holders);
  const isNumbered = !draw.once(4);
  const renamed = (value: Tree, number: number): Tree =>
    typeof value === "string" && isNumbered ? `${value}${number}` : value;
  if (Array.isArray(holder)) {
    const copied = draw.pick(holder);
    const count = manyOf(draw, lengthOf(copied) + 6);
    for (let number = 0; number < count; number++) holder.push(renamed(copied, number));
    return;
  }
  const [key, value] = draw.pick([...holder]);
  const count = manyOf(draw, key.length + lengthOf(value) + 12);
  for (let number = 0; number < count; number++) holder.set(`${key}${number}`, value);
}

const COMMANDS = [["takt"], ["takt"], ["export"], ["takt", "--json"]] as const;

function lineOfMany(draw: Draw): Made {
  const { tree } = anyLine(draw, 5);
  if (draw.once(5)) linkTasks(tree, draw);
  else multiply(tree, draw, ["tasks", "tasks", "models", "stations", "people", "options", "benches"]);
  const [command, ...options] = draw.pick(COMMANDS);
  const text = yamlOf(tree, draw).slice(0, LARGEST);
  return { args: [command, LINE, ...options], files: { [LINE]: text }, from: "changed" };
}

/** Thousands of tasks with up to ten arrows each: mostly without loops, some to the first tasks, some to the neighbours. */
function linkTasks(tree: Map<string, Tree>, draw: Draw): void {
  const count = draw.pick([300, 3_000, 10_000]);
  const reach = draw.pick([3, 20, count]);
  const hasLoops = draw.once(6);
  const tasks = new Map<string, Tree>();
  for (let number = 0; number < count; number++) {
    const after = Array.from({ length: Math.min(number, draw.below(11)) }, () => {
      const back = 1 + draw.below(Math.min(reach, number));
      return `t${hasLoops && draw.once(50) ? draw.below(count) : number - back}`;
    });
    tasks.set(
      `t${number}`,
      new Map<string, Tree>([
        ["time", String(draw.from(1, 50))],
        ["after", after],
      ]),
    );
  }
  for (const key of [...tree.keys()]) if (!["unit", "demand", "calendar"].includes(key)) tree.delete(key);
  tree.set("unit", "s");
  tree.set("tasks", tasks);
}

function planOfMany(draw: Draw): Made {
  const line = anyLine(draw, 5);
  const plan = new Map<string, Tree>([
    ["format", "linepoise-plan/1"],
    [
      "stations",
      line.tasks.map(
        (id, at) =>
          new Map<string, Tree>([
            ["id", `S${at + 1}`],
            ["tasks", [id]],
          ]),
      ),
    ],
  ]);
  multiply(plan, draw, ["stations"]);
  const command = draw.pick(["check", "check", "show", "report", "sheets", "chart"]);
  const files = { [LINE]: yamlOf(line.tree, draw), [PLAN]: yamlOf(plan, draw).slice(0, LARGEST) };
  return { args: [command, LINE, PLAN, ...(draw.once(2) ? ["--json"] : [])], files, from: "changed" };
}

/** One value or key that is long, or brackets that stand in brackets. */
function lineOfLong(draw: Draw): Made {
  const { tree } = anyLine(draw, 4);
  const { holder, key } = draw.pick(places(tree));
  const piece = draw.pick([
    oddName(draw),
    unseenName(draw),
    anyValue(draw),
    "9",
    "0",
    "x",
    " ",
    "e\u0301",
    "1:",
    "1/",
  ]);
  const long = piece.repeat(Math.floor(draw.pick([2_000, 90_000, 800_000]) / Math.max(1, piece.length)));
  if (holder instanceof Map && draw.once(4))
    holder.set(long.slice(0, 100_000), valueAt(holder, key as string));
  else if (holder instanceof Map) holder.set(key as string, long);
  else holder[key as number] = long;
  const [command, ...options] = draw.pick(COMMANDS);
  const deep = draw.once(4)
    ? `x: ${draw.pick(["[", "{a: ", "- ", "? "]).repeat(draw.pick([30, 50, 100_000]))}\n`
    : "";
  const text = `${yamlOf(tree, draw)}${deep}`.slice(0, LARGEST);
  return { args: [command, LINE, ...options], files: { [LINE]: text }, from: "changed" };
}

const PIECES = [
  ..."[]{},:?-'\"#&*!|>%@`\t\n ",
  ...[
    "- ",
    "a: ",
    "a:\n",
    "---\n",
    "%X\n",
    "!a ",
    "&a ",
    "*a ",
    "\n  ",
    "# x\n",
    "a: b\n",
    "- x\n",
    "a, ",
    "=1+1,",
  ],
  ...[
    "\u0000",
    "\u0007",
    "\u001b[2J",
    "\u202e",
    "\ufeff",
    "\r",
    "\u2028",
    "e\u0301",
    "🚲",
    '"a""b",',
    "a;b\n",
    "1,\n",
  ],
];

/** One piece of text over and over, behind a sound start or alone, for whoever reads text. */
function overAndOver(draw: Draw): Made {
  const start = draw.pick([
    "",
    "tasks:\n  a: 5\n",
    "tasks:\n  a: &a 5\n  b: {time: 5, after: ",
    "id,time,after\n",
    "element,reading\n",
  ]);
  const piece = draw.once(3) ? `${draw.pick(PIECES)}${draw.pick(PIECES)}` : draw.pick(PIECES);
  const text = start + piece.repeat(Math.floor(draw.pick([20_000, 300_000, 900_000]) / piece.length));
  const [name, args] = draw.pick([
    [LINE, ["takt", LINE]],
    [LINE, ["takt", LINE, "--json"]],
    ["table.csv", ["import", "table.csv"]],
    ["table.csv", ["study", "table.csv", "--json"]],
    ["table.csv", ["order", LINE, "--from", "table.csv"]],
  ] as const);
  const line = { [LINE]: "unit: s\ntasks:\n  a: 5\n  b: 6\n" };
  return { args, files: { ...line, [name]: text }, from: "bytes" };
}

/** Rows of a table after those that are there, each with numbers of its own or without. */
function tableOfMany(draw: Draw): Made {
  const line = anyLine(draw, 5);
  const [command, rows] = draw.pick([
    ["import", anyTaskTable(draw, line)],
    ["study", anyReadings(draw, line, false)],
    ["order", anyOrders(draw, line)],
  ] as const);
  const copied = draw.pick(rows.length > 1 ? rows.slice(1) : rows);
  const count = manyOf(draw, copied.join(",").length + 6);
  const isNumbered = !draw.once(4);
  const more = Array.from(
    { length: count },
    (_, number): Row => copied.map((text, at) => (at === 0 && isNumbered ? `${text}${number}` : text)),
  );
  const all = [...rows, ...more];
  const isWorkbook = draw.once(3);
  const name = isWorkbook ? "table.xlsx" : "table.csv";
  const content = isWorkbook
    ? packed(workbookOf(all.slice(0, 12_000), draw))
    : csvOf(all, draw).slice(0, LARGEST);
  const args = command === "order" ? ["order", LINE, "--from", name] : [command, name];
  return { args, files: { [LINE]: yamlOf(line.tree, draw), [name]: content }, from: "changed" };
}

const packed = (parts: Record<string, string>): Uint8Array =>
  zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, Buffer.from(text)])), {
    level: 6,
    mtime: "2026-01-01T00:00:00",
  });
