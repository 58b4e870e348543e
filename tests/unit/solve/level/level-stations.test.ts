import { describe, expect, it } from "vitest";
import type { StationProblem, Stations } from "../../../../src/solve/problem.js";
import { levelStations } from "../../../tools/level-stations.js";

const level = (problem: StationProblem, plan: Stations, nodes = 100_000) =>
  levelStations(problem, plan, { nodes }, () => null);
const free = (limit: number, times: number[]): StationProblem => ({
  limit,
  times,
  before: times.map(() => []),
});

/** A 50; B 40; C 20 after A; D 45 after C; E 20 after C; F 25 after D; G 15 after E; H 35 after B, F and G. */
const EIGHT: StationProblem = {
  limit: 75,
  times: [50, 40, 20, 45, 20, 25, 15, 35],
  before: [[], [], [0], [2], [2], [3], [4], [1, 5, 6]],
};

describe("a plan evened out", () => {
  it("keeps its 4 stations and comes down to a longest of 70, with 10 idle at each of the others", async () => {
    // 250 of work at 4 x 70 leaves 30: 0, 10, 10 and 10 is as even as can be, 3 x 10 x 10 = 300.
    const answer = await level(EIGHT, [[0, 2], [3, 5], [1, 4, 6], [7]]);
    expect(answer).toMatchObject({
      stations: [
        [0, 2],
        [1, 4],
        [3, 6],
        [5, 7],
      ],
      slowest: 70,
      slowestBound: 70,
      outcome: "proved",
      squaredGaps: 300n,
      smoothness: "proved",
      ended: "proved",
    });
    expect(answer.bound).toMatchObject({ cycle: 70n, shorter: 65n });
  });

  it("uses all its stations, also where fewer would do for the same longest", async () => {
    // 9 | 5 | 4 rather than 9 | 5 + 4.
    const answer = await level(free(10, [9, 5, 4]), [[0], [1], [2]]);
    expect(answer).toMatchObject({ slowest: 9, squaredGaps: 41n, smoothness: "proved" });
    expect(answer.stations).toHaveLength(3);
  });

  it("moves tasks from a station that is not the longest as well", async () => {
    // 9 | 6 + 2 | 2 has gaps of 0, 1 and 7; 9 | 6 | 2 + 2 has 0, 3 and 5: 34 in place of 50.
    const answer = await level(free(9, [9, 6, 2, 2]), [[0], [1, 2], [3]]);
    expect(answer).toMatchObject({ slowest: 9, squaredGaps: 34n, smoothness: "proved" });
  });

  it("keeps a valid order of work where tasks take no time", async () => {
    // 0 -> 1 -> 2 -> 3 with times 4, 0, 0, 4.
    const chain = { limit: 8, times: [4, 0, 0, 4], before: [[], [0], [1], [2]] };
    const answer = await level(chain, [[0, 1, 2], [3]]);
    expect(answer).toMatchObject({ slowest: 4, squaredGaps: 0n, smoothness: "proved" });
    expect(answer.stations.flat()).toEqual([0, 1, 2, 3]);
  });

  it("leaves a station empty only where there are fewer tasks than stations", async () => {
    expect((await level(free(10, [5, 5]), [[0], [], [1]])).stations).toEqual([[0], [1], []]);
    expect((await level(free(10, [5, 5]), [[0, 1], []])).stations).toEqual([[0], [1]]);
    expect((await level(free(10, []), [])).stations).toEqual([]);
  });

  it("never gets worse where nothing may be looked at, and claims no proof", async () => {
    const plan = [[0, 2], [3, 5], [1, 4, 6], [7]];
    const answer = await level(EIGHT, plan, 0);
    expect(answer.slowest).toBe(70);
    expect([answer.slowestBound, answer.outcome, answer.smoothness, answer.ended]).toEqual([
      65,
      "found",
      "found",
      "nodes",
    ]);
  });

  it("adds up gaps beyond the largest whole numbers exactly", async () => {
    // 2^40 | 2^40 - 2^31 - 1: one gap of 2^31 + 1, its square is 2^62 + 2^32 + 1.
    const problem = free(2 ** 41, [2 ** 40, 2 ** 40 - 2 ** 31 - 1]);
    const answer = await level(problem, [[0], [1]]);
    expect(answer.squaredGaps).toBe(2n ** 62n + 2n ** 32n + 1n);
  });
});
