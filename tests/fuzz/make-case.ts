import { zipSync } from "fflate";
import { type AnyLine, type AnyLineWants, anyLine } from "./any-line.js";
import { anyOrders, anyReadings, anyTaskTable, csvOf, type Row, workbookOf } from "./any-table.js";
import type { Made, Mode } from "./case.js";
import { Draw } from "./draw.js";
import { oddName, unseenName } from "./hostile.js";
import { largeCase } from "./large-case.js";
import {
  argsOf,
  type Called,
  importArgs,
  LINE,
  NODES,
  OTHER_LINE,
  OTHER_PLAN,
  OTHER_TABLE,
  orderArgs,
  PLAN,
  type Question,
  studyArgs,
} from "./make-args.js";
import { mutateBytes, mutateText, mutateTree } from "./mutate.js";
import type { Corpus } from "./read-corpus.js";
import { type Tree, yamlOf } from "./tree.js";

/** One of a list in which each stands as often as it is said. */
const weighed = <T extends string>(shares: Readonly<Partial<Record<T, number>>>): readonly T[] =>
  Object.entries<number | undefined>(shares).flatMap(([each, times]) => Array<T>(times ?? 0).fill(each as T));

/** How often a kind of input comes: those that are slow or have little to get wrong come seldom. */
const MIX = weighed<Exclude<Mode, "solver">>({ line: 8, plan: 12, readings: 2, table: 3, workbook: 1 });

/** What is asked of a line alone, and of a line with a plan; searches come less often than their parts are many, as they take longer. */
const OF_LINES = weighed<Question>({
  takt: 8,
  export: 7,
  balance: 5,
  "off-line": 2,
  compare: 1,
  staff: 1,
  "parts of an option": 2,
  new: 1,
  schema: 1,
  completion: 1,
  help: 1,
});
const OF_PLANS = weighed<Question>({
  check: 8,
  show: 6,
  chart: 6,
  report: 4,
  parts: 6,
  sheets: 6,
  ramp: 5,
  simulate: 3,
  rebalance: 2,
  "balance from a plan": 1,
  "compare with a plan": 1,
  "staff from a plan": 1,
});

/** The kind of the input of that number, where none is asked for. */
export const modeOf = (number: number): Mode => new Draw(number ^ 0x5bd1e995).pick(MIX);

/** The input of a number: the same one every time. */
export function makeCase(mode: Exclude<Mode, "solver">, number: number, corpus: Corpus): Made {
  const draw = new Draw(number);
  switch (mode) {
    case "line":
      return draw.once(12) ? ofCorpus(draw, corpus) : lineCase(draw);
    case "plan":
      return draw.once(12) ? planOfCorpus(draw, corpus) : planCase(draw);
    case "readings":
      return tableCase(draw, corpus, "readings", false);
    case "table":
      return tableCase(draw, corpus, draw.pick(["tasks", "orders"]), false);
    case "workbook":
      return tableCase(draw, corpus, draw.pick(["tasks", "orders", "readings"]), true);
    case "large":
      return largeCase(draw);
  }
}

/** What a line has to say for a question to be worth asking. */
const WANTED: Readonly<Partial<Record<Question, AnyLineWants>>> = {
  ramp: { learning: true },
  simulate: { variation: true },
  parts: { parts: true },
  "parts of an option": { parts: true, tables: true },
  compare: { options: true },
  "compare with a plan": { options: true },
};

function lineCase(draw: Draw): Made {
  const question = draw.pick(OF_LINES);
  const line = anyLine(draw, 5, WANTED[question]);
  const called = { line, posts: [], path: draw.once(30) ? "-" : LINE, plan: PLAN };
  const args = argsOf(question, draw, called);
  const { files, from } = written(draw, called.path, line.tree, 5);
  return withOthers(draw, { args, files, from }, called);
}

/** The files besides that a command line calls. */
function withOthers(draw: Draw, { args, files, from }: Made, { line }: Called): Made {
  const isCalled = (name: string) => args.some((each) => each.split(",").includes(name));
  const others: Record<string, string | Uint8Array> = { ...files };
  if (isCalled(OTHER_LINE)) others[OTHER_LINE] = yamlOf(otherLine(draw, line), draw);
  if (isCalled(OTHER_PLAN)) others[OTHER_PLAN] = yamlOf(anyPlan(draw, line).tree, draw);
  if (isCalled(OTHER_TABLE)) others[OTHER_TABLE] = csvOf(anyOrders(draw, line), draw);
  return { args, files: others, from };
}

/** The same line but for a value or two, or another one. */
function otherLine(draw: Draw, { tree }: AnyLine): Map<string, Tree> {
  if (draw.once(4)) return anyLine(draw, 3).tree;
  const changed = structuredClone(tree);
  if (draw.once(2)) mutateTree(changed, draw);
  return changed;
}

