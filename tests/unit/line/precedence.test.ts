import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findLoops } from "../../../src/line/loops.js";
import {
  columns,
  directFollowers,
  endTasks,
  isLoopFree,
  startTasks,
  topologicalOrder,
} from "../../../src/line/precedence.js";
import { allFollowers, allPredecessors } from "../../../src/line/reach.js";
import { impliedArrows } from "../../../src/line/reduced-order.js";

const SEED = 11;

/** F 0, I 1, K 2, L 3: I after F; K after I and F; L after K. */
const WITH_IMPLIED: number[][] = [[], [0], [0, 1], [2]];

/** Any arrows, loops among them. */
const anyArrows = fc.integer({ min: 1, max: 9 }).chain((size) =>
  fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 20 }).map((pairs) => {
    const before: Set<number>[] = Array.from({ length: size }, () => new Set());
    for (const [from, to] of pairs) if (from !== to) before[to]!.add(from);
    return before.map((set) => [...set].sort((one, two) => one - two));
  }),
);

/** Arrows that only run from smaller to larger numbers, then renumbered so that numbers say nothing. */
const loopFree = anyArrows.chain((before) =>
  fc.shuffledSubarray([...before.keys()], { minLength: before.length }).map((renamed) => {
    const forward = before.map((earlier, task) => earlier.filter((each) => each < task));
    const result: number[][] = forward.map(() => []);
    for (const [task, earlier] of forward.entries()) {
      result[renamed[task]!] = earlier.map((each) => renamed[each]!).sort((one, two) => one - two);
    }
    return result;
  }),
);

/** Predecessors by plain repetition: another way to the same answer. */
function predecessorsByRepetition(before: number[][]): number[][] {
  const sets = before.map((earlier) => new Set(earlier));
  for (let round = 0; round < before.length; round++) {
    for (const set of sets) for (const each of [...set]) for (const far of sets[each]!) set.add(far);
  }
  return sets.map((set) => [...set].sort((one, two) => one - two));
}

describe("The order of work of a small line", () => {
  test("gives followers, ends, columns and the arrow that two others imply", () => {
    expect(directFollowers(WITH_IMPLIED)).toEqual([[1, 2], [2], [3], []]);
    expect(startTasks(WITH_IMPLIED)).toEqual([0]);
    expect(endTasks(WITH_IMPLIED)).toEqual([3]);
    expect(columns(WITH_IMPLIED)).toEqual([1, 2, 3, 4]);
    expect(topologicalOrder(WITH_IMPLIED)).toEqual([0, 1, 2, 3]);
    expect(allFollowers(WITH_IMPLIED).list(0)).toEqual([1, 2, 3]);
    expect(impliedArrows(WITH_IMPLIED)).toEqual([[0, 1, 2]]);
  });

  test("names starts and ends, so that arrows read the wrong way round are seen", () => {
    // a 0 -> b 1 -> c 2 -> f 5 -> g 6, d 3 -> e 4 -> g 6
    const before = [[], [0], [1], [], [3], [2], [4, 5]];
    expect([startTasks(before), endTasks(before)]).toEqual([[0, 3], [6]]);
    expect(columns(before)).toEqual([1, 2, 3, 1, 2, 4, 5]);
  });
});

describe("For any loop-free order of work", () => {
  test("the order of work puts every task after its predecessors", () => {
    fc.assert(
      fc.property(loopFree, (before) => {
        const order = topologicalOrder(before);
        expect(order.toSorted((one, two) => one - two)).toEqual([...before.keys()]);
        for (const [task, earlier] of before.entries()) {
          for (const each of earlier) expect(order.indexOf(each)).toBeLessThan(order.indexOf(task));
        }
      }),
      { seed: SEED },
    );
  });

  test("all predecessors are those of plain repetition, and all followers are the same turned round", () => {
    fc.assert(
      fc.property(loopFree, (before) => {
        const expected = predecessorsByRepetition(before);
        const [predecessors, followers] = [allPredecessors(before), allFollowers(before)];
        for (const task of before.keys()) {
          expect(predecessors.list(task)).toEqual(expected[task]);
          for (const other of before.keys()) {
            expect(followers.has(other, task)).toBe(expected[task]!.includes(other));
          }
        }
      }),
      { seed: SEED },
    );
  });

  test("taking out every implied arrow changes no predecessor, and every other arrow is needed", () => {
    fc.assert(
      fc.property(loopFree, (before) => {
        const implied = impliedArrows(before);
        const isImplied = (from: number, to: number) =>
          implied.some((way) => way[0] === from && way.at(-1) === to);
        const needed = before.map((earlier, task) => earlier.filter((each) => !isImplied(each, task)));
        expect(predecessorsByRepetition(needed)).toEqual(predecessorsByRepetition(before));
        for (const [task, earlier] of needed.entries()) {
          for (const each of earlier) {
            const without = needed.with(
              task,
              earlier.filter((other) => other !== each),
            );
            expect(predecessorsByRepetition(without)).not.toEqual(predecessorsByRepetition(before));
          }
        }
        for (const way of implied) {
          expect(way.length).toBeGreaterThan(2);
          for (const [at, task] of way.slice(1).entries()) expect(before[task]).toContain(way[at]);
        }
      }),
      { seed: SEED },
    );
  });
});

describe("Loops", () => {
  test("are found one for each knot, shortest first arrow to last, from the smallest number", () => {
    // hub 0 -> rim 1 -> spokes 2 -> hub; 3 hangs behind; 4 <-> 5 is a knot of its own
    expect(findLoops([[2], [0], [1], [1], [5], [4]])).toEqual([
      [0, 1, 2],
      [4, 5],
    ]);
  });

  test("are told by the shortest one inside a larger knot", () => {
    // 0 -> 1 -> 2 -> 3 -> 0 and 3 -> 2
    expect(findLoops([[3], [0], [1, 3], [2]])).toEqual([[2, 3]]);
  });

  test("are real, start at their smallest number, and are missing exactly where the order is loop-free", () => {
    fc.assert(
      fc.property(anyArrows, (before) => {
        const loops = findLoops(before);
        expect(loops.length === 0).toBe(isLoopFree(before));
        for (const loop of loops) {
          expect(loop[0]).toBe(Math.min(...loop));
          for (const [at, task] of loop.entries()) {
            expect(before[loop[(at + 1) % loop.length]!]).toContain(task);
          }
        }
        expect(new Set(loops.flat()).size).toBe(loops.flat().length);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  test("of ten thousand tasks do not overflow the stack", () => {
    const size = 10_000;
    const ring = Array.from({ length: size }, (_, task) => [(task + size - 1) % size]);
    expect(findLoops(ring)[0]).toHaveLength(size);
    expect(topologicalOrder(ring.with(0, []))).toHaveLength(size);
  });
});
