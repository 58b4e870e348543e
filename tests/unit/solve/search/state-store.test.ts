import { describe, expect, it } from "vitest";
import type { StationProblem } from "../../../../src/solve/problem.js";
import { layOut } from "../../../../src/solve/search/instance.js";
import { OneMore } from "../../../../src/solve/search/one-more.js";
import { StateStore } from "../../../../src/solve/search/state-store.js";
import { taskHashes } from "../../../../src/solve/search/task-hashes.js";

/**
 * A memory of one line, with sets given as task numbers of the problem. `work` is the time of the tasks, so that a set
 * is remembered as the search would do it.
 */
function memoryOf(problem: StationProblem, most = 100) {
  const instance = layOut(problem);
  const store = new StateStore(instance, most);
  const remember = (tasks: readonly number[], stations: number, parent = -1): number => {
    const set = new Int32Array(instance.words);
    let [hash, work] = [0, 0];
    for (const task of tasks) {
      const number = instance.original.indexOf(task);
      set[number >>> 5]! |= 1 << (number & 31);
      hash ^= store.taskHashes[number]!;
      work += instance.times[number]!;
    }
    return store.remember(set, hash, stations, parent, work);
  };
  return { store, remember, oneMore: new OneMore(instance, store) };
}

/** 0 (3) before 3 (1), 1 (3) before 3; leaves 2 (5), 4 (5), 5 (4) can start at once. */
const LINE: StationProblem = {
  limit: 10,
  times: [3, 3, 5, 1, 5, 4],
  before: [[], [], [], [0, 1], [], []],
};

describe("remembered sets of tasks", () => {
  it("come back only with fewer stations, and the one before is dropped", () => {
    const { store, remember } = memoryOf(LINE);
    const first = remember([0, 1], 3);
    expect([remember([0, 1], 3), remember([0, 1], 4)]).toEqual([-1, -1]);
    const second = remember([0, 1], 2, first);
    expect([store.stations[second], store.parents[second]]).toEqual([2, first]);
    expect([store.dropped[first], store.dropped[second]]).toEqual([1, 0]);
  });

  it("with another leaf as long in place of one are the same", () => {
    const { remember } = memoryOf(LINE);
    expect(remember([0, 2], 1)).toBe(0);
    expect(remember([0, 4], 1)).toBe(-1);
  });

  it("with a longer leaf or one leaf more replace those before, and refuse those after", () => {
    const { store, remember } = memoryOf(LINE);
    const shorter = remember([0, 5], 1);
    const longer = remember([0, 2], 1);
    expect([store.dropped[shorter], store.dropped[longer]]).toEqual([1, 0]);
    expect(remember([0, 5], 1)).toBe(-1);
    const both = remember([0, 2, 4], 1);
    expect([store.dropped[longer], store.dropped[both]]).toEqual([1, 0]);
  });

  it("are kept beside each other when either has the longer leaf left or other tasks placed", () => {
    const { store, remember } = memoryOf(LINE);
    // 5 + 4 left against 5 left: the longer leaf alone is worth no two.
    const states = [remember([0, 1], 1), remember([0, 1, 2, 4], 2), remember([0, 2], 1), remember([1, 2], 1)];
    expect(states).toEqual([0, 1, 2, 3]);
    expect(Array.from(store.dropped.subarray(0, 4))).toEqual([0, 0, 0, 0]);
  });

  it("are dominated by one with one more task that has followers, whose place is free for a leaf", () => {
    const { remember, oneMore } = memoryOf({ ...LINE, times: [3, 5, 5, 1, 5, 4] });
    const [few, leaf] = [remember([0], 1), remember([0, 2], 1)];
    expect([oneMore.dominates(few), oneMore.dominates(leaf)]).toEqual([false, false]);
    // Task 1 takes as long as leaf 2, which can stand where task 1 would have stood.
    const more = remember([0, 1], 1);
    expect([few, leaf, more].map((state) => oneMore.dominates(state))).toEqual([true, true, false]);
  });

  it("are not dominated by one with one more task in more stations, or a task shorter than the leaf", () => {
    const { remember, oneMore } = memoryOf(LINE);
    const [few, leaf] = [remember([0], 1), remember([0, 2], 2)];
    // Task 1 takes 3, less than the leaf of 5.
    remember([0, 1], 2);
    // More work than 0 and 2, but two leaves of 5 left: the place of task 1 is too short for one of them.
    remember([0, 1, 5], 2);
    expect([oneMore.dominates(few), oneMore.dominates(leaf)]).toEqual([false, false]);
  });

  it("are found again after the store has grown many times", () => {
    // Fifteen tasks before one more: every choice of them is a set of its own.
    const size = 15;
    const before = [...Array.from({ length: size }, () => []), [...Array(size).keys()]];
    const { store, remember } = memoryOf({ limit: 99, times: before.map(() => 1), before }, 100_000);
    const sets = Array.from({ length: 2 ** size }, (_, set) =>
      [...Array(size).keys()].filter((task) => (set >> task) & 1),
    );
    expect(sets.every((tasks, at) => remember(tasks, 1) === at)).toBe(true);
    expect(sets.every((tasks) => remember(tasks, 1) === -1)).toBe(true);
    expect([store.count, store.full]).toEqual([2 ** size, false]);
  });

  it("fill the store at the number given", () => {
    const { store, remember } = memoryOf(LINE, 2);
    remember([0], 1);
    expect(store.full).toBe(false);
    remember([1], 1);
    expect(store.full).toBe(true);
  });

  it("get hashes that are the same every time and differ between tasks", () => {
    expect(taskHashes(1000)).toEqual(taskHashes(1000));
    expect(new Set(taskHashes(1000)).size).toBe(1000);
  });
});
