import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BestFilling } from "../../../src/solve/bounds/best-filling.js";
import { PackingPrices } from "../../../src/solve/bounds/packing-prices.js";
import type { StationProblem } from "../../../src/solve/problem.js";
import { layOut } from "../../../src/solve/search/instance.js";
import { LearnedWeightings } from "../../../src/solve/search/learned-weightings.js";
import { Remainder } from "../../../src/solve/search/remainder.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** Every set of numbers below `size`. */
function setsBelow(size: number): number[][] {
  return Array.from({ length: 2 ** size }, (_, set) =>
    [...Array(size).keys()].filter((at) => (set >> at) & 1),
  );
}

const sumOf = (values: ArrayLike<number>, places: readonly number[]) =>
  places.reduce((sum, at) => sum + values[at]!, 0);

/** The fewest stations for some tasks, without their arrows. */
function fewestFor({ times, limit }: StationProblem, tasks: readonly number[]): number {
  return bruteForce({ limit, times: tasks.map((task) => times[task]!), before: tasks.map(() => []) });
}

/** Some tasks of a small line. */
const parts = smallLines(9).chain((problem) =>
  fc.record({
    problem: fc.constant(problem),
    tasks: fc.subarray([...problem.times.keys()], { minLength: 1 }),
  }),
);

describe("the heaviest filling", () => {
  it("is the heaviest of all sets that fit, and the counts give it", () => {
    const bags = fc.record({
      limit: fc.integer({ min: 1, max: 40 }),
      kinds: fc.uniqueArray(
        fc.record({ time: fc.integer({ min: 1, max: 40 }), copies: fc.integer({ min: 1, max: 4 }) }),
        { selector: ({ time }) => time, minLength: 1, maxLength: 4 },
      ),
      weights: fc.array(fc.nat(20), { minLength: 4, maxLength: 4 }),
    });
    fc.assert(
      fc.property(bags, ({ limit, kinds, weights }) => {
        const fitting = kinds.filter(({ time }) => time <= limit);
        fc.pre(fitting.length > 0);
        const times = Float64Array.from(fitting, ({ time }) => time);
        const filling = new BestFilling(
          times,
          Int32Array.from(fitting, ({ copies }) => copies),
          limit,
        );
        const tasks = fitting.flatMap(({ copies }, kind) => Array(copies).fill(kind)).slice(0, 12);
        const sets = setsBelow(tasks.length).map((set) => set.map((at) => tasks[at]!));
        const most = Math.max(
          ...sets.filter((set) => sumOf(times, set) <= limit).map((set) => sumOf(weights, set)),
        );
        const found = filling.find(Float64Array.from(fitting, (_, kind) => weights[kind]!));
        const { counts } = filling;
        const sum = (values: ArrayLike<number>) =>
          counts.reduce((total, count, kind) => total + count * values[kind]!, 0);
        expect(sum(weights)).toBe(found);
        expect(sum(times)).toBeLessThanOrEqual(limit);
        for (const [kind, { copies }] of fitting.entries()) expect(counts[kind]).toBeLessThanOrEqual(copies);
        if (tasks.length < 12) expect(found).toBe(most);
        else expect(found).toBeGreaterThanOrEqual(most);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("a weighting by prices of the packing programme", () => {
  it("never lets a station hold more than its capacity, and rules out only what brute force rules out", () => {
    let found = 0;
    fc.assert(
      fc.property(parts, ({ problem, tasks }) => {
        const instance = layOut(problem);
        const prices = new PackingPrices(instance);
        const least = fewestFor({ ...problem, times: [...instance.times], limit: instance.limit }, tasks);
        expect(prices.weightingAgainst(tasks, least)).toBeNull();
        for (let stations = 0; stations < least; stations++) {
          const weighting = prices.weightingAgainst(tasks, stations);
          if (weighting === null) continue;
          found++;
          const { weights, capacity, total } = weighting;
          expect(sumOf(weights, tasks)).toBeGreaterThan(stations * capacity);
          expect(total).toBe(sumOf(weights, [...weights.keys()]));
          for (const set of setsBelow(instance.size)) {
            if (sumOf(instance.times, set) > instance.limit) continue;
            expect(sumOf(weights, set)).toBeLessThanOrEqual(capacity);
          }
        }
      }),
      { seed: 7, numRuns: 300 },
    );
    expect(found).toBeGreaterThan(300);
  });

  it("proves as much as the best threshold of Martello & Toth (1990) does", () => {
    fc.assert(
      fc.property(smallLines(9), ({ times, limit }) => {
        const problem = { times, limit, before: times.map(() => []) };
        const instance = layOut(problem);
        const prices = new PackingPrices(instance);
        const packed = bestThreshold([...instance.times], instance.limit);
        if (packed > 0) expect(prices.weightingAgainst(instance.times.keys(), packed - 1)).not.toBeNull();
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("once learned, rules out partial plans only where brute force does", () => {
    fc.assert(
      fc.property(parts, fc.integer({ min: 0, max: 4 }), ({ problem, tasks }, stations) => {
        const instance = layOut({ ...problem, before: problem.times.map(() => []) });
        const learned = new LearnedWeightings(instance);
        const latest = new Int32Array(instance.size).fill(20);
        const weightings = learned.startFrom([
          { weights: instance.times, capacity: instance.limit, total: instance.workContent },
        ]);
        const remainder = new Remainder(instance, weightings, latest, 20);
        const set = Int32Array.of([...instance.times.keys()].reduce((all, task) => all | (1 << task), 0));
        for (const task of tasks) set[0]! &= ~(1 << task);
        remainder.open(set, 0, 0);
        learned.allow(1e9);
        const plain = { ...problem, times: [...instance.times], limit: instance.limit };
        const least = fewestFor(plain, tasks);
        if (!learned.ruleOut(remainder, stations)) return;
        expect(least).toBeGreaterThan(stations);
        expect(remainder.open(set, 0, 20 - stations)).toBeLessThan(0);
        expect(remainder.open(set, 0, 20 - least)).toBeGreaterThanOrEqual(0);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

/** L2 by its formula, over every threshold. */
function bestThreshold(times: readonly number[], limit: number): number {
  const sum = (list: readonly number[]) => list.reduce((total, time) => total + time, 0);
  const over = times.filter((time) => 2 * time > limit);
  const bounds = [...Array(Math.floor(limit / 2) + 1).keys()].map((threshold) => {
    const beside = over.filter((time) => time <= limit - threshold);
    const filling = times.filter((time) => 2 * time <= limit && time >= threshold);
    const more = sum(filling) - (beside.length * limit - sum(beside));
    return over.length + Math.max(0, Math.ceil(more / limit));
  });
  return Math.max(...bounds);
}
