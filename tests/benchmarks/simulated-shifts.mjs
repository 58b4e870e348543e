import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readWhole, runWithOptions } from "./tools/read-options.mjs";
import { weighProgram } from "./tools/run-program.mjs";

// Shifts of a line of ten stations with lognormal times, start of the program included: how many visits of units at stations are worked in a second
// of processor time, and whether memory grows with the length of a run.

const STATIONS = 10;
const HEADS = ["hours", "replications", "visits", "CPU ms", "visits a second", "peak MB"];

await runWithOptions(
  "simulated-shifts.mjs [--replications N]",
  { replications: { type: "string", default: "1000" } },
  (given) => {
    const replications = readWhole("replications", given.replications);
    const folder = mkdtempSync(join(tmpdir(), "linepoise-simulate-"));
    try {
      const files = writeFiles(folder);
      const rows = [
        [8, replications],
        [8 * replications, 1],
        [80 * replications, 1],
      ].map(([hours, count]) => measure(files, hours, count));
      process.stdout.write(markdownTable(HEADS, rows));
    } finally {
      rmSync(folder, { recursive: true });
    }
    return true;
  },
);

function writeFiles(folder) {
  const numbers = Array.from({ length: STATIONS }, (_, at) => at + 1);
  const tasks = numbers.map((at) => `  T${at}: {time: 55${at === 1 ? "" : `, after: T${at - 1}`}}`);
  const line = ["unit: s", "variation: {shape: lognormal, cv: 25 %}", "buffer: 1", "tasks:", ...tasks, ""];
  const stations = numbers.map((at) => `  - {id: S${at}, tasks: [T${at}]}`);
  const plan = ["format: linepoise-plan/1", "stations:", ...stations, ""];
  const paths = ["line.yaml", "plan.yaml"].map((name) => join(folder, name));
  for (const [at, text] of [line, plan].entries()) writeFileSync(paths[at], text.join("\n"));
  return paths;
}

function measure(files, hours, replications) {
  const words = ["simulate", ...files, "--hours", `${hours} h`, "--warm-up", "0 h"];
  const asked = [...words, "--replications", String(replications), "--json"];
  const { processorMs, megabytes, stdout } = weighProgram(asked);
  const { goodUnitsPerHour } = JSON.parse(stdout);
  const visits = Math.round(goodUnitsPerHour.mean * hours * replications * STATIONS);
  const figures = [processorMs, visits / (processorMs / 1000), megabytes];
  return [...[hours, replications, visits].map(inThousands), ...figures.map(threeDigits)];
}
