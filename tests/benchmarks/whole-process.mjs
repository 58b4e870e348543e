import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readClassicLines } from "./tools/classic-lines.mjs";
import { lineFileText } from "./tools/line-file-text.mjs";
import { LIMIT, makeLine } from "./tools/made-line.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { median } from "./tools/measure-time.mjs";
import { readSeconds, readWhole, runWithOptions, tellProgress } from "./tools/read-options.mjs";
import { timeProgram, weighProgram } from "./tools/run-program.mjs";

// Wall time, start included, and peak memory of whole runs of the program as people use it.

const HEADS = ["run", "tasks", "median ms", "runs", "peak MB"];

await runWithOptions(
  "whole-process.mjs [--runs N] [--seconds S]",
  { runs: { type: "string", default: "15" }, seconds: { type: "string", default: "20" } },
  (given) => {
    const [runs, seconds] = [readWhole("runs", given.runs), readSeconds(given.seconds)];
    const folder = mkdtempSync(join(tmpdir(), "linepoise-benchmark-"));
    try {
      const rows = chooseRuns(folder, runs, seconds).map(measure);
      process.stdout.write(markdownTable(HEADS, rows));
    } finally {
      rmSync(folder, { recursive: true });
    }
    return true;
  },
);

/** What is run, and how often: long runs a few times, the search that is stopped by the clock once. */
function chooseRuns(folder, runs, seconds) {
  const save = (name, line) => {
    const path = join(folder, `${name}.line.yaml`);
    writeFileSync(path, lineFileText(name, line));
    return path;
  };
  const classic = readClassicLines();
  const made = ["balance", save("narrow", makeLine(1000, "narrow")), "--cycle", `${LIMIT} s`];
  const scholl = ["balance", save("scholl", classic.get("scholl")), "--cycle", "1834 s"];
  const hard = ["balance", save("wee-magazine", classic.get("wee-magazine")), "--cycle", "54 s"];
  const few = Math.ceil(runs / 5);
  return [
    { name: "`--version`", tasks: "", words: ["--version"], runs },
    { name: "the demo", tasks: 33, words: ["balance", "examples/cargo-bike.line.yaml"], runs },
    {
      name: "made line by one rule",
      tasks: 1000,
      words: [...made, "--method", "positional-weight"],
      runs: few,
    },
    { name: "made line", tasks: 1000, words: made, runs: few },
    { name: "scholl at 1,834", tasks: 297, words: scholl, runs: few },
    {
      name: `wee-magazine at 54, ${seconds} s`,
      tasks: 75,
      words: [...hard, "--seconds", String(seconds)],
      runs: 1,
    },
  ];
}

function measure({ name, tasks, words, runs }) {
  const weighed = weighProgram(words);
  const times = runs === 1 ? [weighed.ms] : Array.from({ length: runs }, () => timeProgram(words));
  const [ms, megabytes] = [threeDigits(median(times)), threeDigits(weighed.megabytes)];
  tellProgress(`${name}: ${ms} ms, ${megabytes} MB`);
  return [name, tasks === "" ? "" : inThousands(tasks), ms, runs, megabytes];
}
