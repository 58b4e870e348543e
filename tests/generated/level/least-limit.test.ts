import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem } from "../../../src/solve/problem.js";
import { leastLimit } from "../../../src/solve/search/least-limit.js";
import { faultsOf } from "../../published/plain-stations.js";
import { smallLines } from "../search/small-lines.js";
import { evenest } from "./every-plan.js";

const solve = ({ times, before }: StationProblem, count: number, nodes = 1_000_000) =>
  leastLimit(times, before, count, { nodes }, () => null);
const counts = fc.integer({ min: 1, max: 6 });

describe("the least limit for a fixed number of stations", () => {
  it("is the one of the best of all plans", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(9), counts, async (problem, count) => {
        const answer = await solve(problem, count);
        expect(faultsOf({ ...problem, limit: answer.limit }, answer.stations)).toEqual([]);
        expect(answer.stations.length).toBeLessThanOrEqual(count);
        const { limit } = evenest(problem.times, problem.before, count, false);
        expect([answer.limit, answer.bound, answer.ended]).toEqual([limit, limit, "proved"]);
      }),
      { seed: 7 },
    );
  });

  it("never rises with a station more, and is the same for reversed arrows", async () => {
    await fc.assert(
      fc.asyncProperty(smallLines(12), counts, async (problem, count) => {
        const after = problem.before.map((_, task) =>
          problem.before.flatMap((earlier, later) => (earlier.includes(task) ? [later] : [])),
        );
        const answer = await solve(problem, count);
        expect((await solve(problem, count + 1)).limit).toBeLessThanOrEqual(answer.limit);
        expect((await solve({ ...problem, before: after }, count)).limit).toBe(answer.limit);
      }),
      { seed: 7 },
    );
  });

  it("scales with the unit of the task times", async () => {
    await fc.assert(
      fc.asyncProperty(
        smallLines(9),
        counts,
        fc.integer({ min: 2, max: 5000 }),
        async (problem, count, by) => {
          const scaled = { ...problem, times: problem.times.map((each) => each * by) };
          const [one, two] = [await solve(problem, count), await solve(scaled, count)];
          expect([two.limit, two.nodes]).toEqual([one.limit * by, one.nodes]);
        },
      ),
      { seed: 7 },
    );
  });

  it("lies between plan and bound after any number of nodes, the same every time", async () => {
    await fc.assert(
      fc.asyncProperty(
        smallLines(9),
        counts,
        fc.integer({ min: 0, max: 40 }),
        async (problem, count, nodes) => {
          const answer = await solve(problem, count, nodes);
          const { limit } = evenest(problem.times, problem.before, count, false);
          expect(faultsOf({ ...problem, limit: answer.limit }, answer.stations)).toEqual([]);
          expect(answer.limit).toBeGreaterThanOrEqual(limit);
          expect(answer.bound).toBeLessThanOrEqual(limit);
          expect(answer.certificate.limit).toBe(answer.bound);
          expect(answer.ended === "proved").toBe(answer.limit === answer.bound);
          expect(await solve(problem, count, nodes)).toEqual(answer);
        },
      ),
      { seed: 7 },
    );
  });

  it("is found with room for few remembered plans, or memory runs out", async () => {
    await fc.assert(
      fc.asyncProperty(
        smallLines(9),
        counts,
        fc.integer({ min: 2, max: 12 }),
        async (problem, count, memory) => {
          const { times, before } = problem;
          const answer = await leastLimit(times, before, count, { nodes: 1e6, memory }, () => null);
          const { limit } = evenest(times, before, count, false);
          expect(answer.limit).toBeGreaterThanOrEqual(limit);
          expect(answer.bound).toBeLessThanOrEqual(limit);
          expect(answer.ended).toBe(answer.limit === answer.bound ? "proved" : "memory");
        },
      ),
      { seed: 7 },
    );
  });
});
