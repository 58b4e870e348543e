import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem, Stations } from "../../../src/solve/problem.js";
import { fewestStations } from "../../../src/solve/search/fewest-stations.js";
import { turnRound } from "../../../src/solve/search/instance.js";
import { bruteForce } from "./brute-force.js";
import { oneTaskAStation, rename, smallLines } from "./small-lines.js";

const solve = (problem: StationProblem, nodes = 1_000_000) =>
  fewestStations(problem, oneTaskAStation(problem), { nodes }, () => null);

function expectValid({ times, limit, before }: StationProblem, stations: Stations): void {
  const order = stations.flat();
  expect([...order].sort((one, two) => one - two)).toEqual([...times.keys()]);
  for (const tasks of stations) {
    expect(tasks.reduce((sum, task) => sum + times[task]!, 0)).toBeLessThanOrEqual(limit);
  }
  for (const [task, earlier] of before.entries()) {
    for (const other of earlier) expect(order.indexOf(other)).toBeLessThan(order.indexOf(task));
  }
}

describe("the exact search on small lines", () => {
  it("needs as many stations as brute force, proves it, and gives a valid plan", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(10), async (problem) => {
        const { stations, bound, ended } = await solve(problem);
        expectValid(problem, stations);
        expect([stations.length, bound.stations, ended]).toEqual([
          bruteForce(problem),
          stations.length,
          "proved",
        ]);
      }),
      { seed: 7, numRuns: 400 },
    );
  });

  it("needs as many stations whatever the tasks are called", async () => {
    const named = smallLines(14).chain((problem) => {
      const size = problem.times.length;
      const names = fc.shuffledSubarray([...Array(size).keys()], { minLength: size, maxLength: size });
      return fc.record({ problem: fc.constant(problem), names });
    });
    await fc.assert(
      fc.asyncProperty(named, async ({ problem, names }) => {
        const [one, two] = [await solve(problem), await solve(rename(problem, names))];
        expect([two.stations.length, two.ended]).toEqual([one.stations.length, "proved"]);
      }),
      { seed: 7 },
    );
  });

  it("needs as many stations with every arrow turned round", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(16), async (problem) => {
        const [one, two] = [await solve(problem), await solve(turnRound(problem))];
        expect([two.stations.length, two.ended]).toEqual([one.stations.length, "proved"]);
      }),
      { seed: 7 },
    );
  });

  it("never needs more stations at a longer limit", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(14), fc.integer({ min: 1, max: 30 }), async (problem, more) => {
        const [one, two] = [await solve(problem), await solve({ ...problem, limit: problem.limit + more })];
        expect(two.stations.length).toBeLessThanOrEqual(one.stations.length);
      }),
      { seed: 7 },
    );
  });

  it("stops after any number of nodes with a valid plan and a bound that holds, the same every time", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(10), fc.integer({ min: 1, max: 40 }), async (problem, nodes) => {
        const answer = await solve(problem, nodes);
        const least = bruteForce(problem);
        expectValid(problem, answer.stations);
        expect(answer.stations.length).toBeGreaterThanOrEqual(least);
        expect(answer.bound.stations).toBeLessThanOrEqual(least);
        expect(answer.ended === "proved").toBe(answer.stations.length === answer.bound.stations);
        expect(await solve(problem, nodes)).toEqual(answer);
      }),
      { seed: 7 },
    );
  });

  it("is proved the same with room for few remembered plans, or says that memory ran out", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(10), fc.integer({ min: 2, max: 12 }), async (problem, memory) => {
        const first = oneTaskAStation(problem);
        const { stations, ended } = await fewestStations(problem, first, { nodes: 1e6, memory }, () => null);
        expectValid(problem, stations);
        if (ended === "proved") expect(stations.length).toBe(bruteForce(problem));
        else expect(ended).toBe("memory");
      }),
      { seed: 7 },
    );
  });
});
