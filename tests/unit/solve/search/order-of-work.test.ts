import { expect, it } from "vitest";
import { allFollowers } from "../../../../src/line/reach.js";
import { orderOfWork, positionalWeights } from "../../../../src/solve/order-of-work.js";
import type { StationProblem } from "../../../../src/solve/problem.js";

const order = (problem: StationProblem, tasks: number[]) =>
  orderOfWork(problem, positionalWeights(problem), tasks);

it("counts every follower of a positional weight once", () => {
  // 0 goes before 1 and 2, both before 3: 1 + 2 + 3 + 4, not 4 twice.
  const diamond = { limit: 20, times: [1, 2, 3, 4], before: [[], [0], [0], [1, 2]] };
  expect([...positionalWeights(diamond)]).toEqual([10, 6, 7, 4]);
});

it("counts every follower of a long line once", () => {
  const size = 700;
  // Arrows to the next number but two, and over seven numbers: 1 -> 4, 1 -> 8, 4 -> 7, ...
  const before = Array.from({ length: size }, (_, at) => [at - 3, at - 7].filter((each) => each >= 0));
  const times = Array.from({ length: size }, (_, at) => 1 + (at % 13));
  const followers = allFollowers(before);
  const weights = times.map((time, task) =>
    followers.list(task).reduce((sum, each) => sum + times[each]!, time),
  );
  expect([...positionalWeights({ limit: 20, times, before })]).toEqual(weights);
});

it("takes the greatest weight, then the longer task, then the smaller number", () => {
  // Weights: 5, 5, 2 + 3 = 5, 3 and 6.
  const problem = { limit: 20, times: [5, 5, 2, 3, 6], before: [[], [], [], [2], []] };
  expect(order(problem, [3, 2, 1, 0, 4])).toEqual([4, 0, 1, 2, 3]);
});

it("keeps a task of no time before its equally heavy follower", () => {
  // Both weigh 4, and the follower is longer.
  expect(order({ limit: 9, times: [4, 0], before: [[1], []] }, [0, 1])).toEqual([1, 0]);
});

it("lets arrows to tasks of other stations count for nothing", () => {
  expect(order({ limit: 9, times: [1, 2, 3], before: [[], [0], [1]] }, [1, 2])).toEqual([1, 2]);
});

it("refuses tasks whose arrows form a loop", () => {
  const loop = { limit: 9, times: [1, 2], before: [[1], [0]] };
  expect(() => order(loop, [0, 1])).toThrow(
    new RangeError("the tasks cannot be put in order: their arrows form a loop"),
  );
});
