import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem, Stations } from "../../../src/solve/problem.js";
import { leastLimit } from "../../../src/solve/search/least-limit.js";
import { TwoWayBeam } from "../../../src/solve/search/two-way-beam.js";
import { faultsOf } from "../../published/plain-stations.js";
import { readClassicLines, toProblem } from "../../tools/read-classic-lines.js";
import { evenest } from "../level/every-plan.js";
import { smallLines } from "./small-lines.js";

const counts = fc.integer({ min: 1, max: 6 });

function search(problem: StationProblem, count: number, width: number, nodes = 1e6) {
  const beam = new TwoWayBeam(problem, count, width, { nodes, memory: 1e6 });
  const stretches = [...beam.stretches()].length;
  return { plan: beam.best, nodes: beam.nodes, stretches };
}

/** Source: Erel, Sabuncuoglu & Sekerci 2005, a stochastic beam search for line balancing; this one draws nothing. */
describe("the beams from both ends of a line", () => {
  it("find a plan wherever there is one when they leave nothing out", () => {
    fc.assert(
      fc.property(smallLines(8), counts, (problem, count) => {
        const { times, before } = problem;
        const { limit } = evenest(times, before, count, false);
        const longest = Math.max(1, ...times);
        for (const each of [limit - 1, limit, limit + 3].filter((some) => some >= longest)) {
          const { plan } = search({ times, before, limit: each }, count, 2000);
          expect(plan !== null).toBe(each >= limit);
        }
      }),
      { seed: 7 },
    );
  });

  it("give valid plans of no more stations than asked for, the same every time, by any width and nodes", () => {
    const widths = fc.integer({ min: 1, max: 20 });
    fc.assert(
      fc.property(
        smallLines(20),
        counts,
        widths,
        fc.integer({ min: 0, max: 300 }),
        (line, count, width, nodes) => {
          const work = line.times.reduce((sum, each) => sum + each, 0);
          const limit = Math.max(1, ...line.times, Math.ceil(work / count));
          const problem = { ...line, limit };
          const answer = search(problem, count, width, nodes);
          expect(search(problem, count, width, nodes)).toEqual(answer);
          if (answer.plan === null) return;
          expect(faultsOf(problem, answer.plan as Stations)).toEqual([]);
          expect(answer.plan.length).toBeLessThanOrEqual(count);
        },
      ),
      { seed: 7 },
    );
  });

  it("fill stations of a classic line to within a thousandth of their time", () => {
    // arcus-111: 150,399 of work over 16 stations is 9,400, and 9,412 is the least cycle.
    const problem = toProblem(readClassicLines().get("arcus-111")!, 9416);
    const { plan } = search(problem, 16, 250);
    expect(faultsOf(problem, plan!)).toEqual([]);
    expect(plan!.length).toBeLessThanOrEqual(16);
  });

  it("never make a plan that the search begins with longer", async () => {
    const { times, before } = toProblem(readClassicLines().get("arcus-111")!, 1);
    const solve = (nodes: number, first?: Stations) =>
      leastLimit(times, before, 16, first === undefined ? { nodes } : { nodes, first }, () => null);
    let { stations, limit } = await solve(3000);
    for (const nodes of [20_000, 800_000]) {
      const next = await solve(nodes, stations);
      expect(next.limit).toBeLessThanOrEqual(limit);
      expect(next.bound).toBeLessThanOrEqual(next.limit);
      expect(faultsOf({ times, before, limit: next.limit }, next.stations)).toEqual([]);
      ({ stations, limit } = next);
    }
  });
});
