import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Bound, staticBounds } from "../../../src/solve/bounds/bound.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { verifyBound } from "../../../src/solve/verify-bound.js";

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
    [
      "a chain that does not add up",
      { kind: "chain", stations: 5, tasks: [0], stationsBefore: 1, stationsAfter: 2 },
      "stations: 5 said, 4 right",
    ],
  ])("finds %s", (_, bound, fault) => {
    expect(verifyBound(problem, bound).join("\n")).toContain(fault);
  });
});
