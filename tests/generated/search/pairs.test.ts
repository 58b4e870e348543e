import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Matching } from "../../../src/solve/bounds/matching.js";
import { allWeightings, tightestWeightings } from "../../../src/solve/bounds/weightings.js";
import { layOut } from "../../../src/solve/search/instance.js";
import { Pairs } from "../../../src/solve/search/pairs.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** Graphs of 2 to 9 vertices, and sets of vertices to switch on one after the other. */
const graphs = fc.integer({ min: 2, max: 9 }).chain((size) =>
  fc.record({
    edges: fc.array(
      fc.tuple(fc.nat(size - 1), fc.nat(size - 1)).filter(([one, two]) => one !== two),
      { maxLength: 24 },
    ),
    size: fc.constant(size),
    present: fc.array(fc.nat(2 ** size - 1), { minLength: 1, maxLength: 4 }),
  }),
);

function neighboursOf(size: number, edges: readonly (readonly [number, number])[]): Int32Array[] {
  const sets = Array.from({ length: size }, () => new Set<number>());
  for (const [one, two] of edges) {
    sets[one]!.add(two);
    sets[two]!.add(one);
  }
  return sets.map((set) => Int32Array.from(set));
}

/** Fewest pairs and single vertices, trying every partner of the first vertex left. */
function fewestParts(left: number, neighbours: readonly Int32Array[]): number {
  if (left === 0) return 0;
  const vertex = 31 - Math.clz32(left);
  const rest = left & ~(1 << vertex);
  const partners = Array.from(neighbours[vertex]!).filter((other) => (rest >> other) & 1);
  const tries = partners.map((other) => fewestParts(rest & ~(1 << other), neighbours));
  return 1 + Math.min(fewestParts(rest, neighbours), ...tries);
}

describe("a largest matching (Edmonds 1965)", () => {
  it("is as large as the best of all matchings, from whatever pairs it starts", () => {
    fc.assert(
      fc.property(graphs, ({ size, edges, present }) => {
        const neighbours = neighboursOf(size, edges);
        const matching = new Matching(neighbours);
        for (const set of present) {
          for (let vertex = 0; vertex < size; vertex++) matching.present[vertex] = (set >> vertex) & 1;
          const fewest = fewestParts(set, neighbours);
          expect([matching.coversWith(fewest - 1), matching.coversWith(fewest)]).toEqual([false, true]);
          expect(matching.fewestParts()).toBe(fewest);
        }
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  it("finds its way through an odd cycle", () => {
    // 0 1 2 is a triangle with 3 on vertex 0 and 4 on vertex 1: 0-3 and 1-4 leave only vertex 2 single.
    const neighbours = neighboursOf(5, [
      [0, 1],
      [1, 2],
      [2, 0],
      [0, 3],
      [1, 4],
    ]);
    expect(new Matching(neighbours).fewestParts()).toBe(3);
  });
});

describe("pairs of long tasks", () => {
  it("never need more stations than brute force", () => {
    fc.assert(
      fc.property(smallLines(10), (problem) => {
        const pairs = new Pairs(layOut(problem));
        const least = bruteForce(problem);
        expect(pairs.stations).toBeLessThanOrEqual(least);
        expect(pairs.allow(new Int32Array(1), 0, least)).toBe(true);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("see that no two tasks fit together with what must be worked between them", () => {
    // Limit 10: 4 and 4 would share a station, but the 3 between them does not fit as well.
    const line = { limit: 10, times: [4, 3, 4], before: [[], [0], [1]] };
    expect(new Pairs(layOut(line)).stations).toBe(2);
    expect(new Pairs(layOut({ ...line, before: [[], [], []] })).stations).toBe(1);
  });
});

describe("the weightings chosen for a target", () => {
  it("begin with the work content and rule out whatever all weightings rule out", () => {
    fc.assert(
      fc.property(smallLines(10), fc.integer({ min: 1, max: 10 }), (problem, target) => {
        const all = allWeightings(layOut(problem));
        const chosen = tightestWeightings(all, target);
        const reach = (list: typeof all) => list.every(({ total, capacity }) => total <= target * capacity);
        expect(chosen[0]).toBe(all[0]);
        expect(reach(chosen)).toBe(reach(all));
      }),
      { seed: 7 },
    );
  });
});
