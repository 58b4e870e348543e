import { expect, it } from "vitest";
import { FloorLoads } from "../../../../src/solve/floor/floor-loads.js";
import { OpenStation } from "../../../../src/solve/station/open-station.js";
import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { blocksOf, floorProblemOf } from "../../../tools/floor-plans.js";
import { idsOf } from "../../../tools/line-of.js";

/** The loads of a station at 60 s behind the tasks that are done, as texts in the order found; `late` must wait. */
function loadsOf(rows: readonly string[], terms: FloorTerms = {}, done = "", late = "") {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line);
  const placed = blocksOf(line, problem, ...done.split(" ").filter((each) => each !== ""));
  const nameOf = (block: number) => idsOf(line, problem.members[block]!).join("+");
  const loads = new FloorLoads(problem, new OpenStation(problem), [...problem.loads.keys()]);
  const equipment = problem.equipment.map(() => 0);
  // Behind what is done there is at least one station.
  loads.start(
    placed.length > 0 ? 1 : 0,
    equipment,
    (block) => placed.includes(block),
    (block) => nameOf(block) !== late,
  );
  const found: string[] = [];
  while (loads.advance(Number.POSITIVE_INFINITY) === "load") found.push(loads.load.map(nameOf).join(" "));
  return found;
}

it("finds each set that leaves no room for a further task, once", () => {
  // 30 + 20 + 10 fill 60 s; 30 + 25 leave 5 s, and 20 + 10 + 25 as well.
  expect(loadsOf(["a 30", "b 20", "c 10", "d 25"])).toEqual(["a b c", "a d", "b c d"]);
});

it("goes along the arrows, and on from what is done", () => {
  const rows = ["a 30", "b 30 a", "c 40", "d 10 b"];
  // a first or c first; c leaves 20 s, and d waits for b.
  expect(loadsOf(rows)).toEqual(["a b", "c"]);
  expect(loadsOf(rows, {}, "a")).toEqual(["b d", "c"]);
  expect(loadsOf(rows, {}, "a b")).toEqual(["c d"]);
  expect(loadsOf(rows, {}, "a b c d")).toEqual([]);
});

it("takes tasks that share a station at once or not at all", () => {
  expect(loadsOf(["a 30", "b 20", "c 20", "d 40"], { together: [["a", "b"]] })).toEqual(["a+b", "c d"]);
});

it("lets nothing start at the station of what it waits for, or before that is far enough behind", () => {
  const waits = [{ after: "b", on: "a" }];
  expect(loadsOf(["a 10", "b 10 a", "c 10"], { waits })).toEqual(["a c"]);
  expect(loadsOf(["a 10", "b 10 a", "c 10"], { waits }, "a")).toEqual(["b c"]);
  expect(loadsOf(["a 10", "b 10 a", "c 10"], { waits }, "a", "b")).toEqual(["c"]);
});

it("leaves out what other stations could want as well: counted equipment, and skills of few people", () => {
  const press = { tasks: { b: { equipment: ["press"] } }, equipment: { press: 1 } };
  expect(loadsOf(["a 10", "b 10"])).toEqual(["a b"]);
  expect(loadsOf(["a 10", "b 10"], press)).toEqual(["a b", "a"]);
  const brakes = { tasks: { b: { skills: ["brakes"] } }, people: [{ id: "early-1", skills: ["brakes"] }] };
  expect(loadsOf(["a 10", "b 10"], brakes)).toEqual(["a b", "a"]);
});

it("leaves out what would cost a station people or places", () => {
  // With b the crew is two; a two-person load takes whatever else fits.
  expect(loadsOf(["a 10", "b 10"], { tasks: { b: { people: 2 } } })).toEqual(["a b", "a"]);
  // 10 + 60 s need a second place.
  expect(loadsOf(["a 10", "b 60"], { maxPlaces: 2 })).toEqual(["a b", "a", "b"]);
});

it("pauses where its patience ends, and says how far it came", () => {
  const line = floorLine(["a 10", "b 10", "c 10"]);
  const problem = floorProblemOf(line);
  const loads = new FloorLoads(problem, new OpenStation(problem), [0, 1, 2]);
  loads.start(
    0,
    [],
    () => false,
    () => true,
  );
  expect([loads.advance(2), loads.steps]).toEqual(["pause", 2]);
  expect([loads.advance(10), loads.load]).toEqual(["load", [0, 1, 2]]);
});
