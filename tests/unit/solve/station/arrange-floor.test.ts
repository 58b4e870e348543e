import { expect, it } from "vitest";
import { arrangeBlocks, positionsOf } from "../../../../src/solve/station/arrange-blocks.js";
import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { blockOf, floorProblemOf, rowsOfFloor } from "../../../tools/floor-plans.js";

/** The plan of tasks at positions such as {a: 0, b: 2}. */
function arrange(rows: readonly string[], at: Record<string, number>, terms: FloorTerms = {}) {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line);
  const positionOf: number[] = [];
  for (const [id, position] of Object.entries(at)) positionOf[blockOf(line, problem, id)] = position;
  const plan = arrangeBlocks(problem, positionOf);
  if (plan !== null) expect(positionsOf(problem, plan)).toEqual(positionOf);
  return rowsOfFloor(line, problem, plan);
}

it("staffs each station with as few places and people as it needs", () => {
  const terms = { maxPlaces: 2, tasks: { c: { people: 2 } } };
  expect(arrange(["a 40", "b 40", "c 30"], { a: 0, b: 0, c: 1 }, terms)).toEqual([
    "S1 x2: a b",
    "S2: c by 2",
  ]);
});

it("keeps positions that stay empty", () => {
  const floor = [{ id: "front" }, { id: "middle" }, { id: "rear" }];
  expect(arrange(["a 40", "b 40"], { a: 0, b: 2 }, { floor })).toEqual(["front: a", "rear: b"]);
});

it("takes the places that need the fewest people", () => {
  // 3 x 60 s by one person at each of three places, not by two at each of two.
  const terms = { maxPlaces: 3, tasks: { a: { side: "either" } } } as const;
  expect(arrange(["a 60", "b 60", "c 60"], { a: 0, b: 0, c: 0 }, terms)).toEqual([
    "S1 x3: a/left b/left c/left",
  ]);
});

it("refuses what breaks a rule", () => {
  const rows = ["a 40", "b 10 a"];
  expect(arrange(rows, { a: 0, b: 0 })).toEqual(["S1: a b"]);
  expect(arrange(rows, { a: 1, b: 0 })).toBeNull();
  expect(arrange(["a 40", "b 30"], { a: 0, b: 0 })).toBeNull();
  expect(arrange(rows, { a: 0, b: 0 }, { apart: [["a", "b"]] })).toBeNull();
  const waits = [{ after: "b", on: "a", stations: 2 }];
  expect(arrange(rows, { a: 0, b: 1 }, { waits })).toBeNull();
  expect(arrange(rows, { a: 0, b: 2 }, { waits })).toEqual(["S1: a", "S3: b"]);
});

it("refuses more of counted equipment, and more people with a skill, than there are", () => {
  const press = { tasks: { a: { equipment: ["press"] }, b: { equipment: ["press"] } } };
  const rows = ["a 40", "b 10"];
  expect(arrange(rows, { a: 0, b: 1 }, { ...press, equipment: { press: 1 } })).toBeNull();
  expect(arrange(rows, { a: 0, b: 0 }, { ...press, equipment: { press: 1 } })).toEqual(["S1: a b"]);
  const brakes = { tasks: { a: { skills: ["brakes"] }, b: { skills: ["brakes"] } } };
  const people = [{ id: "early-1", skills: ["brakes"] }];
  expect(arrange(rows, { a: 0, b: 1 }, { ...brakes, people })).toBeNull();
  expect(arrange(rows, { a: 0, b: 0 }, { ...brakes, people })).toEqual(["S1: a b"]);
});
