import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { staticBounds } from "../../../src/solve/bounds/bound.js";
import { stationsAfterEach } from "../../../src/solve/bounds/tails.js";
import { thresholdBound } from "../../../src/solve/bounds/threshold.js";
import { allWeightings } from "../../../src/solve/bounds/weightings.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { hasTask } from "../../../src/solve/search/bit-sets.js";
import { FullLoads } from "../../../src/solve/search/full-loads.js";
import { type Instance, layOut } from "../../../src/solve/search/instance.js";
import { Remainder } from "../../../src/solve/search/remainder.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** The line of a task and its followers alone, in the numbers of an instance. */
function tailOf(instance: Instance, task: number): StationProblem {
  const tasks = [...Array(instance.size).keys()].filter(
    (other) => other === task || hasTask(instance.followers, task * instance.words, other),
  );
  return {
    limit: instance.limit,
    times: tasks.map((other) => instance.times[other]!),
    before: tasks.map((other) =>
      Array.from(instance.before[other]!, (each) => tasks.indexOf(each)).filter((at) => at >= 0),
    ),
  };
}

describe("a bound never exceeds brute force", () => {
  it("whichever it is", () => {
    fc.assert(
      fc.property(smallLines(10), (problem) => {
        const least = bruteForce(problem);
        for (const bound of staticBounds(problem)) expect(bound.stations).toBeLessThanOrEqual(least);
      }),
      { seed: 7, numRuns: 400 },
    );
  });

  it("over the thresholds, and no threshold gives more by the formula of Martello & Toth (1990)", () => {
    const packing = (times: readonly number[], limit: number, threshold: number) => {
      const alone = times.filter((time) => time > limit - threshold);
      const over = times.filter((time) => time <= limit - threshold && 2 * time > limit);
      const filling = times.filter((time) => 2 * time <= limit && time >= threshold);
      const sum = (list: number[]) => list.reduce((total, time) => total + time, 0);
      const more = Math.ceil((sum(filling) - (over.length * limit - sum(over))) / limit);
      return alone.length + over.length + Math.max(0, more);
    };
    fc.assert(
      fc.property(smallLines(12), ({ times, limit }) => {
        const thresholds = [...Array(Math.floor(limit / 2) + 1).keys()];
        const best = Math.max(...thresholds.map((threshold) => packing(times, limit, threshold)));
        const sorted = [...times].sort((one, two) => two - one);
        expect(thresholdBound(sorted, sorted.length, limit).stations).toBe(best);
      }),
      { seed: 7 },
    );
  });

  it("on the stations after a task's own", () => {
    fc.assert(
      fc.property(smallLines(10), (problem) => {
        const instance = layOut(problem);
        for (const [task, stations] of stationsAfterEach(instance).entries()) {
          expect(stations).toBeLessThanOrEqual(bruteForce(tailOf(instance, task)) - 1);
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe("a weighting", () => {
  it("never gives tasks that fit a station together more than the capacity", () => {
    fc.assert(
      fc.property(smallLines(10), fc.nat(1023), (problem, chosen) => {
        const instance = layOut(problem);
        const tasks = [...Array(instance.size).keys()].filter((task) => (chosen >> task) & 1);
        const sum = (list: Float64Array) => tasks.reduce((total, task) => total + list[task]!, 0);
        fc.pre(sum(instance.times) <= instance.limit);
        for (const { weights, capacity } of allWeightings(instance)) {
          expect(sum(weights)).toBeLessThanOrEqual(capacity);
        }
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

describe("what a partial plan has left", () => {
  it("lets through a load that begins a best plan, and says the target is in reach", () => {
    fc.assert(
      fc.property(smallLines(9), (problem) => {
        const instance = layOut(problem);
        const target = bruteForce(problem);
        const latest = stationsAfterEach(instance).map((after) => target - after);
        const remainder = new Remainder(instance, allWeightings(instance), latest, target);
        const mostRoom = remainder.open(new Int32Array(1), 0, 0);
        expect(mostRoom).toBeGreaterThanOrEqual(0);
        const loads = new FullLoads(instance, latest);
        loads.start(new Int32Array(1), 0, 1, mostRoom);
        let begins = false;
        while (loads.advance(Number.POSITIVE_INFINITY) === "load") {
          if (remainder.allows(loads)) begins ||= bruteForce(without(problem, instance, loads)) <= target - 1;
        }
        expect(begins || target === 1).toBe(true);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

/** The line without the tasks of a load. */
function without(problem: StationProblem, instance: Instance, loads: FullLoads): StationProblem {
  const placed = new Set(Array.from(loads.load.subarray(0, loads.count), (task) => instance.original[task]!));
  const tasks = [...problem.times.keys()].filter((task) => !placed.has(task));
  return {
    limit: problem.limit,
    times: tasks.map((task) => problem.times[task]!),
    before: tasks.map((task) =>
      problem.before[task]!.map((each) => tasks.indexOf(each)).filter((at) => at >= 0),
    ),
  };
}
