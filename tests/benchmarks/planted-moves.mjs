import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { disturbPlan } from "../tools/floors/disturb-plan.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readWhole, runWithOptions, tellProgress } from "./tools/read-options.mjs";
import { ruledLineText } from "./tools/ruled-line-text.mjs";
import { runInProcess } from "./tools/run-in-process.mjs";

// Moves against planted ones: the plan that `balance` makes at 10 % more demand is disturbed by a known number of moves, and `rebalance`
// leads back. Where it needs more moves than were planted, for as few people, the run ends with status 1.

const LINES = [
  { size: 100, shape: "layered", hasRules: false },
  { size: 100, shape: "layered", hasRules: true },
  { size: 100, shape: "narrow", hasRules: true },
  { size: 150, shape: "layered", hasRules: true, stations: 62 },
  { size: 300, shape: "layered", hasRules: false },
  { size: 300, shape: "layered", hasRules: true },
  { size: 300, shape: "narrow", hasRules: true },
  { size: 1000, shape: "layered", hasRules: false },
];
const DEMAND = ["--demand", "110 per hour"];
/** For each hundred tasks: stations dissolved, and tasks moved beside theirs, few and many. */
const [DISSOLVED, MOVED] = [3, [7, 20]];

const options = { most: { type: "string", default: "300" }, seeds: { type: "string", default: "1" } };
await runWithOptions("planted-moves.mjs [--most TASKS] [--seeds N]", options, async (given) => {
  const most = readWhole("most", given.most);
  const seeds = readWhole("seeds", given.seeds);
  const folder = mkdtempSync(join(tmpdir(), "planted-moves-"));
  const rows = [];
  try {
    for (const line of LINES.filter(({ size }) => size <= most)) {
      const text = ruledLineText(line);
      writeFileSync(join(folder, "line.yaml"), text);
      const { answer } = await run(folder, ["balance", "line.yaml", ...DEMAND, "--no-level", "--json"]);
      for (let seed = 1; seed <= seeds; seed++)
        for (const moved of MOVED) rows.push(await leadBack(folder, { ...line, text }, answer, seed, moved));
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
  const heads = ["line", "tasks", "seed", "people", "planted", "moves", "at least", "fewest people", "CPU s"];
  process.stdout.write(
    markdownTable(
      heads,
      rows.map(({ cells }) => cells),
    ),
  );
  return rows.every(({ isSound }) => isSound);
});

async function leadBack(folder, { size, shape, hasRules, text }, goal, seed, moved) {
  const many = size / 100;
  const disturbance = { seed, dissolved: Math.round(DISSOLVED * many), moved: Math.round(moved * many) };
  const today = disturbPlan(text, goal.stations, disturbance);
  const plan = { format: "linepoise-plan/1", stations: today.stations };
  writeFileSync(join(folder, "today.yaml"), JSON.stringify(plan));
  const back = await run(folder, ["rebalance", "line.yaml", "--from", "today.yaml", ...DEMAND, "--json"]);
  const { tradeOffs } = back.answer;
  const planted = goal.measures.operators;
  const [fewest] = tradeOffs;
  // Rows have fewer moves with each person more.
  const same = tradeOffs.findLast(({ people }) => people <= planted);
  const name = `${shape}${hasRules ? ", rules" : ""}`;
  const cells = [
    name,
    inThousands(size),
    seed,
    planted,
    today.moves,
    same?.cost ?? "-",
    same?.leastCost ?? "-",
    `${fewest.people}, ${fewest.cost} moves`,
    threeDigits(back.cpuSeconds),
  ];
  tellProgress(cells.join(", "));
  return { cells, isSound: same !== undefined && same.cost <= today.moves };
}

async function run(folder, words) {
  const { status, stdout, stderr, cpuSeconds } = await runInProcess(folder, words);
  if (status !== 0) throw new Error(`status ${status} of ${words.join(" ")}: ${stderr}`);
  return { answer: JSON.parse(stdout), cpuSeconds };
}
