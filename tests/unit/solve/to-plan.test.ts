import { expect, it } from "vitest";
import { toPlan } from "../../../src/solve/to-plan.js";
import { ratio } from "../../../src/time/ratio.js";
import { type FloorTerms, floorLine } from "../../tools/floor-line.js";
import { blocksOf, floorProblemOf, rowsOf } from "../../tools/floor-plans.js";
import { paceWith } from "../../tools/floor-random-line.js";

/** The rows of a plan of stations with these positions and tasks, one place each. */
function plan(rows: readonly string[], terms: FloorTerms, at: Record<number, string>, crew = 1) {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line, paceWith(60, 0, ratio(3, 4)));
  const stations = Object.entries(at).map(([position, ids]) => ({
    position: Number(position),
    blocks: blocksOf(line, problem, ...ids.split(" ")),
    places: 1,
    crew,
  }));
  return rowsOf(line, toPlan(line, problem, stations));
}

it("names stations as the floor does, those behind it by number, and leaves empty ones out", () => {
  const floor = [{ id: "front" }, { id: "rear" }];
  expect(plan(["a 5", "b 5", "c 5"], { floor }, { 1: "a", 2: "b", 4: "c" })).toEqual([
    "rear: a",
    "S3: b",
    "S5: c",
  ]);
});

it("lists the tasks of a station in an order of work, blocks and single tasks", () => {
  const rows = ["a 5 z", "b 5", "c 5 a", "z 5"];
  expect(plan(rows, { together: [["a", "b"]] }, { 0: "c a z" })).toEqual(["S1: z b a c"]);
});

it("gives each task its side under the limit of the station, not under the whole working time", () => {
  // 3/4 of 60 s are 45 s: 50 s are too long for one person, though the working time is 60 s.
  const tasks = { a: { side: "left" }, b: { side: "either" } } as const;
  expect(plan(["a 30", "b 20"], { tasks }, { 0: "a b" }, 2)).toEqual(["S1: a/left b/right by 2"]);
  // One task alone may take the whole working time.
  expect(plan(["a 50", "b 0"], { tasks }, { 0: "a b" })).toEqual(["S1: a/left b/left"]);
});
