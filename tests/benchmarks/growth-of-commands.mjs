import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readWhole, runWithOptions, tellProgress, UsageError } from "./tools/read-options.mjs";
import { ruledLineText, TODAY } from "./tools/ruled-line-text.mjs";

// Processor seconds and peak memory of whole runs of every command, start included, as lines grow: layered lines, plain
// and with rules of the floor, and their plan by one rule.

const HERE = fileURLToPath(new URL("../..", import.meta.url));
const PRELOAD = new URL("tools/report-usage.mjs", import.meta.url).href;
const SIZES = [30, 300, 3000, 10_000];
/** Readings of each element that `study` reads. */
const READINGS = 5;
const ASKED = `${TODAY * 1.1} per hour`;

/** Words of each command, from the files of a line. */
const COMMANDS = {
  takt: ({ line }) => ["takt", line],
  "balance by a rule": ({ line }) => ["balance", line, "--method", "positional-weight"],
  balance: ({ line }) => ["balance", line],
  check: ({ line, plan }) => ["check", line, plan],
  show: ({ line, plan }) => ["show", line, plan],
  rebalance: ({ line, plan }) => ["rebalance", line, "--from", plan, "--demand", ASKED],
  staff: ({ line }) => ["staff", line, "--demand", `${TODAY}..${TODAY * 1.1}/${TODAY / 10} per hour`],
  compare: ({ line }) => ["compare", line],
  "off-line": ({ line }) => ["off-line", line],
  order: ({ line, orders }) => ["order", line, "--from", orders],
  ramp: ({ line, plan }) => ["ramp", line, plan, "--units", "100"],
  simulate: ({ line, plan }) => ["simulate", line, plan, "--hours", "10 h", "--replications", "2"],
  parts: ({ line, plan }) => ["parts", line, plan, "--units", "100"],
  sheets: ({ line, plan }) => ["sheets", line, plan, "--format", "html"],
  report: ({ line, plan }) => ["report", line, plan],
  "chart of the order": ({ line, plan }) => ["chart", line, plan, "--of", "order", "--format", "svg"],
  import: ({ table }) => ["import", table],
  export: ({ line }) => ["export", line],
  study: ({ readings }) => ["study", readings, "--unit", "s"],
};

const options = {
  only: { type: "string" },
  tasks: { type: "string", default: SIZES.join(",") },
  seconds: { type: "string", default: "120" },
};
await runWithOptions(
  "growth-of-commands.mjs [--only COMMAND,...] [--tasks N,...] [--seconds S]",
  options,
  (given) => {
    const names = given.only?.split(",") ?? Object.keys(COMMANDS);
    for (const name of names)
      if (!Object.hasOwn(COMMANDS, name))
        throw new UsageError(`--only ${name}: expected some of ${Object.keys(COMMANDS).join(", ")}`);
    const sizes = given.tasks.split(",").map((each) => readWhole("tasks", each));
    const seconds = readWhole("seconds", given.seconds);
    const folder = mkdtempSync(join(tmpdir(), "linepoise-benchmark-"));
    const rows = new Map();
    try {
      for (const hasRules of [false, true])
        for (const size of sizes) measureSize({ size, hasRules }, names, { folder, seconds, rows });
    } finally {
      rmSync(folder, { recursive: true });
    }
    const heads = ["CPU s (MB)", ...sizes.map((size) => `${inThousands(size)} tasks`)];
    process.stdout.write(markdownTable(heads, [...rows.values()]));
    return true;
  },
);

function measureSize({ size, hasRules }, names, { folder, seconds, rows }) {
  const files = writeFiles({ size, hasRules }, folder);
  const planned = run(
    ["balance", files.line, "--method", "positional-weight", "--write", files.plan],
    seconds,
  );
  for (const name of names) {
    const row = hasRules ? `${name}, rules` : name;
    if (!rows.has(row)) rows.set(row, [row]);
    const words = COMMANDS[name](files);
    const figure =
      planned.status !== 0 && words.includes(files.plan) ? "no plan" : run(words, seconds).figure;
    rows.get(row).push(figure);
    tellProgress(`${row}, ${size} tasks: ${figure}`);
  }
}

/** A line, its table of tasks, orders of units and readings; the plan is written by the program. */
function writeFiles({ size, hasRules }, folder) {
  const name = (end) => join(folder, `${hasRules ? "ruled" : "plain"}-${size}.${end}`);
  const files = {
    line: name("line.yaml"),
    plan: name("plan.yaml"),
    table: name("tasks.csv"),
    orders: name("orders.csv"),
    readings: name("readings.csv"),
  };
  const tasks = Array.from({ length: size }, (_, task) => `t${task}`);
  // One option, so that there is something to compare.
  const option = "options:\n  faster: {demand: 105 per hour}\n";
  writeFileSync(files.line, ruledLineText({ size, shape: "layered", hasRules }) + option);
  writeFileSync(
    files.table,
    table(
      ["id", "time", "after"],
      tasks.map((id, at) => [id, `${3 + (at % 15)} s`, at < 5 ? "" : tasks[at - 5]]),
    ),
  );
  writeFileSync(
    files.orders,
    table(
      ["unit 1", "unit 2"],
      tasks.map((id) => [id, id]),
    ),
  );
  const counts = Array.from({ length: READINGS }, (_, at) => at + 1);
  writeFileSync(
    files.readings,
    table(
      ["element", ...counts],
      tasks.map((id, at) => [id, ...counts.map((count) => 10 + ((at + count) % 7))]),
    ),
  );
  return files;
}

function table(heads, rows) {
  return [heads, ...rows].map((row) => `${row.join(",")}\n`).join("");
}

/** Processor seconds and megabytes of a run, or why there are none; its status. */
function run(words, seconds) {
  const { status, signal, output } = spawnSync(
    process.execPath,
    ["--import", PRELOAD, join(HERE, "bin/linepoise.js"), ...words],
    {
      stdio: ["ignore", "pipe", "pipe", "pipe"],
      encoding: "utf8",
      maxBuffer: 2 ** 29,
      timeout: seconds * 1000,
      killSignal: "SIGKILL",
    },
  );
  if (signal !== null) return { status, figure: `over ${seconds}` };
  const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(output[3]);
  const used = `${threeDigits((userCPUTime + systemCPUTime) / 1e6)} (${Math.round((maxRSS * 1024) / 1e6)})`;
  const failed = status === 0 ? "" : `, status ${status}: ${output[2].split("\n")[0].slice(0, 80)}`;
  return { status, figure: used + failed };
}