/** A file of a tree: as it is, changed as a tree or as text. */
function written(draw: Draw, name: string, tree: Map<string, Tree>, changedIn: number): Omit<Made, "args"> {
  const isChanged = draw.once(changedIn);
  const isText = draw.once(4);
  if (isChanged && !isText) mutateTree(tree, draw);
  const text = yamlOf(tree, draw);
  const content = asStored(draw, isChanged && isText ? mutateText(text, text, draw) : text);
  return { files: { [name]: content }, from: isChanged ? "changed" : "sound" };
}

/** As other editors store it, now and then. */
function asStored(draw: Draw, text: string): string | Uint8Array {
  if (!draw.once(16)) return text;
  const way = draw.below(4);
  if (way === 0) return text.replaceAll("\n", "\r\n");
  if (way === 1) return Buffer.from(`\ufeff${text}`, "utf16le");
  if (way === 2) return text.trimEnd();
  return `\ufeff${text}`;
}

/** Tasks in their order at stations in theirs, some left out or at benches: mostly a plan that can be read. */
function anyPlan(draw: Draw, line: AnyLine): { readonly tree: Map<string, Tree>; readonly posts: string[] } {
  const groups: string[][] = [[]];
  for (const task of line.tasks) {
    if (draw.once(25)) continue;
    if (draw.once(2)) groups.push([]);
    groups.at(-1)!.push(task);
  }
  const filled = groups.filter((tasks) => tasks.length > 0);
  const used = filled.map(
    (_, at) => line.stations[at] ?? (line.stations.length > 0 ? `+${at}` : `S${at + 1}`),
  );
  const behind = line.stations.length > 0 ? filled.slice(line.stations.length).length : 0;
  const stations = filled.map((tasks, at): Tree => {
    const keys = new Map<string, Tree>();
    const id = used[at]!.startsWith("+") ? `S${at + 1}` : used[at]!;
    if (behind === 0 || !draw.once(4)) keys.set("id", id);
    if (draw.once(6)) keys.set("places", "2");
    keys.set("tasks", tasks.length === 1 && draw.once(6) ? [tasks[0]!] : tasks);
    if (line.isSided)
      keys.set(
        "sides",
        new Map(tasks.filter(() => draw.once(2)).map((task) => [task, draw.pick(["left", "right"])])),
      );
    if (draw.once(30)) keys.set("persons", new Map([[tasks[0]!, "1"]]));
    return keys;
  });
  const tree = new Map<string, Tree>([["format", "linepoise-plan/1"]]);
  if (draw.once(2)) tree.set("line", LINE);
  if (draw.once(2))
    tree.set(
      "made-for",
      new Map([
        ["line-cycle", "60 s"],
        ["fingerprint", "abc"],
      ]),
    );
  const atBench = filled.length > 1 && draw.once(8) ? (stations.pop() as Map<string, Tree>) : null;
  tree.set("stations", stations);
  if (atBench !== null) {
    const id = draw.once(2) ? (line.benches[0] ?? "B1") : null;
    const keys: [string, Tree][] = [["tasks", atBench.get("tasks")!]];
    tree.set("benches", [new Map(id === null ? keys : [["id", id], ...keys])]);
  }
  return {
    tree,
    posts: [
      ...used.slice(0, stations.length).map((id, at) => (id.startsWith("+") ? `S${at + 1}` : id)),
      ...(atBench === null ? [] : [line.benches[0] ?? "B1"]),
    ],
  };
}

function planCase(draw: Draw): Made {
  const question = draw.pick(OF_PLANS);
  const line = anyLine(draw, 5, WANTED[question]);
  const { tree, posts } = anyPlan(draw, line);
  const isPiped = draw.once(30);
  const isPlanPiped = isPiped && draw.once(2);
  const called = { line, posts, path: isPiped && !isPlanPiped ? "-" : LINE, plan: isPlanPiped ? "-" : PLAN };
  const args = argsOf(question, draw, called);
  const plan = written(draw, called.plan, tree, 5);
  const files = { [called.path]: yamlOf(line.tree, draw), ...plan.files };
  return withOthers(draw, { args, files, from: plan.from }, called);
}

function ofCorpus(draw: Draw, { lines, cases }: Corpus): Made {
  if (draw.once(2)) {
    const { args, files } = draw.pick(cases);
    const names = Object.keys(files);
    if (names.length === 0) return { args, files, from: "bytes" };
    const name = draw.pick(names);
    const content = files[name]!;
    const other = files[draw.pick(names)]!;
    return {
      args,
      files: { ...files, [name]: changed(draw, String(content), String(other)) },
      from: "bytes",
    };
  }
  const text = changed(draw, draw.pick(lines), draw.pick(lines));
  const args = draw.pick([
    ["takt", LINE],
    ["export", LINE],
    ["balance", LINE, ...NODES],
  ]);
  return { args: [...args, ...(draw.once(2) ? ["--json"] : [])], files: { [LINE]: text }, from: "bytes" };
}

const changed = (draw: Draw, text: string, other: string): string | Uint8Array =>
  draw.once(3) ? mutateBytes(Buffer.from(text), draw) : mutateText(text, other, draw);

