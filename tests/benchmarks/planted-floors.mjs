import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { plantFloor } from "../tools/floors/plant-floor.mjs";
import { plantMachines } from "../tools/floors/plant-machines.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readWhole, runWithOptions, tellProgress } from "./tools/read-options.mjs";
import { runInProcess } from "./tools/run-in-process.mjs";

// Floors with a plan that was drawn first: those of a folder and those of seeds 1, 2, ..., solved as `balance` does by default. Each
// plan is checked by the command `check`, and none may take more people than the planted one. The first plan is the best that a method
// gets without the search: a table in which the search never beats it and never proves it would be the work of the methods alone.

const USAGE =
  "planted-floors.mjs [--floors DIR] [--seeds N] [--first SEED] [--tasks FEWEST..MOST] [--machines N] [--max-crew K] [--nodes N]";
const HEADS = [
  "floors",
  "number",
  "plan",
  "more people",
  "people",
  "planted",
  "proved",
  "methods: plan",
  "methods: people",
  "only the search",
  "beats",
  "proves the first",
  "CPU seconds",
  "worst",
];
/** The methods but the search. */
const METHODS = ["positional-weight", "largest-candidate", "columns", "most-followers"];

await runWithOptions(
  USAGE,
  {
    floors: { type: "string", default: fileURLToPath(new URL("../../shared/floors", import.meta.url)) },
    seeds: { type: "string", default: "200" },
    first: { type: "string", default: "1" },
    tasks: { type: "string", default: "40..60" },
    machines: { type: "string" },
    "max-crew": { type: "string", default: "1" },
    nodes: { type: "string" },
  },
  async (given) => {
    const limit = given.nodes === undefined ? [] : ["--nodes", String(readWhole("nodes", given.nodes))];
    const folder = mkdtempSync(join(tmpdir(), "planted-floors-"));
    try {
      const groups = new Map();
      for (const floor of [...readFloors(given.floors), ...plantFloors(given)]) {
        const row = await solve(folder, floor, limit);
        tellProgress(wordsOf(row));
        groups.set(floor.group, [...(groups.get(floor.group) ?? []), row]);
      }
      return report(groups);
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
);

function readFloors(folder) {
  const names = readdirSync(folder)
    .filter((name) => name.endsWith(".line.yaml"))
    .map((name) => name.slice(0, -".line.yaml".length))
    .sort((one, two) => one.localeCompare(two, "en", { numeric: true }));
  const read = (name) => readFileSync(join(folder, name), "utf8");
  return names.map((name) => ({
    group: "given",
    name,
    line: read(`${name}.line.yaml`),
    plan: read(`${name}.plan.yaml`),
  }));
}

/** Floors with rules of all kinds, or where a number of machines is given, lines of the fewest tasks with so many. */
function* plantFloors({ seeds, first, tasks, machines, "max-crew": maxCrew }) {
  const [fewest, most] = tasks.split("..").map((each) => readWhole("tasks", each));
  const [start, count] = [readWhole("first", first), seeds === "0" ? 0 : readWhole("seeds", seeds)];
  for (let seed = start; seed < start + count; seed++) {
    if (machines !== undefined) {
      const terms = { machines: readWhole("machines", machines), maxCrew: readWhole("max-crew", maxCrew) };
      yield { ...plantMachines({ seed, size: fewest, ...terms }), group: "planted, machines" };
      continue;
    }
    const floor = plantFloor({ seed, fewest, most });
    const sides = /\bside: /.test(floor.line) ? "two sides" : "one side";
    yield { ...floor, group: `planted, ${sides}` };
  }
}

/** The default answer, what the methods get each by itself, and whether all of it is as it must be. */
async function solve(folder, { name, line, plan: planted }, limit) {
  writeFileSync(join(folder, "line.yaml"), line);
  writeFileSync(join(folder, "planted.yaml"), planted);
  const given = JSON.parse((await run(folder, ["check", "line.yaml", "planted.yaml", "--json"])).stdout);
  if (given.outcome !== "fine") throw new Error(`${name}: the planted plan breaks a rule`);
  const whole = await balance(folder, [...limit, "--write", "plan.yaml", "--force"]);
  const plans = [];
  for (const method of METHODS) {
    plans.push((await balance(folder, [...limit, "--method", method, "--no-level"])).size);
  }
  const isSound =
    whole.size === null || (await run(folder, ["check", "line.yaml", "plan.yaml"])).status === 0;
  return {
    name,
    planted: sizeOf(given.plans[0].plan),
    found: whole.size,
    first: plans.filter((size) => size !== null).sort(bySize)[0] ?? null,
    isProved: whole.answer.outcome === "proved",
    isSound,
    cpuSeconds: whole.cpuSeconds,
  };
}

async function balance(folder, options) {
  const { stdout, cpuSeconds } = await run(folder, ["balance", "line.yaml", "--json", ...options]);
  const answer = JSON.parse(stdout);
  return { answer, size: sizeOf(answer), cpuSeconds };
}

/** Status 1 is an answer, too: no plan, or a plan with a fault. */
async function run(folder, words) {
  const ran = await runInProcess(folder, words);
  if (ran.status <= 1) return ran;
  throw new Error(`status ${ran.status} of ${words.join(" ")}: ${ran.stderr}`);
}

function sizeOf({ measures }) {
  return measures && { people: measures.operators, stations: measures.stations };
}

function bySize(one, two) {
  return one.people - two.people || one.stations - two.stations;
}

function wantsMore({ found, planted }) {
  return found !== null && found.people > planted.people;
}

/** Fewer people than the first plan, or as many at fewer stations. */
function beats({ found, first }) {
  return found !== null && first !== null && bySize(found, first) < 0;
}

function provesFirst({ isProved, found, first }) {
  return isProved && first !== null && bySize(found, first) === 0;
}

function wordsOf(row) {
  const size = (plan) => (plan === null ? "no plan" : `${plan.people} people at ${plan.stations} stations`);
  const faults = [
    ...(wantsMore(row) ? ["MORE PEOPLE THAN PLANTED"] : []),
    ...(row.isSound ? [] : ["check refuses the plan"]),
  ];
  const words = `${size(row.found)}${row.isProved ? ", proved" : ""}`;
  return `${row.name}: ${[words, `planted ${size(row.planted)}`, `methods ${size(row.first)}`, `${threeDigits(row.cpuSeconds)} s`, ...faults].join("; ")}`;
}

function report(groups) {
  const all = [...groups.values()].flat();
  const tables = [...groups, ["all", all]].map(([group, rows]) => cellsOf(group, totalsOf(rows)));
  process.stdout.write(markdownTable(HEADS, tables));
  const totals = totalsOf(all);
  process.stdout.write(`\n${JSON.stringify(totals)}\n`);
  return totals.morePeople.length === 0 && totals.refused.length === 0;
}

function totalsOf(rows) {
  const count = (test) => rows.filter(test).length;
  const found = rows.filter((row) => row.found !== null);
  const sum = (list, value) => list.reduce((total, row) => total + value(row), 0);
  const worst = rows.reduce((one, two) => (two.cpuSeconds > one.cpuSeconds ? two : one), {
    name: null,
    cpuSeconds: 0,
  });
  const both = found.filter((row) => row.first !== null);
  return {
    floors: rows.length,
    found: found.length,
    withoutPlan: rows.filter((row) => row.found === null).map(({ name }) => name),
    morePeople: rows.filter(wantsMore).map(({ name }) => name),
    refused: rows.filter((row) => !row.isSound).map(({ name }) => name),
    people: sum(found, (row) => row.found.people),
    plantedPeople: sum(found, (row) => row.planted.people),
    proved: count(({ isProved }) => isProved),
    methodsFound: count(({ first }) => first !== null),
    methodsPeople: sum(both, (row) => row.first.people),
    searchPeopleThere: sum(both, (row) => row.found.people),
    onlyTheSearch: count((row) => row.found !== null && row.first === null),
    beatsFirst: count(beats),
    provesFirst: count(provesFirst),
    cpuSeconds: rounded(sum(rows, ({ cpuSeconds }) => cpuSeconds)),
    worstCpuSeconds: rounded(worst.cpuSeconds),
    worst: worst.name,
  };
}

function rounded(seconds) {
  return Math.round(seconds * 1000) / 1000;
}

function cellsOf(group, totals) {
  return [
    group,
    totals.floors,
    totals.found,
    totals.morePeople.length,
    inThousands(totals.people),
    inThousands(totals.plantedPeople),
    totals.proved,
    totals.methodsFound,
    `${inThousands(totals.methodsPeople)} (${inThousands(totals.searchPeopleThere)})`,
    totals.onlyTheSearch,
    totals.beatsFirst,
    totals.provesFirst,
    threeDigits(totals.cpuSeconds),
    threeDigits(totals.worstCpuSeconds),
  ];
}
