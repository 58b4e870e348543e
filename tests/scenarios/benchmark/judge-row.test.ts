import { describe, expect, it } from "vitest";
import type { BenchmarkRow } from "../../../src/benchmark/benchmark-row.js";
import { judgeRow } from "../../../src/benchmark/judge-row.js";
import type { Stations } from "../../../src/solve/problem.js";

/** 3 before 4 before 2, limit 6: the best plan is 3 | 4 2. */
const ROW: BenchmarkRow = {
  name: "three",
  problem: { times: [3, 4, 2], limit: 6, before: [[], [0], [1]] },
  published: { lower: 2, upper: 2 },
};

describe("the judge of a benchmark", () => {
  it("has nothing against a best plan, proved or not", () => {
    expect(judgeRow(ROW, [[0], [1, 2]], true)).toBe(null);
    expect(judgeRow(ROW, [[0], [1], [2]], false)).toBe(null);
  });

  it.each<[Stations, string]>([
    [[[0], [1]], "task 3 is missing from the plan"],
    [[[0], [1, 2], [0]], "a task stands twice in the plan"],
    [[[0], [1, 2], [3]], "the plan has a task that the line does not have"],
    [[[1, 2], [0]], "task 1 must come before task 2"],
    [[[0], [2, 1]], "task 2 must come before task 3"],
    [[[0, 1], [2]], "station 1 holds 7, more than 6"],
    [[[0], [], [1, 2]], "station 2 is empty"],
    [[[0], [1], [2]], "3 stations as proved, published are 2"],
  ])("refuses %j", (stations, fault) => {
    expect(judgeRow(ROW, stations, true)).toBe(fault);
  });

  it("refuses fewer stations than the published lower bound, proved or not", () => {
    const row = { ...ROW, published: { lower: 3, upper: 3 } };
    expect(judgeRow(row, [[0], [1, 2]], false)).toBe("2 stations, fewer than the published 3");
  });

  it("adds times up exactly where floating-point sums would not", () => {
    const most = Number.MAX_SAFE_INTEGER;
    const problem = { times: [most, 1, 1], limit: most, before: [[], [], []] };
    const row = { name: "huge", problem, published: null };
    expect(judgeRow(row, [[0, 1, 2]], false)).toBe(`station 1 holds ${2n ** 53n + 1n}, more than ${most}`);
  });
});
