import { expect, it } from "vitest";
import { readRow } from "../../../src/benchmark/benchmark-row.js";
import { type RowResult, runBenchmark } from "../../../src/benchmark/run-benchmark.js";

/** Source: Mertens 1967, in A. Scholl, Data of Assembly Line Balancing Problems, TH Darmstadt, 1993. */
const mertens = (cycle: number, published: { lower: number; upper: number }) =>
  readRow(
    JSON.stringify({
      name: `mertens-${cycle}`,
      cycle,
      times: [1, 5, 4, 3, 5, 6, 5],
      precedence: [
        [1, 2],
        [1, 4],
        [2, 3],
        [2, 5],
        [4, 7],
        [5, 6],
      ],
      published,
    }),
  );

const ROWS = [
  mertens(6, { lower: 6, upper: 6 }),
  mertens(10, { lower: 3, upper: 3 }),
  mertens(15, { lower: 3, upper: 3 }),
];

it("adds up proved rows and stations, and counts what the judge refuses", async () => {
  // The last row claims 3 stations where 2 hold everything.
  const results: RowResult[] = [];
  const totals = await runBenchmark(ROWS, {
    seconds: 3,
    now: () => 0,
    onRow: (result) => results.push(result),
  });
  expect(totals).toEqual({ lines: 3, proved: 3, stations: 6 + 3 + 2, wrong: 1, seconds: 0 });
  expect(results.map(({ name, stations, bound, wrong }) => [name, stations, bound, wrong])).toEqual([
    ["mertens-6", 6, 6, null],
    ["mertens-10", 3, 3, null],
    ["mertens-15", 2, 2, "2 stations, fewer than the published 3"],
  ]);
});

it("still has a plan for a row whose time is up at once", async () => {
  let clock = 0;
  const now = () => (clock += 10_000);
  const totals = await runBenchmark(ROWS.slice(0, 1), { seconds: 1, now, onRow: () => {} });
  expect([totals.lines, totals.wrong]).toEqual([1, 0]);
});
