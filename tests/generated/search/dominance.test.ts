import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem } from "../../../src/solve/problem.js";
import { addTask } from "../../../src/solve/search/bit-sets.js";
import { canComeLast } from "../../../src/solve/search/come-last.js";
import { FullLoads } from "../../../src/solve/search/full-loads.js";
import { Hoffmann } from "../../../src/solve/search/hoffmann.js";
import { type Instance, layOut } from "../../../src/solve/search/instance.js";
import { Swaps } from "../../../src/solve/search/swaps.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** Whether the loads walked to a station after `placed` tasks may leave the current load out. */
type LeavesOut = (loads: FullLoads, placed: Int32Array) => boolean;

const NEVER_DUE = 1_000_000;

/** The fewest stations over all plans of full loads that the rule lets through: plain recursion with memory. */
function fewestWith(instance: Instance, leavesOut: LeavesOut): number {
  const known = new Map<string, number>();
  const fewestAfter = (placed: Int32Array): number => {
    const key = placed.join();
    const before = known.get(key);
    if (before !== undefined) return before;
    const loads = new FullLoads(instance, new Int32Array(instance.size).fill(NEVER_DUE));
    loads.start(placed, 0, 1, instance.limit);
    let fewest = loads.readyCount === 0 ? 0 : Number.POSITIVE_INFINITY;
    while (loads.advance(Number.POSITIVE_INFINITY) === "load") {
      const loadSet = new Int32Array(instance.words);
      for (const task of loads.load.subarray(0, loads.count)) addTask(loadSet, 0, task);
      if (leavesOut(loads, placed)) continue;
      fewest = Math.min(fewest, 1 + fewestAfter(placed.map((word, at) => word | loadSet[at]!)));
    }
    known.set(key, fewest);
    return fewest;
  };
  return fewestAfter(new Int32Array(instance.words));
}

/** Tasks with followers that are not placed. */
function leadingTasks({ size, followerCounts }: Instance, placed: Int32Array): number {
  return [...Array(size).keys()].filter(
    (task) => followerCounts[task]! > 0 && ((placed[task >>> 5]! >>> (task & 31)) & 1) === 0,
  ).length;
}

function expectOptimum(problem: StationProblem, rule: (instance: Instance) => LeavesOut): void {
  const instance = layOut(problem);
  expect(fewestWith(instance, rule(instance))).toBe(bruteForce(problem));
}

const jackson = (instance: Instance): LeavesOut => {
  const swaps = new Swaps(instance);
  return (loads) => swaps.dominate(loads);
};

const comesLast =
  (instance: Instance): LeavesOut =>
  (loads, placed) =>
    canComeLast(loads, instance, leadingTasks(instance, placed));

describe("some best plan is left", () => {
  it("among the plans of full loads (Jackson 1956)", () => {
    fc.assert(fc.property(smallLines(9), (problem) => expectOptimum(problem, () => () => false)));
  });

  it("without loads that a swap improves (Jackson 1956)", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, jackson)),
      { numRuns: 300 },
    );
  });

  it("without loads that can come last (Scholl & Klein 1997)", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, comesLast)),
      { numRuns: 300 },
    );
  });

  it("with both rules together", () => {
    const both = (instance: Instance): LeavesOut => {
      const [one, two] = [jackson(instance), comesLast(instance)];
      return (...walk) => one(...walk) || two(...walk);
    };
    fc.assert(
      fc.property(smallLines(9), (problem) => expectOptimum(problem, both)),
      { numRuns: 300 },
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
    );
  });
});