function planOfCorpus(draw: Draw, { lines, plans }: Corpus): Made {
  const args = draw.pick([
    ["check", LINE, PLAN],
    ["show", LINE, PLAN],
    ["rebalance", LINE, "--from", PLAN, ...NODES],
    ["sheets", LINE, PLAN],
  ]);
  const at = draw.below(3);
  return {
    args: [...args, ...(draw.once(2) ? ["--json"] : [])],
    files: { [LINE]: lines[at]!, [PLAN]: changed(draw, draw.pick(plans), draw.pick(plans)) },
    from: "bytes",
  };
}

function tableCase(
  draw: Draw,
  corpus: Corpus,
  kind: "tasks" | "orders" | "readings",
  isWorkbook: boolean,
): Made {
  const line = anyLine(draw, 4);
  const lineText = yamlOf(line.tree, draw);
  const hasMarks = kind === "readings" && draw.once(6);
  const isYaml = kind === "readings" && !isWorkbook && draw.once(3);
  const name = isWorkbook ? "table.xlsx" : isYaml ? "readings.yaml" : "table.csv";
  const rows =
    kind === "tasks"
      ? anyTaskTable(draw, line)
      : kind === "orders"
        ? anyOrders(draw, line)
        : anyReadings(draw, line, hasMarks);
  const made = isYaml
    ? yamlReadings(draw, line, rows)
    : isWorkbook
      ? workbookFile(draw, rows)
      : csvFile(draw, rows, corpus);
  const called = { line, posts: [], path: kind === "orders" && draw.once(30) ? "-" : LINE, plan: PLAN };
  const sheet = isWorkbook ? (draw.once(12) ? "Notes" : "Tasks") : null;
  const args = {
    tasks: () => importArgs(draw, name, rows[0] ?? [], sheet),
    orders: () => orderArgs(draw, name, called, sheet),
    readings: () => studyArgs(draw, name, line.tasks, sheet, hasMarks ? "*" : null),
  }[kind]();
  const files = { ...(args.includes(called.path) ? { [called.path]: lineText } : {}), [name]: made.content };
  return withOthers(draw, { args, files, from: made.from }, called);
}

interface MadeFile {
  readonly content: string | Uint8Array;
  readonly from: Made["from"];
}

function mutateRows(rows: Row[], draw: Draw): void {
  for (let turn = draw.from(1, 3); turn > 0 && rows.length > 0; turn--) {
    const row = draw.pick(rows);
    const at = draw.below(row.length + 1);
    const value = draw.once(2)
      ? oddName(draw)
      : draw.once(2)
        ? unseenName(draw)
        : draw.pick([
            "",
            "0",
            "-1",
            "1,5",
            "1.033",
            "1e9",
            "1:30",
            "9".repeat(40),
            "3-5",
            "t1; t2",
            "nan",
            "100 %",
          ]);
    const change = draw.below(6);
    if (change === 0) row.splice(at, 1);
    else if (change === 1) rows.splice(draw.below(rows.length), 0, [...draw.pick(rows)]);
    else row[at] = value;
  }
}

function csvFile(draw: Draw, rows: Row[], corpus: Corpus): MadeFile {
  const kind = draw.below(8);
  if (kind === 0) {
    const text = draw.once(2) ? csvOf(rows, draw) : draw.pick(corpus.tables);
    return { content: changed(draw, text, draw.pick(corpus.tables)), from: "bytes" };
  }
  const isChanged = kind === 1;
  if (isChanged) mutateRows(rows, draw);
  const text = csvOf(rows, draw);
  const content = draw.once(12) ? Buffer.from(`\ufeff${text}`, draw.once(2) ? "utf16le" : "utf8") : text;
  return { content, from: isChanged ? "changed" : "sound" };
}

function workbookFile(draw: Draw, rows: Row[]): MadeFile {
  const kind = draw.below(8);
  if (kind === 1) mutateRows(rows, draw);
  const parts = workbookOf(rows, draw);
  if (kind === 2) {
    const name = draw.pick(Object.keys(parts));
    parts[name] = mutateText(parts[name]!, parts[draw.pick(Object.keys(parts))]!, draw);
  }
  const packed = zipSync(
    Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, Buffer.from(text)])),
    { level: draw.once(2) ? 0 : 6, mtime: "2026-01-01T00:00:00" },
  );
  const isBytes = kind === 3;
  return {
    content: isBytes ? mutateBytes(packed, draw) : packed,
    from: isBytes || kind === 2 ? "bytes" : kind === 1 ? "changed" : "sound",
  };
}

function yamlReadings(draw: Draw, line: AnyLine, rows: Row[]): MadeFile {
  const elements = new Map<string, Tree>();
  for (const task of line.tasks) {
    const readings = Array.from({ length: draw.from(1, 6) }, () => `${draw.from(10, 30)}.${draw.below(10)}`);
    elements.set(
      task,
      draw.once(2)
        ? readings
        : new Map<string, Tree>([
            ["readings", readings],
            ["rating", "105 %"],
          ]),
    );
  }
  const tree = new Map<string, Tree>([
    ["unit", "s"],
    ["elements", elements],
  ]);
  void rows;
  const { files, from } = written(draw, "x", tree, 3);
  return { content: files.x!, from };
}
