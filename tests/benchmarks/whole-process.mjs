import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readClassicLines } from "./tools/classic-lines.mjs";
import { lineFileText } from "./tools/line-file-text.mjs";
import { LIMIT, makeLine } from "./tools/made-line.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { median } from "./tools/measure-time.mjs";
import { readWhole, runWithOptions, tellProgress } from "./tools/read-options.mjs";
import { timeProgram, weighProgram } from "./tools/run-program.mjs";

// Wall time, start included, processor time and peak memory of whole runs of the program as people use it.

const AT_LIMIT = ["--cycle", `${LIMIT} s`];
/** Partial plans that no run here comes to. */
const NO_LIMIT = "1000000000000";
const HEADS = ["run", "tasks", "runs", "median ms", "least ms", "CPU ms", "peak MB"];

await runWithOptions("whole-process.mjs [--runs N]", { runs: { type: "string", default: "15" } }, (given) => {
  const runs = readWhole("runs", given.runs);
  const folder = mkdtempSync(join(tmpdir(), "linepoise-benchmark-"));
  try {
    const rows = chooseRuns(folder, runs).map(measure);
    process.stdout.write(markdownTable(HEADS, rows));
  } finally {
    rmSync(folder, { recursive: true });
  }
  return true;
});

/** What is run, and how often: long runs a few times, the search that fills its memory once. */
function chooseRuns(folder, runs) {
  const save = (name, line) => {
    const path = join(folder, `${name}.line.yaml`);
    writeFileSync(path, lineFileText(name, line));
    return path;
  };
  const made = ["balance", save("made", makeLine(1000, "narrow")), ...AT_LIMIT];
  const scholl = ["balance", save("scholl", readClassicLines().get("scholl")), "--cycle", "1834 s"];
  const hard = ["balance", save("hard", makeLine(100, "wide", "hard")), ...AT_LIMIT];
  const fill = [...hard, "--method", "exact", "--nodes", NO_LIMIT];
  const few = Math.ceil(runs / 5);
  return [
    { name: "`--version`", tasks: 0, words: ["--version"], runs },
    { name: "the demo", tasks: 36, words: ["balance", "examples/cargo-bike.line.yaml"], runs },
    {
      name: "made line by one rule",
      tasks: 1000,
      words: [...made, "--method", "positional-weight"],
      runs: few,
    },
    { name: "made line", tasks: 1000, words: made, runs: few },
    { name: "scholl at 1,834", tasks: 297, words: scholl, runs: few },
    { name: "search until its memory is full", tasks: 100, words: fill, runs: 1 },
  ];
}

function measure({ name, tasks, words, runs }) {
  const weighed = weighProgram(words);
  const times = runs === 1 ? [weighed.ms] : Array.from({ length: runs }, () => timeProgram(words));
  const figures = [median(times), Math.min(...times), weighed.processorMs, weighed.megabytes].map(
    threeDigits,
  );
  tellProgress(`${name}: ${figures[0]} ms, ${figures[3]} MB`);
  return [name, inThousands(tasks), runs, ...figures];
}
