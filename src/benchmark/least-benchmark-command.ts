import { leastLimit } from "../solve/search/least-limit.js";
import { type BenchmarkWorld, FINE, UnreadableError, WRONG_INPUT } from "./benchmark-command.js";
import { readOptions, UsageError } from "./benchmark-options.js";
import { MalformedRowError } from "./benchmark-row.js";
import { judgeLeastCase } from "./judge-row.js";
import { type LeastCase, readGraphs, readLeastCases } from "./least-case.js";

/** Where the cases and their lines are read. */
export interface LeastFiles {
  readonly cases: string;
  readonly lines: string;
}

/** The last line of the benchmark; `limits` is the sum of the cycles found. */
export interface LeastTotals {
  readonly lines: number;
  readonly proved: number;
  readonly limits: number;
  readonly wrong: number;
  /** Cases that end above the best published cycle: valid, and short of it. */
  readonly above: number;
  readonly seconds: number;
}

interface CaseResult {
  readonly text: string;
  readonly limit: number;
  readonly proved: boolean;
  readonly wrong: string | null;
  readonly above: boolean;
}

/**
 * Finds and judges the least cycle of every case, with the options `--seconds`, `--every` and `--each` of the benchmark; the
 * totals are the last line of the result. Gives the exit status: FINE, or WRONG_INPUT after one line that says what is wrong.
 */
export async function benchmarkLeast(
  words: readonly string[],
  files: LeastFiles,
  world: BenchmarkWorld,
): Promise<number> {
  try {
    const { seconds, every, each } = readOptions(["--lines", files.cases, ...words]);
    const cases = readCases(files, world).filter((_, at) => at % every === 0);
    const onCase = ({ text }: CaseResult) => (each ? world.tellAside(text) : undefined);
    world.tellResult(`${JSON.stringify(await runCases(cases, seconds, world.now, onCase))}\n`);
    return FINE;
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    world.tellAside(`error: ${error.message}\n`);
    return WRONG_INPUT;
  }
}

function readCases(files: LeastFiles, world: BenchmarkWorld): LeastCase[] {
  const graphs = readWith(readGraphs, files.lines, world);
  return readWith((text) => readLeastCases(text, graphs), files.cases, world);
}

function readWith<Read>(read: (text: string) => Read, path: string, { readText }: BenchmarkWorld): Read {
  try {
    return read(readText(path));
  } catch (error) {
    if (error instanceof UnreadableError) throw new UsageError(`cannot read ${path}: ${error.message}`);
    if (error instanceof MalformedRowError) throw new UsageError(`${path}:${error.message}`);
    throw error;
  }
}

async function runCases(
  cases: readonly LeastCase[],
  seconds: number,
  now: () => number,
  onCase: (result: CaseResult) => void,
): Promise<LeastTotals> {
  const begin = now();
  const totals = { lines: 0, proved: 0, limits: 0, wrong: 0, above: 0 };
  for (const each of cases) {
    const result = await runCase(each, seconds, now);
    totals.lines++;
    totals.limits += result.limit;
    if (result.proved) totals.proved++;
    if (result.wrong !== null) totals.wrong++;
    if (result.above) totals.above++;
    onCase(result);
  }
  return { ...totals, seconds: inSeconds(now() - begin) };
}

async function runCase(each: LeastCase, seconds: number, now: () => number): Promise<CaseResult> {
  const begin = now();
  const { name, times, before, stations } = each;
  const limits = { nodes: Number.POSITIVE_INFINITY };
  const answer = await leastLimit(times, before, stations, limits, () =>
    now() - begin < seconds * 1000 ? null : "time",
  );
  const { limit, bound, nodes } = answer;
  const proved = answer.ended === "proved";
  const wrong = judgeLeastCase(each, answer);
  const verdict = proved ? "proved" : `at least ${bound}`;
  const above = limit > each.upper;
  const short = above ? `, above the published ${each.upper}` : "";
  const fault = wrong === null ? short : `, wrong: ${wrong}`;
  const text = `${name}: ${limit}, ${verdict}, ${nodes} nodes, ${inSeconds(now() - begin)} s${fault}\n`;
  return { text, limit, proved, wrong, above };
}

function inSeconds(milliseconds: number): number {
  return Math.round(milliseconds) / 1000;
}
