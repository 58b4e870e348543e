import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { lineFileText } from "./tools/line-file-text.mjs";
import { LIMIT, makeLine } from "./tools/made-line.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { median } from "./tools/measure-time.mjs";
import { readWhole, runWithOptions } from "./tools/read-options.mjs";
import { timeProgram, weighProgram } from "./tools/run-program.mjs";

// How long CI waits for a check: many plan files of one line in a single run, start of the program included.

const HEADS = ["format", "plans", "tasks", "median ms", "CPU ms", "peak MB"];
const FORMATS = ["text", "json", "github", "junit"];

await runWithOptions(
  "check-plans.mjs [--plans N] [--tasks N] [--runs N]",
  {
    plans: { type: "string", default: "200" },
    tasks: { type: "string", default: "35" },
    runs: { type: "string", default: "5" },
  },
  async (given) => {
    const [plans, tasks, runs] = ["plans", "tasks", "runs"].map((name) => readWhole(name, given[name]));
    const folder = mkdtempSync(join(tmpdir(), "linepoise-check-"));
    try {
      const line = writePlans(folder, plans, tasks);
      const words = ["check", line, join(folder, "*.plan.yaml"), "--cycle", `${LIMIT} s`];
      const rows = FORMATS.map((format) => measure([...words, "--format", format], runs));
      const named = rows.map((figures, at) => [
        FORMATS[at],
        inThousands(plans),
        inThousands(tasks),
        ...figures.map(threeDigits),
      ]);
      process.stdout.write(markdownTable(HEADS, named));
    } finally {
      rmSync(folder, { recursive: true });
    }
    return true;
  },
);

/** A line with a plan of `balance`, and as many files of that plan as asked for, each with a comment of its own. */
function writePlans(folder, plans, tasks) {
  const line = join(folder, "made.line.yaml");
  const first = join(folder, "1.plan.yaml");
  writeFileSync(line, lineFileText("made", makeLine(tasks, "wide")));
  timeProgram(["balance", line, "--cycle", `${LIMIT} s`, "--write", first]);
  const text = readFileSync(first, "utf8");
  for (let at = 1; at <= plans; at++) writeFileSync(join(folder, `${at}.plan.yaml`), `# plan ${at}\n${text}`);
  return line;
}

function measure(words, runs) {
  const { processorMs, megabytes } = weighProgram(words);
  return [median(Array.from({ length: runs }, () => timeProgram(words))), processorMs, megabytes];
}
