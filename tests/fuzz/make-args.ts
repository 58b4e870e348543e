import type { AnyLine } from "./any-line.js";
import type { Draw } from "./draw.js";
import { oddName } from "./hostile.js";

/*
 * Command lines with every option of every command. What a command would refuse for the sake of its options alone comes seldom, as it says
 * nothing of the files.
 */

export const LINE = "line.yaml";
export const PLAN = "plan.yaml";
/** A second plan, line and table, for options and arguments that take another. */
export const OTHER_PLAN = "other.plan.yaml";
export const OTHER_LINE = "other.yaml";
export const OTHER_TABLE = "other.csv";
/** Where the plan of an answer is written. */
export const NEW_PLAN = "new.plan.yaml";
/** Where an answer goes in place of the screen, but for its end. */
export const OUT = "out";

export const NODES = ["--nodes", "40"];

/** What the files of a command line have in them, to be called by their names. */
export interface Called {
  readonly line: AnyLine;
  /** Stations and benches of the plan. */
  readonly posts: readonly string[];
  /** Of the line and of the plan, as the command line calls them. */
  readonly path: string;
  readonly plan: string;
}

type DrawOptions = (draw: Draw, called: Called) => string[];

export const sometimes = (draw: Draw, many: number, ...words: string[]): string[] =>
  draw.once(many) ? words : [];

const DELIMITERS = ["comma", "semicolon", "tab", "pipe"] as const;

/** How CSV is written. */
export const csvHabits = (draw: Draw): string[] => [
  ...sometimes(draw, 5, "--delimiter", draw.pick(DELIMITERS)),
  ...sometimes(draw, 6, "--decimals", draw.pick(["point", "comma"])),
  ...sometimes(draw, 12, "--byte-order-mark"),
  ...sometimes(draw, 24, "--no-guard"),
];

/** Ends of files by the form that they ask for. */
const ENDS: Readonly<Record<string, readonly string[]>> = {
  json: ["json"],
  csv: ["csv", "xlsx"],
  svg: ["svg"],
  html: ["html"],
  markdown: ["md"],
};

/** The form of an answer and where it goes; `forms` as the help names them, the first without being asked for. */
export function output(draw: Draw, forms: readonly string[], habits = csvHabits): string[] {
  const form = draw.once(3) ? "json" : draw.pick(forms);
  const end = draw.once(16) ? draw.pick(ENDS[form] ?? ["txt"]) : null;
  const file = end === null ? [] : ["--out", `${OUT}.${end}`, ...sometimes(draw, 4, "--force")];
  const isSaid = form !== forms[0] || draw.once(4);
  const said = form === "json" && draw.once(2) ? ["--json"] : isSaid ? ["--format", form] : [];
  return [...said, ...file, ...(form === "csv" && end !== "xlsx" ? habits(draw) : [])];
}

const FIGURES = ["text", "csv", "json"] as const;
const NO_HABITS = (): string[] => [];

const CYCLES = ["60", "45 s", "1:30", "90.909 s", "200"] as const;
const DEMANDS = ["40 per hour", "75 per hour", "61.7 per hour"] as const;

/** A pace: always where the line has none. */
const pace: DrawOptions = (draw, { line }) => {
  const asked = draw.below(line.tree.has("demand") ? 8 : 2);
  if (asked === 0) return ["--cycle", draw.pick(CYCLES)];
  return asked === 1 ? ["--demand", draw.pick(DEMANDS)] : [];
};

const demand: DrawOptions = (draw, { line }) =>
  line.tree.has("demand") ? sometimes(draw, 4, "--demand", draw.pick(DEMANDS)) : ["--demand", DEMANDS[1]];

const station: DrawOptions = (draw, { posts }) => [`--station=${posts.length > 0 ? draw.pick(posts) : "S1"}`];

const model: DrawOptions = (draw, { line: { models } }) =>
  models.length > 0 ? sometimes(draw, 3, `--model=${draw.pick(models)}`) : [];

const someTasks = (draw: Draw, { line: { tasks } }: Called): string =>
  draw.shuffled(tasks).slice(0, draw.from(1, 2)).join(",");

/** A plan names its line, which is in a file. */
const writing = (path: string): string[] => (path === "-" ? [] : ["--write", NEW_PLAN]);

const strict = (draw: Draw): string[] => sometimes(draw, 6, "--strict-limit");
/** The clock of the fuzzer stands still, so that partial plans end the search. */
const searching = (draw: Draw): string[] => [...NODES, ...sometimes(draw, 12, "--seconds", "5")];

const METHODS = [
  "positional-weight",
  "largest-candidate",
  "columns",
  "most-followers",
  "exact",
  "best",
] as const;

