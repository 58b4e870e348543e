import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Bound, staticBounds } from "../../../src/solve/bounds/bound.js";
import { chainBound, layOutEnds } from "../../../src/solve/bounds/chain.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { verifyBound } from "../../../src/solve/verify-bound.js";
import { smallLines } from "../../generated/search/small-lines.js";

const problem: StationProblem = {
  times: [68, 68, 34, 50, 50, 20],
  limit: 100,
  before: [[], [], [], [], [], []],
};

function boundOf(kind: Bound["kind"]): Bound {
  return staticBounds(problem).find((each) => each.kind === kind)!;
}

describe("the check of certificates", () => {
  it("passes every bound of generated lines", () => {
    const times = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(times, fc.integer({ min: 60, max: 130 }), (each, limit) => {
        const line = { times: each, limit, before: each.map(() => []) };
        for (const bound of staticBounds(line)) expect(verifyBound(line, bound)).toEqual([]);
      }),
      { seed: 7 },
    );
  });

  it.each<[string, Bound, string]>([
    [
      "one station too many",
      { ...boundOf("work-content"), stations: 4 } as Bound,
      "stations: 4 said, 3 right",
    ],
    [
      "a wrong sum of work",
      { ...boundOf("work-content"), workContent: 291 } as Bound,
      "work content: 291 said, 290 right",
    ],
    [
      "a task that is not over half",
      { kind: "large-tasks", stations: 3, tasks: [0, 1, 2], overHalf: [0, 1, 2], exactlyHalf: [] },
      "task 2 is not over half",
    ],
    [
      "a task counted twice",
      { kind: "large-tasks", stations: 3, tasks: [0, 1], overHalf: [0, 1, 1], exactlyHalf: [] },
      "a task is counted twice",
    ],
    ["wrong sixths", { ...boundOf("thirds"), sixths: 99 } as Bound, "sixths: 99 said, 21 right"],
    ["too little room", { ...boundOf("bin-packing"), room: -1 } as Bound, "room: -1 said, "],
  ])("finds %s", (_, bound, fault) => {
    expect(verifyBound(problem, bound).join("\n")).toContain(fault);
  });
});

/** 40 -> 70 -> 50 -> 60 with a limit of 100: 70 has no room for 40 beside it, nor 60 for 50. */
const row: StationProblem = { times: [40, 70, 50, 60], limit: 100, before: [[], [0], [1], [2]] };

function chainOf(line: StationProblem): Bound & { kind: "chain" } {
  return chainBound(line, layOutEnds(line), 0)!;
}

describe("the check of a chain", () => {
  it("counts every chain of a generated line with arrows again", () => {
    fc.assert(
      fc.property(smallLines(12), (line) => {
        expect(verifyBound(line, chainOf(line))).toEqual([]);
      }),
      { seed: 7, numRuns: 1000 },
    );
  });

  it("takes 40, 70, 50 and 60 s in a row for four stations of 100 s, from the first of them on", () => {
    // Behind 50: 60, and 50 has no room beside it: 100. Behind 70: 50 + 100, and 70 has none beside 50: 200. Behind 40: 70 + 200.
    expect(chainOf(row)).toMatchObject({
      stations: 4,
      tasks: [0],
      stationsBefore: 0,
      stationsAfter: 3,
      limit: 100,
    });
    expect(chainOf(row).after).toEqual([
      { by: "work", task: 2, lies: 100, tasks: [3], beyond: 0 },
      { by: "work", task: 1, lies: 200, tasks: [2], beyond: 100 },
      { by: "work", task: 0, lies: 300, tasks: [1], beyond: 200 },
    ]);
  });

  it.each<[string, (bound: Bound & { kind: "chain" }) => Bound, string]>([
    ["a station too many", (bound) => ({ ...bound, stations: 5 }), "stations: 5 said, 4 right"],
    [
      "stations that the steps do not give",
      (bound) => ({ ...bound, stations: 5, stationsAfter: 4 }),
      "3 stations lie after 0",
    ],
    [
      "a wrong sum",
      (bound) => ({ ...bound, after: [{ ...bound.after[0]!, lies: 160 }] }),
      "after 2: 100 lies there",
    ],
    [
      "a task on the other side",
      (bound) => ({ ...bound, after: [{ by: "work", task: 2, lies: 100, tasks: [1], beyond: 0 }] }),
      "1 does not lie on that side",
    ],
    [
      "a step that rests on nothing",
      (bound) => ({ ...bound, after: [{ by: "work", task: 1, lies: 200, tasks: [2], beyond: 100 }] }),
      "less than 100 lies beyond 2",
    ],
    [
      "a task counted twice",
      (bound) => ({ ...bound, after: [{ by: "work", task: 2, lies: 200, tasks: [3, 3], beyond: 0 }] }),
      "a task is counted twice",
    ],
    [
      "a limit that is too short",
      (bound) => ({ ...bound, limit: 90 }),
      "a station of the chain can be filled to 100",
    ],
  ])("finds %s", (_, spoil, fault) => {
    expect(verifyBound(row, spoil(chainOf(row))).join("\n")).toContain(fault);
  });
});
