import { expect, it } from "vitest";
import type { FloorTerms } from "../../tools/floor-line.js";
import { floorLine } from "../../tools/floor-line.js";
import { blockOf, floorProblemOf } from "../../tools/floor-plans.js";

const floor = [{ id: "S1" }, { id: "S2" }, { id: "S3" }, { id: "S4" }];

/** For each task the first and the last position that may hold it, counted from 0. */
function windowsOf(rows: readonly string[], terms: FloorTerms): Record<string, readonly number[]> {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line);
  return Object.fromEntries(
    line.tasks.map(({ id }) => {
      const block = blockOf(line, problem, id);
      return [id, [problem.first[block]!, problem.last[block]!]];
    }),
  );
}

it("carries the first position along the arrows and the last one against them", () => {
  const terms = { floor, tasks: { b: { notBefore: 1 }, c: { notAfter: 2 } } };
  // Four stations on the floor and one behind it for each of three tasks: positions 0 to 6.
  expect(windowsOf(["a 10", "b 10 a", "c 10 b"], terms)).toEqual({ a: [0, 2], b: [1, 2], c: [1, 2] });
});

it("leaves the stations of a wait between two tasks", () => {
  const terms = { floor, tasks: { c: { notAfter: 3 } }, waits: [{ after: "c", on: "b", stations: 2 }] };
  // c at position 3 at the latest, so b two before, and a no later than b.
  expect(windowsOf(["a 10", "b 10 a", "c 10 b"], terms)).toEqual({ a: [0, 1], b: [0, 1], c: [2, 3] });
});

it("holds tasks that share a station to what any of them may do", () => {
  const terms = {
    floor,
    tasks: { a: { stations: [1, 3] }, b: { notAfter: 2 } },
    together: [["a", "b"]],
  };
  expect(windowsOf(["a 10", "b 10", "c 10 a"], terms)).toEqual({ a: [1, 2], b: [1, 2], c: [1, 5] });
});

it("ends at the last position where nothing is said: one behind the floor for each task, and the stations of waits", () => {
  expect(windowsOf(["a 10", "b 10"], { floor })).toEqual({ a: [0, 5], b: [0, 5] });
  const waits = [{ after: "b", on: "a", stations: 3 }];
  // No floor, two tasks and three stations between them: positions 0 to 4.
  expect(windowsOf(["a 10", "b 10 a"], { waits })).toEqual({ a: [0, 1], b: [3, 4] });
});
