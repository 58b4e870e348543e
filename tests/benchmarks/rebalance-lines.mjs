import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readWhole, runWithOptions, tellProgress } from "./tools/read-options.mjs";
import { ruledLineText } from "./tools/ruled-line-text.mjs";

// Whole rebalances of made lines from their own plan, at 10 % more and 10 % less demand: processor seconds, people, moves of the row with
// the fewest people, and what is proved of them. With --old the checkout of that folder takes turns with this one.

const HERE = fileURLToPath(new URL("../..", import.meta.url));
const PRELOAD = new URL("tools/report-usage.mjs", import.meta.url).href;
const SIZES = [30, 100, 300, 1000];
const SHAPES = ["layered", "narrow"];
/** And a floor of named stations, as many as stand on a long line with zones. */
const FLOOR = { size: 150, shape: "layered", hasRules: true, stations: 62 };
const LINES = [
  ...SIZES.flatMap((size) =>
    SHAPES.flatMap((shape) => [false, true].map((hasRules) => ({ size, shape, hasRules }))),
  ),
  FLOOR,
].sort((one, two) => one.size - two.size);
/** Good units an hour. */
const ASKED = [110, 90];

const options = {
  old: { type: "string" },
  most: { type: "string", default: "1000" },
  seconds: { type: "string", default: "300" },
};
await runWithOptions("rebalance-lines.mjs [--old DIR] [--most TASKS] [--seconds S]", options, (given) => {
  const most = readWhole("most", given.most);
  const seconds = readWhole("seconds", given.seconds);
  const checkouts = [
    ...(given.old === undefined ? [] : [{ name: "old", folder: resolve(given.old) }]),
    { name: "new", folder: HERE },
  ];
  const folder = mkdtempSync(join(tmpdir(), "linepoise-benchmark-"));
  const rows = [];
  try {
    for (const line of LINES.filter(({ size }) => size <= most))
      rows.push(...measureLine(line, folder, checkouts, seconds));
  } finally {
    rmSync(folder, { recursive: true });
  }
  const heads = [
    "line",
    "tasks",
    "demand",
    "checkout",
    "CPU s",
    "people",
    "moves",
    "at least",
    "rows proved",
  ];
  process.stdout.write(markdownTable(heads, rows));
  return true;
});

function measureLine(wanted, folder, checkouts, seconds) {
  const { size, shape, hasRules } = wanted;
  const name = `${shape}${hasRules ? ", rules" : ""}`;
  const [line, plan] = ["line", "plan"].map((kind) =>
    join(folder, `${shape}-${size}-${hasRules}.${kind}.yaml`),
  );
  writeFileSync(line, ruledLineText(wanted));
  const balanced = run(HERE, ["balance", line, "--write", plan], seconds);
  if (balanced.text === null) {
    tellProgress(`${name}, ${size} tasks: no plan to start from`);
    return [];
  }
  return ASKED.flatMap((demand) =>
    checkouts.map((checkout) => {
      const words = ["rebalance", line, "--from", plan, "--demand", `${demand} per hour`, "--json"];
      const answer = run(checkout.folder, words, seconds);
      const figures = answer.text === null ? ["-", "-", "-", "-"] : figuresOf(JSON.parse(answer.text));
      const cpu = answer.cpu === null ? `over ${seconds}` : threeDigits(answer.cpu);
      const row = [name, inThousands(size), demand, checkout.name, cpu, ...figures];
      tellProgress(row.join(", "));
      return row;
    }),
  );
}

function figuresOf({ tradeOffs }) {
  if (tradeOffs.length === 0) return ["-", "-", "-", "-"];
  const [first] = tradeOffs;
  const proved = tradeOffs.filter(({ outcome }) => outcome === "proved").length;
  return [first.people, first.cost, first.leastCost, `${proved} of ${tradeOffs.length}`];
}

/** What a run wrote, null where it gave no answer; its processor seconds, null where it was stopped. */
function run(folder, words, seconds) {
  const program = [join(folder, "bin/linepoise.js"), ...words];
  const { status, signal, output } = spawnSync(process.execPath, ["--import", PRELOAD, ...program], {
    stdio: ["ignore", "pipe", "pipe", "pipe"],
    encoding: "utf8",
    maxBuffer: 2 ** 28,
    timeout: seconds * 1000,
  });
  if (signal !== null) return { text: null, cpu: null };
  const { userCPUTime, systemCPUTime } = JSON.parse(output[3]);
  return { text: status === 0 ? output[1] : null, cpu: (userCPUTime + systemCPUTime) / 1e6 };
}