/** Options of each command by the name of what it is asked. */
const OPTIONS = {
  takt: (draw, called) => [
    called.path,
    ...(draw.once(12) ? [] : demand(draw, called)),
    ...output(draw, FIGURES),
  ],
  balance: (draw, called) => {
    const { line, path } = called;
    const isOfStations = draw.once(8) && !line.tree.has("keep-pace");
    const ways = isOfStations
      ? ["--stations", String(draw.from(1, line.tasks.length))]
      : [
          ...pace(draw, called),
          ...strict(draw),
          ...sometimes(draw, 3, "--method", draw.pick(METHODS)),
          ...sometimes(draw, 6, "--explain"),
        ];
    return [
      path,
      ...ways,
      ...(isOfStations ? [] : sometimes(draw, 6, "--no-level")),
      ...sometimes(draw, 6, "--proof"),
      ...searching(draw),
      ...writing(path),
      ...output(draw, FIGURES),
    ];
  },
  "balance from a plan": (draw, called) => [
    ...[called.path, "--from", called.plan],
    ...pace(draw, called),
    ...strict(draw),
    ...sometimes(draw, 8, "--no-level"),
    ...searching(draw),
    ...writing(called.path),
    ...output(draw, FIGURES),
  ],
  "off-line": (draw, called) => [
    called.path,
    ...pace(draw, called),
    ...strict(draw),
    ...searching(draw),
    ...sometimes(draw, 4, "--benches", "2"),
    ...sometimes(
      draw,
      4,
      `--blocks=${draw.once(2) ? someTasks(draw, called) : called.line.tasks.slice(0, 2).join("; ")}`,
    ),
    ...sometimes(draw, 4, "--rank", draw.pick(["stock,people,stations", "stations,stock,people"])),
    ...sometimes(draw, 4, "--joins-at-several"),
    ...output(draw, FIGURES),
  ],
  compare: (draw, called) => [
    ...comparedOptions(draw, called),
    ...pace(draw, called),
    ...NODES,
    ...output(draw, ["text", "markdown", "svg", "csv", "json"]),
  ],
  "compare with a plan": (draw, called) => [
    ...comparedOptions(draw, called),
    ...["--from", called.plan],
    ...pace(draw, called),
    ...NODES,
    ...output(draw, ["text", "markdown", "svg", "csv", "json"]),
  ],
  staff: (draw, { path }) => [
    ...[path, "--demand", draw.pick(["40..60/20 per hour", "75..75/1 per hour", "75..75/1 per hour"])],
    ...NODES,
    ...strict(draw),
    ...output(draw, ["text", "svg", "csv", "json"]),
  ],
  "staff from a plan": (draw, { path, plan }) => [
    ...[path, "--from", plan, "--demand", "40..60/20 per hour"],
    ...NODES,
    ...strict(draw),
    ...output(draw, ["text", "svg", "csv", "json"]),
  ],
  export: (draw, { path }) => [
    path,
    ...draw.pick([
      csvHabits(draw),
      csvHabits(draw),
      ["--json"],
      ["--out", `${OUT}.xlsx`],
      ["--out", `${OUT}.csv`, "--force"],
    ]),
  ],
  parts: (draw, called) => [
    ...[called.path, called.plan],
    ...(draw.once(3) || !called.line.hasCalendar
      ? ["--units", draw.pick(["1", "200"])]
      : demand(draw, called)),
    ...draw.pick([[], [], ["--against", OTHER_PLAN], station(draw, called)]),
    ...model(draw, called),
    ...output(draw, ["text", "markdown", "csv", "json"]),
  ],
  "parts of an option": (draw, { line, path }) => [
    ...[path, `--option=${draw.pick(line.tables)}`],
    ...(line.hasCalendar ? [] : ["--units", "12"]),
    ...output(draw, ["text", "markdown", "csv", "json"]),
  ],
  check: (draw, called) => [
    ...[called.path, called.plan],
    ...sometimes(draw, 8, OTHER_PLAN),
    ...pace(draw, called),
    ...NODES,
    ...sometimes(draw, 4, "--fail-on", draw.pick(["note", "warning", "error"])),
    ...sometimes(draw, 6, "--against", OTHER_PLAN),
    ...output(draw, ["text", "csv", "json", "github", "junit"]),
  ],
  show: (draw, called) => [
    ...[called.path, called.plan],
    ...pace(draw, called),
    ...draw.pick([
      [],
      [],
      ["--proof", ...searching(draw)],
      [...station(draw, called), ...model(draw, called)],
    ]),
    ...output(draw, FIGURES),
  ],
  chart: (draw, called) => [
    ...[called.path, called.plan],
    ...pace(draw, called),
    ...draw.pick([
      sometimes(draw, 2, "--of", "loads"),
      ["--of", "order"],
      ["--of", "order", "--against", OTHER_PLAN],
      ["--of", "station", ...station(draw, called), ...model(draw, called)],
    ]),
    ...output(draw, ["text", "svg", "json"]),
  ],
  report: (draw, called) => [
    ...[called.path, called.plan],
    ...pace(draw, called),
    ...sometimes(draw, 4, "--against", OTHER_PLAN),
    ...draw.pick([[], [], [], [], [], ["--proof", ...searching(draw)], ["--options", ...NODES]]),
    ...sometimes(draw, 24, "--simulate"),
    ...(draw.once(24)
      ? ["--watch", "--out", `${OUT}.html`]
      : output(draw, ["html", "markdown", "csv", "json"])),
  ],
  sheets: (draw, called) => [
    ...[called.path, called.plan],
    ...pace(draw, called),
    ...draw.pick([[], [], [], station(draw, called), called.line.hasSkills ? ["--training"] : []]),
    ...sometimes(draw, 6, "--date", draw.pick(["3 March", "<zz", "2026-03-03"])),
    ...output(draw, ["html", "markdown", "json"], NO_HABITS),
  ],
  ramp: (draw, called) => [
    ...[called.path, called.plan],
    ...pace(draw, called),
    ...["--units", draw.pick(["5", "60"])],
    ...sometimes(draw, 4, "--each"),
    ...output(draw, FIGURES),
  ],
  simulate: (draw, called) => {
    const table = sometimes(
      draw,
      2,
      "--table",
      draw.pick(["stations", "summary", "course", "changes", "benches", "stock", "parts"]),
    );
    const form = output(draw, ["text", "svg", "csv", "json"]);
    return [
      ...[called.path, called.plan],
      ...pace(draw, called),
      ...["--hours", draw.pick(["0.2 h", "10 min", "0.1"]), "--replications", draw.pick(["1", "2", "3"])],
      ...sometimes(draw, 2, "--warm-up", draw.pick(["0", "2 min"])),
      ...sometimes(draw, 4, "--seed", draw.pick(["0", "7", "4294967295"])),
      ...sometimes(draw, 4, "--within", "20 %"),
      ...sometimes(draw, 4, "--confidence", draw.pick(["90 %", "99 %"])),
      ...(form.includes("csv") || form.includes("svg") || form.includes("--out")
        ? []
        : sometimes(draw, 6, "--what-helps")),
      ...(form.includes("csv") && !form.includes("--out") ? table : []),
      ...form,
    ];
  },
  rebalance: (draw, called) => [
    ...[called.path, "--from", called.plan],
    ...(draw.once(4)
      ? severalPaces(draw)
      : [...moves(draw, called), ...pace(draw, called), ...writing(called.path)]),
    ...strict(draw),
    ...searching(draw),
    ...output(draw, FIGURES),
  ],
  new: (draw) => draw.pick([[], ["--json"], ["started.yaml"], ["--out", "started.yaml", "--force"]]),
  schema: (draw) => [
    ...draw.pick([[], ["line"], ["plan"]]),
    ...draw.pick([[], ["--json"], ["--out", `${OUT}.json`, "--force"]]),
  ],
  completion: (draw) => [draw.pick(["bash", "zsh", "fish", "powershell"])],
  help: (draw) => (draw.once(6) ? [] : [draw.once(6) ? oddName(draw) : draw.pick(WORDS)]),
} satisfies Readonly<Record<string, DrawOptions>>;

