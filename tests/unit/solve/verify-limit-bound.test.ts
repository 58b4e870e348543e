import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LeastLimitBound, leastLimit } from "../../../src/solve/search/least-limit.js";
import { verifyLimitBound } from "../../../src/solve/verify-limit-bound.js";

const times = [50, 40, 20, 45, 20, 25, 15, 35];
const before = [[], [], [0], [2], [2], [3], [4], [1, 5, 6]];
const faults = (bound: LeastLimitBound) => verifyLimitBound(times, before, bound);

describe("the check of proofs for a fixed number of stations", () => {
  it("passes what the search proves on generated lines", async () => {
    const lines = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 2, maxLength: 9 });
    await fc.assert(
      fc.asyncProperty(lines, fc.integer({ min: 1, max: 9 }), async (each, stations) => {
        const chain = each.map((_, at) => (at % 3 === 0 ? [] : [at - 1]));
        const count = Math.min(stations, each.length);
        const { certificate } = await leastLimit(each, chain, count, { nodes: 5_000 }, () => null);
        expect(verifyLimitBound(each, chain, certificate)).toEqual([]);
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  it("finds a task of another time", () => {
    expect(faults({ kind: "longest-task", limit: 55, count: 4, task: 0 })).toEqual([
      "task 0 does not take 55",
    ]);
  });

  it("finds a wrong work content and a station time between the share and the limit", () => {
    // 250 s over 4 stations is 62.5 s; 65 = 50 + 15 is a station time.
    expect(faults({ kind: "work-content", limit: 65, count: 4, workContent: 250 })).toEqual([]);
    expect(faults({ kind: "work-content", limit: 65, count: 4, workContent: 251 })).toEqual([
      "work content: 250 is right",
    ]);
    expect(faults({ kind: "work-content", limit: 70, count: 4, workContent: 250 })).toEqual([
      "a station may take 65",
    ]);
  });

  it("finds a bound that does not ask for more stations", () => {
    const bound = {
      kind: "work-content",
      stations: 4,
      tasks: [0, 1, 2, 3, 4, 5, 6, 7],
      workContent: 250,
      limit: 65,
    } as const;
    expect(faults({ kind: "stations", limit: 70, count: 4, shorter: 65, bound })).toEqual([
      "the stations at the shorter limit are not too many",
    ]);
  });

  it("finds a station time that a search left out", () => {
    expect(faults({ kind: "search", limit: 70, count: 4, shorter: 60, nodes: 9 })).toEqual([
      "a station may take 65",
    ]);
    expect(faults({ kind: "search", limit: 70, count: 4, shorter: 65, nodes: 9 })).toEqual([]);
  });
});
