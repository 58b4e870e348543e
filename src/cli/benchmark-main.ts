import { readFileSync } from "node:fs";
import { type BenchmarkOptions, readOptions, USAGE, UsageError } from "../benchmark/benchmark-options.js";
import { type BenchmarkRow, MalformedRowError } from "../benchmark/benchmark-row.js";
import { readRows, takeEvery } from "../benchmark/read-rows.js";
import { type RowResult, runBenchmark } from "../benchmark/run-benchmark.js";

const FINE = 0;
const WRONG_INPUT = 2;

process.exitCode = await main(process.argv.slice(2));

/** Solves and judges the rows of a file; the totals are the last line on stdout. */
async function main(words: readonly string[]): Promise<number> {
  let options: BenchmarkOptions;
  let rows: BenchmarkRow[];
  try {
    options = readOptions(words);
    rows = takeEvery(readFile(options.lines), options.every);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    process.stderr.write(`error: ${error.message}\n`);
    return WRONG_INPUT;
  }
  const onRow = options.each ? tellRow : () => {};
  const totals = await runBenchmark(rows, { seconds: options.seconds, now: () => performance.now(), onRow });
  process.stdout.write(`${JSON.stringify(totals)}\n`);
  return FINE;
}

/** The rows of a file; one that cannot be read, or holds a malformed row, is wrong usage. */
function readFile(path: string): BenchmarkRow[] {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    throw new UsageError(`cannot read ${path}: ${(error as NodeJS.ErrnoException).code}; ${USAGE}`);
  }
  try {
    return readRows(text);
  } catch (error) {
    if (error instanceof MalformedRowError) throw new UsageError(`${path}:${error.message}`);
    throw error;
  }
}

function tellRow({ name, stations, bound, proved, wrong, nodes, seconds }: RowResult): void {
  const verdict = proved ? "proved" : `at least ${bound}`;
  const fault = wrong === null ? "" : `, WRONG: ${wrong}`;
  process.stderr.write(`${name}: ${stations} stations, ${verdict}, ${nodes} nodes, ${seconds} s${fault}\n`);
}
