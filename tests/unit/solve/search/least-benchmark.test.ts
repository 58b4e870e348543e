import { describe, expect, it } from "vitest";
import { type BenchmarkWorld, UnreadableError } from "../../../../src/benchmark/benchmark-command.js";
import { judgeLeastCase } from "../../../../src/benchmark/judge-row.js";
import { benchmarkLeast } from "../../../../src/benchmark/least-benchmark-command.js";
import type { LeastLimitAnswer } from "../../../../src/solve/search/least-limit.js";

/** 3 -> 5 -> 4: with 2 stations 3 + 5 | 4, with 3 the longest task. */
const LINES = '{"small": {"year": 1, "times": [3, 5, 4], "precedence": [[1, 2], [2, 3]]}}';
const CASES = "line,stations,lower,upper,status\nsmall,2,8,8,proven\nsmall,3,5,5,proven\n";

/** Runs the benchmark on these texts with a clock that stands still; gives what it tells. */
async function run(words: string[], cases = CASES, lines: string | null = LINES): Promise<unknown[]> {
  const told: unknown[] = [];
  const world: BenchmarkWorld = {
    readText: (path) => {
      if (path === "lines" && lines === null) throw new UnreadableError("ENOENT");
      return path === "lines" ? lines! : cases;
    },
    tellResult: (text) => told.push(text),
    tellAside: (text) => told.push(text),
    now: () => 0,
  };
  return [await benchmarkLeast(words, { cases: "cases", lines: "lines" }, world), ...told];
}

describe("the benchmark of least cycles", () => {
  it("ends with one line of JSON", async () => {
    expect(await run([])).toEqual([
      0,
      '{"lines":2,"proved":2,"limits":13,"wrong":0,"above":0,"seconds":0}\n',
    ]);
    expect(await run(["--every", "2"])).toEqual([
      0,
      '{"lines":1,"proved":1,"limits":8,"wrong":0,"above":0,"seconds":0}\n',
    ]);
  });

  it("tells each case, and what is wrong with it", async () => {
    const cases = CASES.replace("small,3,5,5", "small,3,6,6");
    const [status, one, two, totals] = await run(["--each"], cases);
    expect([status, totals]).toEqual([
      0,
      '{"lines":2,"proved":2,"limits":13,"wrong":1,"above":0,"seconds":0}\n',
    ]);
    expect(one).toMatch(/^small 2: 8, proved, \d+ nodes, 0 s\n$/);
    expect(two).toBe("small 3: 5, proved, 0 nodes, 0 s, wrong: a cycle of 5, shorter than the published 6\n");
  });

  it("counts the cases that end above the published cycle", async () => {
    const [, one, totals] = await run(["--each"], "line,stations,lower,upper,status\nsmall,2,7,7,proven\n");
    expect(one).toMatch(/wrong: a bound of 8, above the published 7\n$/);
    expect(JSON.parse(String(totals))).toMatchObject({ lines: 1, wrong: 1, above: 1 });
  });

  it.each([
    [["--seconds", "0"], CASES, LINES, "error: --seconds 0: expected a number above 0, such as 3 or 0.5\n"],
    [[], CASES, null, "error: cannot read lines: ENOENT\n"],
    [[], CASES, "{", "error: lines: this is no JSON\n"],
    [[], CASES, '{"small": {}}', 'error: lines: line small: "times" is missing, expected a list\n'],
    [[], "line\n", LINES, "error: cases:2: there is no row, expected at least one\n"],
    [[], "line\n\nlarge,2,1,1\n", LINES, "error: cases:3: there is no line large\n"],
    [
      [],
      "line\nsmall,2,9,8\n",
      LINES,
      "error: cases:2: small,2,9,8, expected line,stations,lower,upper in whole numbers from 1\n",
    ],
  ])("says in one line what is wrong with %j", async (words, cases, lines, message) => {
    expect(await run(words, cases, lines)).toEqual([2, message]);
  });
});

describe("the judge of a least cycle", () => {
  const each = { name: "c", times: [3, 5, 4], before: [[], [], [0, 1]], stations: 2, lower: 8, upper: 8 };
  const answer: LeastLimitAnswer = {
    stations: [[0, 1], [2]],
    limit: 8,
    bound: 8,
    certificate: { kind: "work-content", limit: 8, count: 2, workContent: 12 },
    nodes: 0,
    ended: "proved",
  };

  it.each([
    [{}, null],
    [{ stations: [[0], [2], [1]] }, "task 2 must come before task 3"],
    [{ limit: 7 }, "station 1 holds 8, more than 7"],
    [{ stations: [[0], [1], [2]] }, "3 stations, more than 2"],
    [{ bound: 9 }, "a bound of 9, above the published 8"],
    [{ bound: 7 }, "proved with a bound of 7 below 8"],
    [{ bound: 7, ended: "nodes" as const }, null],
  ])("finds with %j: %s", (change, fault) => {
    expect(judgeLeastCase(each, { ...answer, ...change })).toBe(fault);
  });
});
