import { describe, expect, it } from "vitest";
import { TimesTooLargeError } from "../../../../src/solve/search/exact-sums.js";
import type { Checkpoint } from "../../../../src/solve/search/fewest-stations.js";
import { leastLimit } from "../../../../src/solve/search/least-limit.js";

const goOn: Checkpoint = () => null;
const free = (size: number): number[][] => Array.from({ length: size }, () => []);
const solve = (times: number[], before: number[][], count: number, nodes = 1000) =>
  leastLimit(times, before, count, { nodes }, goOn);

describe("the least limit for a fixed number of stations", () => {
  it("is the longest task where that is the reason, and names it", async () => {
    // 9 | 2 + 3 + 4: 18 of work over 2 stations is 9 as well, and the longest task is said first.
    const answer = await solve([4, 9, 3, 2], free(4), 2);
    expect(answer.certificate).toEqual({ kind: "longest-task", limit: 9, count: 2, task: 1 });
    expect([answer.limit, answer.bound, answer.ended]).toEqual([9, 9, "proved"]);
  });

  it("is the even share of the work content, rounded up to a sum of task times", async () => {
    // 20 / 3 = 6.67; sums of 4s and 6s go 4, 6, 8: 8 = 4 + 4, 6, 6.
    const answer = await solve([4, 4, 6, 6], free(4), 3);
    expect(answer.certificate).toEqual({ kind: "work-content", limit: 8, count: 3, workContent: 20 });
    expect(answer.stations.map((tasks) => [...tasks].sort())).toHaveLength(3);
    expect(answer.limit).toBe(8);
  });

  it("comes with the bound that asks for a station too many just below", async () => {
    // 24 over 3 stations is 8 = 5 + 1 + 2, but four tasks of 5 need a station each at 8 and at 9 = 5 + 1 + 1 + 2.
    const answer = await solve([5, 5, 5, 5, 1, 1, 2], free(7), 3);
    expect(answer.certificate).toMatchObject({ kind: "stations", limit: 10, count: 3, shorter: 9 });
    expect(answer.certificate).toMatchObject({ bound: { kind: "large-tasks", stations: 4 } });
    expect([answer.limit, answer.ended]).toEqual([10, "proved"]);
  });

  it("comes with the count of partial plans where only search proves it", async () => {
    // 6 -> 1 -> 6 and 8: half of 21 is 10.5, and 12 = 6 + 6 the next sum. At 12 nothing but the 1 has room beside the 8,
    // and it would part the two 6s, so that 13 is left for the other station.
    const answer = await solve([6, 8, 1, 6], [[], [], [0], [2]], 2);
    expect(answer).toMatchObject({ stations: [[0, 2, 3], [1]], limit: 13, bound: 13, ended: "proved" });
    expect(answer.certificate).toMatchObject({ kind: "search", limit: 13, count: 2, shorter: 12 });
  });

  it("takes a plan to begin with, and no station more than asked for", async () => {
    const first = [[0], [1, 2]];
    const answer = await leastLimit([3, 3, 3], free(3), 2, { nodes: 0, first }, goOn);
    expect([answer.stations, answer.limit, answer.bound]).toEqual([[[0], [1, 2]], 6, 6]);
    expect((await solve([3, 3, 3], free(3), 7)).stations).toHaveLength(3);
  });

  it("says that the caller stopped it, with the best plan and a bound that holds", async () => {
    const stop: Checkpoint = async (): Promise<"interrupted"> => "interrupted";
    const times = [7, 8, 9, 11, 12, 13, 14, 15, 17, 19];
    const answer = await leastLimit(times, free(10), 4, { nodes: 1e6 }, stop);
    expect(answer.stations.flat().sort((one, two) => one - two)).toEqual([...times.keys()]);
    expect(answer.bound).toBeLessThanOrEqual(answer.limit);
  });

  it("holds for no tasks and for tasks without time", async () => {
    expect(await solve([], [], 3)).toMatchObject({ stations: [], limit: 0, bound: 0, ended: "proved" });
    expect(await solve([0, 0], [[1], []], 3)).toMatchObject({ limit: 0, bound: 0, ended: "proved" });
  });

  it("adds up times near the largest whole numbers exactly, or refuses them", async () => {
    // 2^50 + 1, 2^50 and 2: the long one alone, the two others together need 2^50 + 2.
    const answer = await solve([2 ** 50 + 1, 2 ** 50, 2], free(3), 2);
    expect([answer.limit, answer.bound]).toEqual([2 ** 50 + 2, 2 ** 50 + 2]);
    await expect(solve([2 ** 52 - 1, 2 ** 52], free(2), 2)).rejects.toThrow(TimesTooLargeError);
  });

  it.each([0, -1, 2.5, Number.NaN])("needs a whole number of stations from 1, not %s", async (count) => {
    await expect(solve([1, 2], free(2), count)).rejects.toThrow(
      new RangeError(`stations: ${count}, expected a whole number from 1`),
    );
  });
});
