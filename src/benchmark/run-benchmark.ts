import { fillByTime } from "../solve/fill-stations.js";
import { orderOfWork, positionalWeights } from "../solve/order-of-work.js";
import { fewestStations } from "../solve/search/fewest-stations.js";
import type { BenchmarkRow } from "./benchmark-row.js";
import { judgeRow } from "./judge-row.js";

/** What came of one row. */
export interface RowResult {
  readonly name: string;
  readonly stations: number;
  /** Proved lower bound on the stations. */
  readonly bound: number;
  readonly proved: boolean;
  /** What the judge says against the answer, or null. */
  readonly wrong: string | null;
  readonly nodes: number;
  readonly seconds: number;
}

/** The last line of a benchmark: numbers over all rows; `stations` is the sum over the plans. */
export interface BenchmarkTotals {
  readonly lines: number;
  readonly proved: number;
  readonly stations: number;
  readonly wrong: number;
  readonly seconds: number;
}

/** `seconds` is the time that a row may take, `now` a clock in milliseconds, `onRow` told of each row as it ends. */
export interface BenchmarkSettings {
  readonly seconds: number;
  readonly now: () => number;
  readonly onRow: (result: RowResult) => void;
}

export async function runBenchmark(
  rows: readonly BenchmarkRow[],
  settings: BenchmarkSettings,
): Promise<BenchmarkTotals> {
  const begin = settings.now();
  const totals = { lines: 0, proved: 0, stations: 0, wrong: 0 };
  for (const row of rows) {
    const result = await runRow(row, settings);
    totals.lines++;
    totals.stations += result.stations;
    if (result.proved) totals.proved++;
    if (result.wrong !== null) totals.wrong++;
    settings.onRow(result);
  }
  return { ...totals, seconds: inSeconds(settings.now() - begin) };
}

async function runRow(row: BenchmarkRow, { seconds, now }: BenchmarkSettings): Promise<RowResult> {
  const begin = now();
  const weights = positionalWeights(row.problem);
  const first = fillByTime(row.problem, orderOfWork(row.problem, weights, row.problem.times.keys()));
  const answer = await fewestStations(row.problem, first, { nodes: Number.POSITIVE_INFINITY }, () =>
    now() - begin < seconds * 1000 ? null : "time",
  );
  const proved = answer.ended === "proved";
  return {
    name: row.name,
    stations: answer.stations.length,
    bound: answer.bound.stations,
    proved,
    wrong: judgeRow(row, answer.stations, proved),
    nodes: answer.nodes,
    seconds: inSeconds(now() - begin),
  };
}

function inSeconds(milliseconds: number): number {
  return Math.round(milliseconds) / 1000;
}
