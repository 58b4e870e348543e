import { zipSync } from "fflate";
import { type AnyLine, anyLine } from "./any-line.js";
import { anyOrders, anyReadings, anyTaskTable, csvOf, type Row, workbookOf } from "./any-table.js";
import type { Case, Mode } from "./case.js";
import { Draw } from "./draw.js";
import { oddName, unseenName } from "./hostile.js";
import { mutateBytes, mutateText, mutateTree } from "./mutate.js";
import type { Corpus } from "./read-corpus.js";
import { type Tree, yamlOf } from "./tree.js";

/** An input with how it was made: `sound` is meant to be read, `changed` was sound before, `bytes` is anything. */
export interface Made extends Case {
  readonly from: "sound" | "changed" | "bytes";
}

/** One kind of input in so many: those that are slow or have little to get wrong come seldom. */
const MIX: readonly Mode[] = [
  ...Array<Mode>(10).fill("line"),
  ...Array<Mode>(5).fill("plan"),
  ...Array<Mode>(2).fill("readings"),
  ...Array<Mode>(2).fill("table"),
  "workbook",
];

/** The kind of the input of that number, where none is asked for. */
export const modeOf = (number: number): Mode => new Draw(number ^ 0x5bd1e995).pick(MIX);

/** The input of a number: the same one every time. */
export function makeCase(mode: Exclude<Mode, "solver">, number: number, corpus: Corpus): Made {
  const draw = new Draw(number);
  switch (mode) {
    case "line":
      return draw.once(12) ? ofCorpus(draw, corpus) : lineCase(draw);
    case "plan":
      return draw.once(8) ? planOfCorpus(draw, corpus) : planCase(draw);
    case "readings":
      return tableCase(draw, corpus, "readings", false);
    case "table":
      return tableCase(draw, corpus, draw.pick(["tasks", "orders"]), false);
    case "workbook":
      return tableCase(draw, corpus, draw.pick(["tasks", "orders", "readings"]), true);
  }
}

const LINE = "line.yaml";
const PLAN = "plan.yaml";
/** Where the plan of an answer is written. */
export const NEW_PLAN = "new.plan.yaml";

function formats(draw: Draw, ...others: string[]): string[] {
  if (draw.once(2)) return ["--json"];
  const format = draw.pick(["text", "text", "csv", ...others]);
  if (format === "text") return [];
  const habits =
    format === "csv" && draw.once(4) ? ["--delimiter", draw.pick(["comma", "semicolon", "tab", "pipe"])] : [];
  return ["--format", format, ...habits];
}

function demandOptions(draw: Draw, hasDemand: boolean): string[] {
  const asked = draw.below(hasDemand ? 8 : 2);
  if (asked === 0) return ["--cycle", draw.pick(["60", "45 s", "1:30", "90.909 s", "200"])];
  return asked === 1 ? ["--demand", draw.pick(["40 per hour", "75 per hour", "61.7 per hour"])] : [];
}

const NODES = ["--nodes", "60"];

function lineArgs(draw: Draw, line: AnyLine): string[] {
  const hasDemand = line.tree.has("demand");
  const pace = () => demandOptions(draw, hasDemand);
  const strict = () => (draw.once(6) ? ["--strict-limit"] : []);
  switch (
    draw.once(8)
      ? draw.pick(["balance", "balance", "balance", "balance", "off-line", "compare", "staff"])
      : draw.pick(["takt", "takt", "export", "parts"])
  ) {
    case "takt":
      return ["takt", LINE, ...(draw.once(3) ? ["--demand", "75 per hour"] : []), ...formats(draw)];
    case "balance": {
      const fixed = draw.once(8) ? ["--stations", String(draw.from(1, line.tasks.length))] : null;
      const method = draw.once(4)
        ? ["--method", draw.pick(["positional-weight", "columns", "exact", "most-followers"])]
        : [];
      const ways = fixed ?? [...pace(), ...strict(), ...method, ...(draw.once(6) ? ["--explain"] : [])];
      return ["balance", LINE, ...ways, ...NODES, "--write", NEW_PLAN, ...formats(draw)];
    }
    case "off-line":
      return [
        "off-line",
        LINE,
        ...pace(),
        ...strict(),
        ...NODES,
        ...(draw.once(4) ? ["--benches", "2"] : []),
        ...(draw.once(4) ? [`--blocks=${line.tasks[0]}`] : []),
        ...formats(draw),
      ];
    case "compare": {
      const options = line.options.length > 0 ? [] : [LINE];
      return ["compare", LINE, ...options, ...pace(), ...NODES, ...formats(draw, "svg", "markdown")];
    }
    case "staff":
      return [
        "staff",
        LINE,
        "--demand",
        draw.pick(["40..60/10 per hour", "75..75/1 per hour", "10..90/40 per hour"]),
        ...NODES,
        ...strict(),
        ...formats(draw, "svg"),
      ];
    case "export":
      return ["export", LINE, ...(draw.once(2) ? ["--json"] : draw.once(2) ? ["--out", "tasks.xlsx"] : [])];
    default: {
      const [option] = line.tables;
      if (option === undefined) return ["takt", LINE, ...formats(draw)];
      return [
        "parts",
        LINE,
        `--option=${option}`,
        ...(line.hasCalendar ? [] : ["--units", "12"]),
        ...formats(draw, "markdown"),
      ];
    }
  }
}

