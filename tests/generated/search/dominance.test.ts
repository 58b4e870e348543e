import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem } from "../../../src/solve/problem.js";
import { addTask, hasTask } from "../../../src/solve/search/bit-sets.js";
import { FullLoads } from "../../../src/solve/search/full-loads.js";
import { Hoffmann } from "../../../src/solve/search/hoffmann.js";
import { type Instance, layOut } from "../../../src/solve/search/instance.js";
import { allSwaps } from "./all-swaps.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** The loads that a rule lets through for the station after the `placed` tasks, as sets. */
type Loads = (placed: Int32Array) => Int32Array[];

const NEVER_DUE = 1_000_000;

/** The fewest stations over all plans of such loads: plain recursion with memory. */
function fewestWith(instance: Instance, loadsAfter: Loads): number {
  const known = new Map<string, number>();
  const fewestAfter = (placed: Int32Array): number => {
    const key = placed.join();
    const before = known.get(key);
    if (before !== undefined) return before;
    const fewest = isWhole(instance, placed)
      ? 0
      : Math.min(
          Number.POSITIVE_INFINITY,
          ...loadsAfter(placed).map((load) => 1 + fewestAfter(placed.map((word, at) => word | load[at]!))),
        );
    known.set(key, fewest);
    return fewest;
  };
  return fewestAfter(new Int32Array(instance.words));
}

const isWhole = ({ size }: Instance, placed: Int32Array) =>
  [...Array(size).keys()].every((task) => hasTask(placed, 0, task));

interface Rules {
  /** Asked within the walk, and again of every load. */
  readonly jackson?: boolean;
  readonly leader?: boolean;
}

function loadsOf(instance: Instance, { jackson = false, leader = false }: Rules): Loads {
  const swaps = allSwaps(instance);
  const latest = new Int32Array(instance.size).fill(NEVER_DUE);
  return (placed) => {
    const loads = new FullLoads(instance, latest, jackson ? swaps : null);
    loads.start(placed, 0, 1, instance.limit, leader && leadingTasks(instance, placed) > 0);
    const found: Int32Array[] = [];
    while (loads.advance(Number.POSITIVE_INFINITY) === "load") {
      if (jackson && swaps.dominate(loads)) continue;
      const set = new Int32Array(instance.words);
      for (const task of loads.load.subarray(0, loads.count)) addTask(set, 0, task);
      found.push(set);
    }
    return found;
  };
}

/** Tasks with followers that are not placed. */
function leadingTasks({ size, followerCounts }: Instance, placed: Int32Array): number {
  return [...Array(size).keys()].filter((task) => followerCounts[task]! > 0 && !hasTask(placed, 0, task))
    .length;
}

function expectOptimum(problem: StationProblem, rules: Rules): void {
  const instance = layOut(problem);
  expect(fewestWith(instance, loadsOf(instance, rules))).toBe(bruteForce(problem));
}

describe("some best plan is left", () => {
  it("among the plans of full loads (Jackson 1956)", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, {})),
      { seed: 7 },
    );
  });

  it("without loads that a swap improves (Jackson 1956)", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, { jackson: true })),
      { seed: 7, numRuns: 300 },
    );
  });

  it("without loads that can come last (Scholl & Klein 1997)", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, { leader: true })),
      { seed: 7, numRuns: 300 },
    );
  });

  it("with both rules together", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, { jackson: true, leader: true })),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("a walk that looks for swaps on its way", () => {
  it("leaves out nothing but loads that a swap improves", () => {
    fc.assert(
      fc.property(smallLines(10), (problem) => {
        const instance = layOut(problem);
        const swaps = allSwaps(instance);
        const latest = new Int32Array(instance.size).fill(NEVER_DUE);
        const kept = (loads: FullLoads) => {
          loads.start(new Int32Array(1), 0, 1, instance.limit);
          const found: string[] = [];
          while (loads.advance(Number.POSITIVE_INFINITY) === "load")
            if (!swaps.dominate(loads)) found.push(loads.load.subarray(0, loads.count).toSorted().join());
          return found.sort();
        };
        expect(kept(new FullLoads(instance, latest, swaps))).toEqual(kept(new FullLoads(instance, latest)));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("a first plan (Hoffmann 1963)", () => {
  it("places every task once and needs no fewer stations than the optimum", () => {
    fc.assert(
      fc.property(smallLines(10), fc.constantFrom(0, 0.01, 1), (problem, share) => {
        const instance = layOut(problem);
        const plan = new Hoffmann(instance, 10_000).fill(new Int32Array(1), Number.POSITIVE_INFINITY, share)!;
        // Numbers of the instance ascend along arrows, so a station is in order when sorted.
        expect(plan.flat().sort((one, two) => one - two)).toEqual([...instance.times.keys()]);
        expect(plan.length).toBeGreaterThanOrEqual(bruteForce(problem));
      }),
      { seed: 7 },
    );
  });
});
