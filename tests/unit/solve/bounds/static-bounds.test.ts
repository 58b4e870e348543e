import { describe, expect, it } from "vitest";
import { staticBounds } from "../../../../src/solve/bounds/bound.js";
import type { StationProblem } from "../../../../src/solve/problem.js";
import { verifyBound } from "../../../../src/solve/verify-bound.js";

/** A line without arrows. */
const loose = (limit: number, times: number[]): StationProblem => ({
  limit,
  times,
  before: times.map(() => []),
});

const kindsWith = (problem: StationProblem) =>
  staticBounds(problem).map(({ kind, stations }) => [kind, stations]);

describe("bounds before any search", () => {
  it("names the work content where nothing else says more: 3 + 2 + 2 = 7 over 6", () => {
    expect(staticBounds(loose(6, [3, 2, 0, 2]))[0]).toEqual({
      kind: "work-content",
      stations: 2,
      tasks: [0, 1, 3],
      workContent: 7,
      limit: 6,
    });
  });

  it("counts tasks over half the limit, and two to a station of exactly half", () => {
    // 6, 6, 6 are over half of 10; 5, 5, 5 are half: 3 + 3/2 rounded up. Work content: 33 / 10 rounded up = 4.
    expect(staticBounds(loose(10, [6, 6, 6, 5, 5, 5]))[0]).toEqual({
      kind: "large-tasks",
      stations: 5,
      tasks: [0, 1, 2, 3, 4, 5],
      overHalf: [0, 1, 2],
      exactlyHalf: [3, 4, 5],
    });
  });

  it("counts shares of a station in sixths by thirds of the limit (Johnson 1988)", () => {
    // Limit 9: 7 is over 6 (6 sixths), 6 is two thirds (4), 4 lies between (3), 3 is a third (2), 2 counts nothing.
    // Five 4s and a 3 take 17 sixths, 7 and 6 take 10: 27 / 6 rounded up = 5. Work content: 38 / 9 rounded up = 5.
    const bound = staticBounds(loose(9, [7, 6, 4, 4, 4, 4, 4, 3, 2])).find(({ kind }) => kind === "thirds");
    expect(bound).toEqual({
      kind: "thirds",
      stations: 5,
      tasks: [0, 1, 2, 3, 4, 5, 6, 7],
      overTwoThirds: [0],
      exactlyTwoThirds: [1],
      betweenThirds: [2, 3, 4, 5, 6],
      exactlyOneThird: [7],
      sixths: 27,
    });
  });

  it("packs around large tasks at the best threshold (Martello & Toth 1990)", () => {
    // Limit 10, threshold 4: 7 and 7 leave no room for a 4, 6 leaves 4; the 4s need 16, 12 beyond that room: 2 more.
    const bounds = staticBounds(loose(10, [7, 7, 6, 4, 4, 4, 4]));
    expect(bounds.find(({ kind }) => kind === "bin-packing")).toEqual({
      kind: "bin-packing",
      stations: 5,
      tasks: [0, 1, 2, 3, 4, 5, 6],
      threshold: 4,
      alone: [0, 1],
      overHalf: [2],
      filling: [3, 4, 5, 6],
      fillingWork: 16,
      room: 4,
    });
  });

  it("counts stations before and after a task in a chain (Johnson 1988)", () => {
    // 3 -> 4 -> 3 with a limit of 6: no two neighbours fit together, though 10 / 6 needs only two stations.
    const chain = { limit: 6, times: [3, 4, 3], before: [[], [0], [1]] };
    expect(staticBounds(chain)[0]).toEqual({
      kind: "chain",
      stations: 3,
      tasks: [0],
      stationsBefore: 0,
      stationsAfter: 2,
      limit: 6,
      before: [],
      after: [
        { by: "work", task: 1, lies: 6, tasks: [2], beyond: 0 },
        { by: "work", task: 0, lies: 12, tasks: [1], beyond: 6 },
      ],
    });
  });

  it("counts a chain of 10,000 tasks, a step for each of them", () => {
    // 3 -> 2 -> 3 -> 2 -> ... with a limit of 6: behind a 2, what lies there is begun with a 3 or more, so a station ends after two tasks.
    const size = 10_000;
    const chain = {
      limit: 6,
      times: Array.from({ length: size }, (_, task) => 3 - (task % 2)),
      before: Array.from({ length: size }, (_, task) => (task === 0 ? [] : [task - 1])),
    };
    const bound = staticBounds(chain)[0]!;
    expect(bound).toMatchObject({ kind: "chain", stations: size / 2 });
    expect(verifyBound(chain, bound)).toEqual([]);
  });

  it("puts the simplest argument first among equals, and leaves out a chain that says no more", () => {
    expect(kindsWith(loose(10, [6, 6]))).toEqual([
      ["work-content", 2],
      ["large-tasks", 2],
      ["bin-packing", 2],
      ["thirds", 1],
    ]);
  });

  it("asks for one station where every task takes no time, and for none where there is no task", () => {
    expect(staticBounds(loose(5, [0, 0]))[0]?.stations).toBe(1);
    expect(staticBounds(loose(5, []))[0]?.stations).toBe(0);
  });
});