/** Commands that read a plan; those that search come seldom. */
const OF_PLANS = ["check", "check", "check", "show", "chart", "report", "parts", "sheets", "ramp"] as const;
const SEARCHING = ["rebalance", "rebalance", "simulate", "balance", "compare", "staff"] as const;

function planArgs(draw: Draw, line: AnyLine, stations: readonly string[]): string[] {
  const command = draw.once(12) ? draw.pick(SEARCHING) : draw.pick(OF_PLANS);
  const hasNone = command === "ramp" && !line.tree.has("learning");
  const name = hasNone ? "check" : command;
  return [name, LINE, ...OPTIONS[name](draw, line, stations)];
}

type DrawOptions = (draw: Draw, line: AnyLine, stations: readonly string[]) => string[];

const sometimes = (draw: Draw, many: number, ...words: string[]): string[] => (draw.once(many) ? words : []);
const pace = (draw: Draw, line: AnyLine): string[] => demandOptions(draw, line.tree.has("demand"));
const stationOption = (draw: Draw, stations: readonly string[]): string =>
  `--station=${stations.length > 0 ? draw.pick(stations) : "S1"}`;
const modelOption = (draw: Draw, { models }: AnyLine): string[] =>
  models.length > 0 ? sometimes(draw, 3, `--model=${draw.pick(models)}`) : [];

const OPTIONS: Readonly<Record<(typeof OF_PLANS | typeof SEARCHING)[number], DrawOptions>> = {
  check: (draw, line) => [
    PLAN,
    ...pace(draw, line),
    ...NODES,
    ...sometimes(draw, 4, "--fail-on", "note"),
    ...sometimes(draw, 6, "--against", PLAN),
    ...formats(draw, "github", "junit"),
  ],
  show: (draw, line, stations) => [
    PLAN,
    ...pace(draw, line),
    ...draw.pick([
      [],
      [],
      ["--proof", ...NODES],
      [stationOption(draw, stations), ...modelOption(draw, line)],
    ]),
    ...formats(draw),
  ],
  chart: (draw, line, stations) => [
    PLAN,
    ...pace(draw, line),
    ...draw.pick([
      [],
      ["--of", "order"],
      ["--of", "order", "--against", PLAN],
      ["--of", "station", stationOption(draw, stations), ...modelOption(draw, line)],
    ]),
    ...draw.pick([["--json"], ["--format", "svg"], ["--format", "text"]]),
  ],
  report: (draw, line) => [
    PLAN,
    ...pace(draw, line),
    ...sometimes(draw, 4, "--against", PLAN),
    ...sometimes(draw, 8, "--proof", ...NODES),
    ...draw.pick([["--json"], ["--format", "html"], ["--format", "markdown"], ["--format", "csv"]]),
  ],
  parts: (draw, line, stations) => [
    PLAN,
    ...(draw.once(3) || !line.hasCalendar ? ["--units", draw.pick(["1", "200"])] : []),
    ...draw.pick([[], [], ["--against", PLAN], [stationOption(draw, stations)]]),
    ...modelOption(draw, line),
    ...formats(draw, "markdown"),
  ],
  sheets: (draw, line, stations) => [
    PLAN,
    ...pace(draw, line),
    ...draw.pick([[], [], [], [stationOption(draw, stations)], ["--training"]]),
    ...draw.pick([["--json"], ["--format", "html"], ["--format", "markdown"]]),
  ],
  ramp: (draw, line) => [
    PLAN,
    ...pace(draw, line),
    "--units",
    draw.pick(["5", "60"]),
    ...sometimes(draw, 4, "--each"),
    ...formats(draw),
  ],
  simulate: (draw, line) => [
    PLAN,
    ...pace(draw, line),
    ...["--hours", "0.2 h", "--replications", "2"],
    ...sometimes(draw, 6, "--what-helps"),
    ...formats(draw, "svg"),
  ],
  rebalance: (draw, line) => {
    const limits = draw.pick([
      [],
      [],
      ["--max-moves", "1"],
      ["--max-move-cost", "2"],
      [`--keep=${line.tasks[0]}`],
      ["--steps", "2"],
      line.tree.has("learning") ? ["--learning"] : [],
    ]);
    const isSeveral = limits.length === 0 && draw.once(3);
    const asked = isSeveral ? ["--demand", "40, 60 per hour"] : [...pace(draw, line), "--write", NEW_PLAN];
    return ["--from", PLAN, ...limits, ...asked, ...NODES, ...formats(draw)];
  },
  balance: (draw, line) => [
    "--from",
    PLAN,
    ...pace(draw, line),
    ...NODES,
    "--write",
    NEW_PLAN,
    ...formats(draw),
  ],
  compare: (draw, line) => [
    ...(line.options.length > 0 ? [] : [LINE]),
    "--from",
    PLAN,
    ...pace(draw, line),
    ...NODES,
    ...formats(draw),
  ],
  staff: (draw) => ["--from", PLAN, "--demand", "40..60/20 per hour", ...NODES, ...formats(draw)],
};

