import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { readClassicLines, readOptima } from "./tools/classic-lines.mjs";
import { inThousands, markdownTable, threeDigits } from "./tools/markdown-table.mjs";
import { readSeconds, readWhole, runWithOptions, tellProgress, UsageError } from "./tools/read-options.mjs";
import { FailedRun, lastLineOf } from "./tools/run-program.mjs";

// How many rows of each file the search proves in the time for a row, by the benchmark commands: the classic lines and their
// least cycles, and files of more lines where given. Without a choice of its own the two that the project has are solved.

const USAGE = "solved-lines.mjs [--classic] [--least] [--lines FILE.jsonl]... [--seconds S] [--every K]";
const HEADS = ["rows from", "rows", "proved", "stations", "wrong", "seconds", "limit a row"];

await runWithOptions(
  USAGE,
  {
    classic: { type: "boolean", default: false },
    least: { type: "boolean", default: false },
    lines: { type: "string", multiple: true, default: [] },
    seconds: { type: "string", default: "3" },
    every: { type: "string", default: "1" },
  },
  ({ classic, least, lines, seconds, every }) => {
    const all = !classic && !least && lines.length === 0;
    const limit = `${readSeconds(seconds)} s`;
    const words = ["--seconds", seconds, "--every", String(readWhole("every", every))];
    const folder = mkdtempSync(join(tmpdir(), "linepoise-benchmark-"));
    try {
      const solve = (path) => totalsOf("cli/benchmark-main.js", ["--lines", path, ...words]);
      const rows = [];
      if (classic || all) rows.push(rowOf("classic", solve(writeClassic(folder)), limit));
      for (const path of lines) rows.push(rowOf(basename(path, ".jsonl"), solve(resolve(path)), limit));
      if (least || all)
        rows.push(rowOf("least cycle", totalsOf("cli/benchmark-least-main.js", words), limit));
      process.stdout.write(
        markdownTable(
          HEADS,
          rows.map(({ cells }) => cells),
        ),
      );
      return rows.every(({ wrong }) => wrong === 0);
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
);

/** The classic lines at their published cycles as a file of rows; what is not proved again may still be improved. */
function writeClassic(folder) {
  const lines = readClassicLines();
  const rows = readOptima().map(({ line, limit, stations, proven }) => {
    const { times, before } = lines.get(line);
    const precedence = before.flatMap((earlier, task) => earlier.map((other) => [other + 1, task + 1]));
    const published = { lower: proven ? stations : 1, upper: stations };
    return JSON.stringify({ name: `${line} at ${limit}`, cycle: limit, times, precedence, published });
  });
  const path = join(folder, "classic.jsonl");
  writeFileSync(path, `${rows.join("\n")}\n`);
  return path;
}

function totalsOf(script, words) {
  tellProgress(`${script} ${words.join(" ")}`);
  try {
    const line = lastLineOf(script, words);
    tellProgress(line);
    return JSON.parse(line);
  } catch (error) {
    if (error instanceof FailedRun && error.status === 2)
      throw new UsageError(error.reason.split("; usage:")[0]);
    throw error;
  }
}

/** `stations` is the sum over the plans; of least cycles it is the sum of the cycles, which `limits` holds. */
function rowOf(name, { lines, proved, stations, limits, wrong, seconds }, limit) {
  const sum = stations === undefined ? `${inThousands(limits)} (cycles)` : inThousands(stations);
  return { wrong, cells: [name, lines, proved, sum, wrong, threeDigits(seconds), limit] };
}
