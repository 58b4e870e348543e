import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StationProblem } from "../../../src/solve/problem.js";
import { addTask, hasTask } from "../../../src/solve/search/bit-sets.js";
import { Exchanges } from "../../../src/solve/search/exchanges.js";
import { type Instance, layOut } from "../../../src/solve/search/instance.js";
import { OneMore } from "../../../src/solve/search/one-more.js";
import { StateStore } from "../../../src/solve/search/state-store.js";
import { allSwaps } from "./all-swaps.js";
import { bruteForce } from "./brute-force.js";
import { smallLines } from "./small-lines.js";

/** Every set of tasks that contains all that its tasks wait for. */
function startsOf({ size, before }: Instance): number[][] {
  const all = Array.from({ length: 2 ** size }, (_, set) =>
    [...Array(size).keys()].filter((task) => (set >> task) & 1),
  );
  return all.filter((tasks) => tasks.every((task) => before[task]!.every((each) => tasks.includes(each))));
}

/** The line of the tasks that are left, in numbers of its own. */
function restOf({ times, limit, before }: Instance, placed: readonly number[]): StationProblem {
  const left = [...times.keys()].filter((task) => !placed.includes(task));
  return {
    limit,
    times: left.map((task) => times[task]!),
    before: left.map((task) =>
      Array.from(before[task]!, (each) => left.indexOf(each)).filter((at) => at >= 0),
    ),
  };
}

function remember(instance: Instance, store: StateStore, tasks: readonly number[], stations: number): number {
  const set = new Int32Array(instance.words);
  for (const task of tasks) addTask(set, 0, task);
  const hash = tasks.reduce((sum, task) => sum ^ store.taskHashes[task]!, 0);
  const work = tasks.reduce((sum, task) => sum + instance.times[task]!, 0);
  return store.remember(set, hash, stations, -1, work);
}

function tasksOf({ size, words }: Instance, { sets }: StateStore, state: number): number[] {
  return [...Array(size).keys()].filter((task) => hasTask(sets, state * words, task));
}

/** The pairs of starts where the second has the same tasks with followers placed, or one more. */
function alikePairs(instance: Instance): [number[], number[]][] {
  const starts = startsOf(instance);
  const leaders = (tasks: readonly number[]) => tasks.filter((task) => instance.followerCounts[task]! > 0);
  const isAlike = (one: readonly number[], two: readonly number[]) =>
    leaders(two).filter((task) => !one.includes(task)).length <= 1 &&
    leaders(one).every((task) => two.includes(task));
  return starts.flatMap((one) =>
    starts.filter((two) => isAlike(one, two)).map((two): [number[], number[]] => [one, two]),
  );
}

describe("the rest of a line", () => {
  it("never needs more stations after the partial plan that dominates than after the one dominated", () => {
    let compared = 0;
    fc.assert(
      fc.property(smallLines(7), (problem) => {
        const instance = layOut(problem);
        const needed = new Map(
          startsOf(instance).map((tasks) => [tasks.join(), bruteForce(restOf(instance, tasks))]),
        );
        for (const [better, worse] of alikePairs(instance)) {
          if (needed.get(better.join())! >= needed.get(worse.join())!) continue;
          compared++;
          const store = new StateStore(instance, 10);
          const first = remember(instance, store, worse, 1);
          const second = remember(instance, store, better, 1);
          const other = new StateStore(instance, 10);
          expect([first, second, new OneMore(instance, store).dominates(second)]).toEqual([0, 1, false]);
          expect([remember(instance, other, better, 1), remember(instance, other, worse, 1)][0]).toBe(0);
          expect(other.dropped[0]).toBe(0);
        }
      }),
      { seed: 7, numRuns: 100 },
    );
    expect(compared).toBeGreaterThan(500);
  });

  it("needs as few stations after some partial plan kept, whatever came in whatever order", () => {
    const manyStarts = smallLines(7).chain((problem) => {
      const instance = layOut(problem);
      const starts = startsOf(instance);
      const some = fc.shuffledSubarray(starts, { minLength: 1 });
      return fc.record({ instance: fc.constant(instance), starts: some });
    });
    fc.assert(
      fc.property(manyStarts, ({ instance, starts }) => {
        const store = new StateStore(instance, 1000);
        const states = starts
          .map((tasks) => remember(instance, store, tasks, instance.size))
          .filter((state) => state >= 0);
        const oneMore = new OneMore(instance, store);
        const exchanges = new Exchanges(instance, store, allSwaps(instance));
        const kept = states.filter(
          (state) => store.dropped[state] === 0 && !oneMore.dominates(state) && !exchanges.dominate(state),
        );
        const fewest = (sets: number[][]) =>
          Math.min(...sets.map((set) => bruteForce(restOf(instance, set))));
        expect(fewest(kept.map((state) => tasksOf(instance, store, state)))).toBe(fewest(starts));
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("never needs more stations after a partial plan with a task exchanged than after the one it dominates", () => {
    let dominated = 0;
    fc.assert(
      fc.property(smallLines(7), (problem) => {
        const instance = layOut(problem);
        const swaps = allSwaps(instance);
        const starts = startsOf(instance).map((tasks) => ({
          tasks,
          needed: bruteForce(restOf(instance, tasks)),
        }));
        for (const one of starts) {
          for (const two of starts) {
            if (one.tasks.filter((task) => !two.tasks.includes(task)).length !== 1) continue;
            const store = new StateStore(instance, 10);
            remember(instance, store, one.tasks, instance.size);
            const state = remember(instance, store, two.tasks, instance.size);
            if (state < 0 || !new Exchanges(instance, store, swaps).dominate(state)) continue;
            dominated++;
            expect(one.needed).toBeLessThanOrEqual(two.needed);
          }
        }
      }),
      { seed: 7, numRuns: 200 },
    );
    expect(dominated).toBeGreaterThan(50);
  });
});
