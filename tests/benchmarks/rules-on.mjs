import { topologicalOrder } from "../../dist/line/precedence.js";
import { allFollowers } from "../../dist/line/reach.js";
import { readLine } from "../../dist/line/read-line.js";
import { balance } from "../../dist/solve/balance.js";
import { mergeTogether } from "../../dist/solve/merge-together.js";
import { paceFromCycle } from "../../dist/time/pace.js";
import { readClassicLines, readOptima } from "./tools/classic-lines.mjs";
import { lineFileText } from "./tools/line-file-text.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readWhole, runWithOptions, tellProgress, UsageError } from "./tools/read-options.mjs";

// What rules of the shop floor cost the search: the classic lines at their published cycles without rules, with rules that leave
// most of the least numbers of stations alone, and cut into three zones along an order of work. Partial plans end a search.

const HEADS = ["rules", "lines", "proved", "stations", "people", "no plan", "wrong", "CPU seconds"];
const SECOND = 1_000_000;
/** What a row of the table adds to a line; null where the plain search is asked. */
const RULES_ON = [
  ["none", null],
  ["groups", addGroups],
  ["three zones", addZones],
];

await runWithOptions(
  "rules-on.mjs [--nodes N] [--every K] [--rules NAME] [--lines NAME[@CYCLE],...]",
  {
    nodes: { type: "string", default: "100000" },
    every: { type: "string", default: "1" },
    rules: { type: "string" },
    lines: { type: "string" },
  },
  async (given) => {
    const [nodes, every] = [readWhole("nodes", given.nodes), readWhole("every", given.every)];
    const cases = readCases(given.lines).filter((_, at) => at % every === 0);
    const rows = [];
    for (const [name, addRules] of rulesNamed(given.rules))
      rows.push(await solveAll(name, addRules, cases, nodes));
    process.stdout.write(
      markdownTable(
        HEADS,
        rows.map(({ cells }) => cells),
      ),
    );
    return rows.every(({ wrong }) => wrong === 0);
  },
);

function rulesNamed(wanted) {
  const rules = RULES_ON.filter(([name]) => wanted === undefined || name === wanted);
  if (rules.length > 0) return rules;
  throw new UsageError(`--rules ${wanted}: expected ${RULES_ON.map(([name]) => name).join(", ")}`);
}

/** Every classic line at a published cycle, as a line of the project, or those named, at all cycles or at one; times as seconds. */
function readCases(wanted) {
  const lines = new Map([...readClassicLines()].map(([name, line]) => [name, readClassic(name, line)]));
  const names = wanted?.split(",");
  const cases = readOptima()
    .filter(({ line, limit }) => names?.some((each) => each === line || each === `${line}@${limit}`) ?? true)
    .map(({ line: name, limit, stations, proven }) => ({
      name,
      line: lines.get(name),
      limit,
      stations,
      proven,
    }));
  if (cases.length > 0) return cases;
  throw new UsageError(
    `--lines ${wanted}: expected names such as ${[...lines.keys()].slice(0, 3).join(", ")}`,
  );
}

function readClassic(name, classic) {
  const { line, findings } = readLine(`${name}.line.yaml`, lineFileText(name, classic));
  if (line === null) throw new Error(findings.map(({ message }) => message).join("; "));
  return line;
}

/** Every tenth pair of unrelated tasks apart, and every 15th task together with the next unrelated one where both fit. */
function addGroups(line, limit) {
  const followers = allFollowers(line.before);
  const loads = line.tasks.map(({ load }) => Number(load.num) / SECOND);
  const pairs = line.tasks.flatMap((_, one) =>
    line.tasks.flatMap((__, two) =>
      one < two && !followers.has(one, two) && !followers.has(two, one) ? [[one, two]] : [],
    ),
  );
  const together = [];
  for (let task = 0; task < line.tasks.length; task += 15) {
    const pair = pairs.find(([one, two]) => one === task && loads[one] + loads[two] <= limit);
    if (pair === undefined) continue;
    const blocks = mergeTogether(line.before, [...together, pair]);
    if (blocks.every((tasks) => sumOf(tasks, loads) <= limit)) together.push(pair);
  }
  const blocks = mergeTogether(line.before, together);
  const areJoined = ([one, two]) => blocks.some((tasks) => tasks.includes(one) && tasks.includes(two));
  const apart = pairs.filter((pair, at) => at % 10 === 9 && !areJoined(pair));
  return { ...line, together, apart };
}

function sumOf(tasks, loads) {
  return tasks.reduce((sum, task) => sum + loads[task], 0);
}

/** The first third of an order of work in one zone, the second and the last in two others; no station holds two zones. */
function addZones(line) {
  const turn = new Map(topologicalOrder(line.before).map((task, at) => [task, at]));
  const zoneOf = (task) => `zone ${1 + Math.floor((3 * turn.get(task)) / line.tasks.length)}`;
  return { ...line, tasks: line.tasks.map((task, at) => ({ ...task, zone: zoneOf(at) })) };
}

async function solveAll(name, addRules, cases, nodes) {
  const totals = { proved: 0, stations: 0, people: 0, none: 0, wrong: 0, seconds: 0 };
  for (const { line, limit, ...published } of cases) {
    const ruled = addRules === null ? line : addRules(line, limit);
    const before = process.cpuUsage();
    const answer = await solve(ruled, limit, nodes);
    const { user, system } = process.cpuUsage(before);
    totals.seconds += (user + system) / 1e6;
    totals.proved += answer.proved ? 1 : 0;
    totals.none += answer.stations === null ? 1 : 0;
    totals.stations += answer.stations ?? 0;
    totals.people += answer.people ?? 0;
    // No rule makes do with fewer stations, and a line without rules has exactly the published number where that is proved.
    const least = published.proven ? published.stations : 0;
    const isWrong =
      answer.stations !== null &&
      (answer.stations < least ||
        (addRules === null && answer.proved && answer.stations > published.stations));
    totals.wrong += isWrong ? 1 : 0;
    tellProgress(
      `${name}: ${published.name} at ${limit}: ${answer.stations} stations${answer.proved ? ", proved" : ""}`,
    );
  }
  const { proved, stations, people, none, wrong, seconds } = totals;
  const cells = [name, cases.length, proved, inThousands(stations), inThousands(people), none, wrong];
  return { wrong, cells: [...cells, threeDigits(seconds)] };
}

async function solve(line, limit, nodes) {
  const options = {
    method: "exact",
    nodes,
    strictLimit: false,
    level: false,
    explain: false,
    checkpoint: () => null,
  };
  const pace = paceFromCycle(limit * SECOND);
  const { plan, outcome } = await balance(line, pace, options);
  const people = plan?.stations.reduce((sum, { places, crew }) => sum + places * crew, 0) ?? null;
  return { stations: plan?.stations.length ?? null, people, proved: outcome === "proved" };
}
