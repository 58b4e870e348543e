import { readOptions, USAGE, UsageError } from "./benchmark-options.js";
import { type BenchmarkRow, MalformedRowError, readRows, takeEvery } from "./benchmark-row.js";
import { type RowResult, runBenchmark } from "./run-benchmark.js";

/** What the command needs of the world outside. */
export interface BenchmarkWorld {
  /** The text of a file; throws UnreadableError. */
  readonly readText: (path: string) => string;
  readonly tellResult: (text: string) => void;
  readonly tellAside: (text: string) => void;
  /** A clock in milliseconds. */
  readonly now: () => number;
}

/** A file that cannot be read; the message is the reason. */
export class UnreadableError extends Error {}

export const FINE = 0;
export const WRONG_INPUT = 2;

/**
 * Solves and judges the rows of a file of JSON lines; the totals are the last line of the result. Gives the exit status:
 * FINE, or WRONG_INPUT after one line that says what is wrong.
 */
export async function benchmark(words: readonly string[], world: BenchmarkWorld): Promise<number> {
  try {
    const { lines, seconds, every, each } = readOptions(words);
    const rows = takeEvery(readFile(lines, world), every);
    const onRow = each ? (row: RowResult) => world.tellAside(describe(row)) : () => {};
    const totals = await runBenchmark(rows, { seconds, now: world.now, onRow });
    world.tellResult(`${JSON.stringify(totals)}\n`);
    return FINE;
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    world.tellAside(`error: ${error.message}\n`);
    return WRONG_INPUT;
  }
}

function readFile(path: string, { readText }: BenchmarkWorld): BenchmarkRow[] {
  try {
    return readRows(readText(path));
  } catch (error) {
    if (error instanceof UnreadableError)
      throw new UsageError(`cannot read ${path}: ${error.message}; ${USAGE}`);
    if (error instanceof MalformedRowError) throw new UsageError(`${path}:${error.message}`);
    throw error;
  }
}

function describe({ name, stations, bound, proved, wrong, nodes, seconds }: RowResult): string {
  const verdict = proved ? "proved" : `at least ${bound}`;
  const fault = wrong === null ? "" : `, wrong: ${wrong}`;
  return `${name}: ${stations} stations, ${verdict}, ${nodes} nodes, ${seconds} s${fault}\n`;
}