/** What a command is asked; commands with two meanings stand twice. */
export type Question = keyof typeof OPTIONS;

export const QUESTIONS = Object.keys(OPTIONS) as readonly Question[];

/** Names that `help` explains. */
const WORDS = [
  "takt",
  "after",
  "idle",
  "tasks.test.fail",
  "cycle time",
  "holds",
  "balance",
  "yield",
] as const;

function comparedOptions(draw: Draw, { line: { options }, path }: Called): string[] {
  if (options.length === 0) return [path, draw.once(2) ? OTHER_LINE : path];
  const named = draw.some(options).filter((name) => !name.startsWith("-"));
  return [path, ...(draw.once(3) ? named : []), ...sometimes(draw, 8, OTHER_LINE)];
}

const moves: DrawOptions = (draw, called) =>
  draw.pick([
    [],
    [],
    ["--max-moves", String(draw.below(4))],
    ["--max-move-cost", "2"],
    [`--keep=${someTasks(draw, called)}`],
    ["--steps", draw.pick(["1", "2"])],
    called.line.tree.has("learning") ? ["--learning"] : [],
  ]);

const severalPaces = (draw: Draw): string[] => [
  ...["--demand", draw.pick(["40, 60 per hour", "40, 75, 61.7 per hour"])],
  ...sometimes(draw, 2, "--people-above", draw.pick(["0", "1"])),
];

