import { describe, expect, it } from "vitest";
import type { StationProblem, Stations } from "../../../../src/solve/problem.js";
import { TimesTooLargeError } from "../../../../src/solve/search/exact-sums.js";
import { type Checkpoint, fewestStations } from "../../../../src/solve/search/fewest-stations.js";

const oneEach = ({ times }: StationProblem): Stations => times.map((_, task) => [task]);
const goOn: Checkpoint = () => null;

/** Fits 2 stations only as 6 + 4 and 5 + 3 + 2; nothing goes before anything. */
const LOOSE: StationProblem = { limit: 10, times: [6, 5, 4, 3, 2], before: [[], [], [], [], []] };

/** 20 of work over 10, but no three of 6, 3, 3, 3, 3, 2 and no two make up 10: three stations. */
const TIGHT: StationProblem = { limit: 10, times: [6, 3, 3, 3, 3, 2], before: [[], [], [], [], [], []] };

describe("the fewest stations", () => {
  it("come with the simple bound where that proves them", async () => {
    const answer = await fewestStations(LOOSE, oneEach(LOOSE), { nodes: 1000 }, goOn);
    expect([answer.stations.length, answer.bound.kind, answer.ended]).toEqual([2, "work-content", "proved"]);
  });

  it("come with the count of partial plans where only search proves them", async () => {
    const answer = await fewestStations(TIGHT, oneEach(TIGHT), { nodes: 1000 }, goOn);
    expect(answer).toEqual({
      stations: answer.stations,
      bound: { kind: "search", stations: 3, tasks: [], nodes: answer.nodes },
      nodes: answer.nodes,
      ended: "proved",
    });
  });

  it("are the first plan's when nothing may be looked at", async () => {
    const answer = await fewestStations(LOOSE, oneEach(LOOSE), { nodes: 0 }, goOn);
    expect(answer).toMatchObject({ stations: [[0], [1], [2], [3], [4]], ended: "nodes" });
  });

  it("are the best known when the caller stops the search", async () => {
    const stop: Checkpoint = async (): Promise<"interrupted"> => "interrupted";
    const answer = await fewestStations(TIGHT, oneEach(TIGHT), { nodes: 1000 }, stop);
    expect([answer.ended, answer.bound.stations, answer.stations.flat().length]).toEqual([
      "interrupted",
      2,
      6,
    ]);
  });

  it("hold for a line without tasks and for one of tasks without time", async () => {
    const none = { limit: 5, times: [], before: [] };
    expect((await fewestStations(none, [], { nodes: 10 }, goOn)).stations).toEqual([]);
    const idle = { limit: 5, times: [0, 0, 0], before: [[2], [], []] };
    expect((await fewestStations(idle, [[2], [1], [0]], { nodes: 10 }, goOn)).stations).toEqual([[1, 2, 0]]);
  });

  it("add up times near the largest whole numbers exactly", async () => {
    // 2^50 + 1 and 2^50 are one too long for 2^51.
    const problem = { limit: 2 ** 51, times: [2 ** 50 + 1, 2 ** 50], before: [[], []] };
    const fits = { ...problem, limit: 2 ** 51 + 1 };
    expect((await fewestStations(problem, [[0], [1]], { nodes: 10 }, goOn)).stations).toHaveLength(2);
    expect((await fewestStations(fits, [[0], [1]], { nodes: 10 }, goOn)).stations).toHaveLength(1);
  });

  it("are refused where sums would not be exact", async () => {
    const problem = { limit: 2 ** 52, times: [2 ** 52 - 1, 2 ** 52], before: [[], []] };
    await expect(fewestStations(problem, [[0], [1]], { nodes: 10 }, goOn)).rejects.toThrow(
      TimesTooLargeError,
    );
  });
});