function lineCase(draw: Draw): Made {
  const line = anyLine(draw, 5);
  const args = lineArgs(draw, line);
  return { args, ...written(draw, LINE, line.tree, 4) };
}

/** A file of a tree: as it is, changed as a tree or as text. */
function written(draw: Draw, name: string, tree: Map<string, Tree>, changedIn: number): Omit<Made, "args"> {
  const isChanged = draw.once(changedIn);
  const isText = draw.once(4);
  if (isChanged && !isText) mutateTree(tree, draw);
  const text = yamlOf(tree, draw);
  const content = isChanged && isText ? mutateText(text, text, draw) : text;
  return { files: { [name]: content }, from: isChanged ? "changed" : "sound" };
}

/** Tasks in their order at stations in theirs, some left out or at benches: mostly a plan that can be read. */
function anyPlan(
  draw: Draw,
  line: AnyLine,
): { readonly tree: Map<string, Tree>; readonly stations: string[] } {
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
  tree.set("stations", stations);
  return { tree, stations: used.map((id, at) => (id.startsWith("+") ? `S${at + 1}` : id)) };
}

function planCase(draw: Draw): Made {
  const line = anyLine(draw, 5);
  const { tree, stations } = anyPlan(draw, line);
  const args = planArgs(draw, line, stations);
  const plan = written(draw, PLAN, tree, 4);
  return { args, files: { [LINE]: yamlOf(line.tree, draw), ...plan.files }, from: plan.from };
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

/** Options of what a table is, now and then. */
function tableOptions(draw: Draw, kind: "tasks" | "orders" | "readings"): string[] {
  const delimiter = draw.once(20) ? ["--delimiter", draw.pick(["comma", "semicolon", "tab", "pipe"])] : [];
  if (kind === "orders")
    return [
      ...delimiter,
      "--questions",
      draw.pick(["0", "0", "2"]),
      ...NODES,
      ...(draw.once(3) ? ["--into", LINE, ...(draw.once(2) ? ["--dry-run"] : [])] : []),
    ];
  const unit = draw.once(12) ? [] : ["--unit", "s"];
  const decimals = draw.once(3) ? ["--decimals", draw.pick(["point", "comma"])] : [];
  if (kind === "tasks") {
    const into = draw.once(8) ? ["--into", LINE] : [];
    return [
      ...delimiter,
      ...unit,
      ...decimals,
      ...into,
      ...(draw.once(6) ? ["--ranges"] : []),
      ...(draw.once(2) ? ["--json"] : []),
    ];
  }
  const clock = draw.once(4) ? ["--clock", "continuous"] : [];
  const allowance = draw.once(3)
    ? ["--allowance", "personal 5 %", "--allowance-of", draw.pick(["job", "shift"])]
    : [];
  const statistic = draw.once(4) ? ["--statistic", draw.pick(["median", "lowest-repeated"])] : [];
  const into = draw.once(8) ? ["--into", LINE] : [];
  return [
    ...delimiter,
    ...unit,
    ...decimals,
    ...clock,
    ...allowance,
    ...statistic,
    ...into,
    ...formats(draw),
  ];
}

function tableCase(
  draw: Draw,
  corpus: Corpus,
  kind: "tasks" | "orders" | "readings",
  isWorkbook: boolean,
): Made {
  const line = anyLine(draw, 4);
  const lineText = yamlOf(line.tree, draw);
  const name = isWorkbook ? "table.xlsx" : "table.csv";
  const isYaml = kind === "readings" && !isWorkbook && draw.once(3);
  const rows =
    kind === "tasks"
      ? anyTaskTable(draw, line)
      : kind === "orders"
        ? anyOrders(draw, line)
        : anyReadings(draw, line);
  const made = isYaml
    ? yamlReadings(draw, line, rows)
    : isWorkbook
      ? workbookFile(draw, rows)
      : csvFile(draw, rows, corpus);
  const command = { tasks: "import", orders: "order", readings: "study" }[kind];
  const words = kind === "orders" ? [LINE, "--from", name] : [name];
  return {
    args: [command, ...words, ...tableOptions(draw, kind)],
    files: { [LINE]: lineText, [name]: made.content },
    from: made.from,
  };
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
