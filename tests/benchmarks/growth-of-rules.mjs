import { judgeRow } from "../../dist/benchmark/judge-row.js";
import { allFollowers } from "../../dist/line/reach.js";
import { fillByTime } from "../../dist/solve/fill-stations.js";
import { rankTasks } from "../../dist/solve/rank-tasks.js";
import { RULES } from "../../dist/solve/rules/register.js";
import { makeLine, SHAPES } from "./tools/made-line.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { measureTime } from "./tools/measure-time.mjs";
import { runWithOptions, tellProgress } from "./tools/read-options.mjs";

// How the time of ranking and filling by each rule grows with the line, on made lines: from a narrow one, where few tasks are
// available at a time, and from a wide one, where many are. A growth of 10 for ten times the tasks is in proportion.

/** Milliseconds that a step is repeated for. */
const TOGETHER = 300;
const SIZES = [100, 1000, 10_000];
const heads = ["milliseconds", ...SIZES.map((size) => `${inThousands(size)} tasks`)];
const growths = SIZES.slice(1).map((size, at) => `${inThousands(SIZES[at])} to ${inThousands(size)}`);

await runWithOptions("growth-of-rules.mjs", {}, async () => {
  const rows = [];
  const faults = [];
  for (const shape of Object.keys(SHAPES)) {
    const columns = [];
    for (const size of SIZES) columns.push(await measureSteps(size, shape, faults));
    for (const step of columns[0].keys())
      rows.push(
        rowOf(
          `${shape}: ${step}`,
          columns.map((column) => column.get(step)),
        ),
      );
  }
  process.stdout.write(markdownTable([...heads, ...growths], rows));
  return faults.length === 0;
});

function rowOf(name, times) {
  const factors = times.slice(1).map((ms, at) => `x ${threeDigits(ms / times[at])}`);
  return [name, ...times.map(threeDigits), ...factors];
}

/** Milliseconds by step: the followers of every task, then each rule. Adds what is wrong with any plan. */
async function measureSteps(size, shape, faults) {
  const problem = makeLine(size, shape);
  const { times, before } = problem;
  const followers = await measureTime(() => listFollowers(before), TOGETHER);
  const steps = new Map([["followers of every task", followers.ms]]);
  const tasks = { times, before };
  for (const rule of RULES) {
    const filled = await measureTime(() => fillByTime(problem, rankTasks(rule, tasks).order), TOGETHER);
    const fault = judgeRow({ name: rule.name, problem, published: null }, filled.result, false);
    if (fault !== null) faults.push(fault);
    steps.set(rule.name, filled.ms);
    tellProgress(
      `${shape}, ${size} tasks, ${rule.name}: ${threeDigits(filled.ms)} ms${fault === null ? "" : `, wrong: ${fault}`}`,
    );
  }
  return steps;
}

function listFollowers(before) {
  const followers = allFollowers(before);
  return before.map((_, task) => followers.list(task));
}