/** The command line of a question. */
export const argsOf = (question: Question, draw: Draw, called: Called): string[] => [
  question.split(" ")[0]!,
  ...OPTIONS[question](draw, called),
];

/** How the cells of a table are divided and written, where that is said. */
const howRead = (draw: Draw): string[] => [
  ...sometimes(draw, 20, "--delimiter", draw.pick(DELIMITERS)),
  ...sometimes(draw, 3, "--decimals", draw.once(6) ? "comma" : "point"),
];

const into = (draw: Draw, path: string): string[] => ["--into", path, ...sometimes(draw, 2, "--dry-run")];

/** What `import` is asked of a table with these headings. */
export function importArgs(
  draw: Draw,
  table: string,
  headings: readonly string[],
  sheet: string | null,
): string[] {
  return [
    "import",
    table,
    ...(draw.once(12) ? [] : ["--unit", draw.once(8) ? draw.pick(["min", "h", "cmin", "tmu"]) : "s"]),
    ...howRead(draw),
    ...(sheet !== null && draw.once(3) ? [`--sheet=${sheet}`] : []),
    ...sometimes(
      draw,
      8,
      "--columns",
      draw.pick([`id=${headings[0]}`, "time=C", "name=-", "after=Predecessors"]),
    ),
    ...sometimes(draw, 6, "--ranges"),
    ...sometimes(draw, 8, "--nothing", draw.pick(["start", "0"]), "--nothing", "no"),
    ...sometimes(draw, 8, "--orders", OTHER_TABLE),
    ...(draw.once(4)
      ? into(draw, LINE)
      : sometimes(draw, 6, "--out", `${OUT}.yaml`, ...sometimes(draw, 2, "--force"))),
    ...sometimes(draw, 2, "--json"),
  ];
}

/** What `order` is asked of orders in which units were built. */
export function orderArgs(draw: Draw, table: string, called: Called, sheet: string | null): string[] {
  return [
    ...["order", called.path, "--from", table],
    ...sometimes(draw, 6, "--from", OTHER_TABLE),
    ...sometimes(draw, 20, "--delimiter", draw.pick(DELIMITERS)),
    ...(sheet !== null && draw.once(3) ? [`--sheet=${sheet}`] : []),
    ...["--questions", draw.pick(["0", "0", "2"])],
    ...pace(draw, called),
    ...strict(draw),
    ...NODES,
    ...(draw.once(3) && called.path === LINE ? into(draw, LINE) : []),
    ...output(draw, FIGURES, NO_HABITS),
  ];
}

/** What `study` is asked of readings. */
export function studyArgs(
  draw: Draw,
  readings: string,
  tasks: readonly string[],
  sheet: string | null,
  mark: string | null,
): string[] {
  const isInto = draw.once(4);
  return [
    "study",
    readings,
    ...(draw.once(12) ? [] : ["--unit", "s"]),
    ...howRead(draw),
    ...(sheet !== null && draw.once(3) ? [`--sheet=${sheet}`] : []),
    ...sometimes(draw, 4, "--clock", draw.pick(["continuous", "restart"])),
    ...(draw.once(3)
      ? [
          "--allowance",
          "personal 5 %",
          ...sometimes(draw, 2, "--allowance", "delay 2.5 %"),
          "--allowance-of",
          draw.pick(["job", "shift"]),
        ]
      : []),
    ...sometimes(draw, 6, "--rating", draw.pick(["105 %", "90 %"])),
    ...sometimes(draw, 6, "--confidence", draw.pick(["90 %", "99.7 %"])),
    ...draw.pick([[], [], [], ["--precision", "10 %"], ["--error", "0.5 s"]]),
    ...sometimes(draw, 6, "--by", draw.pick(["t", "z"])),
    ...sometimes(draw, 4, "--statistic", draw.pick(["mean", "median", "lowest-repeated"])),
    ...(mark === null ? sometimes(draw, 12, "--leave-out", "x") : ["--leave-out", mark]),
    ...(isInto
      ? [...into(draw, LINE), ...sometimes(draw, 3, "--keep-readings")]
      : sometimes(draw, 6, `--picture=${draw.pick(tasks)}`)),
    ...output(draw, FIGURES, NO_HABITS),
  ];
}
