import { expect, it } from "vitest";
import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { blocksOf, floorProblemOf, startWalk } from "../../../tools/floor-plans.js";
import { idsOf } from "../../../tools/line-of.js";

/** The loads of the first station at 60 s, or of the second where some tasks are done at the first, as texts, sorted. */
function loadsOf(rows: readonly string[], terms: FloorTerms = {}, done = ""): string[] {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line);
  const placed = blocksOf(line, problem, ...done.split(" ").filter((each) => each !== ""));
  const { loads, instance } = startWalk(problem, placed);
  const nameOf = (task: number) => idsOf(line, problem.members[instance.original[task]!]!).join("+");
  const found: string[] = [];
  while (loads.advance(Number.POSITIVE_INFINITY) === "load")
    found.push([...loads.load.subarray(0, loads.count)].map(nameOf).sort().join(" "));
  return found.sort();
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
  const longer = [{ after: "b", on: "a", stations: 2 }];
  expect(loadsOf(["a 10", "b 10 a", "c 10"], { waits: longer }, "a")).toEqual(["c"]);
});

it("leaves out what other stations could want as well: counted equipment, and skills of few people", () => {
  const press = { tasks: { b: { equipment: ["press"] } }, equipment: { press: 1 } };
  expect(loadsOf(["a 10", "b 10"])).toEqual(["a b"]);
  expect(loadsOf(["a 10", "b 10"], press)).toEqual(["a", "a b"]);
  const brakes = { tasks: { b: { skills: ["brakes"] } }, people: [{ id: "early-1", skills: ["brakes"] }] };
  expect(loadsOf(["a 10", "b 10"], brakes)).toEqual(["a", "a b"]);
});

it("leaves out what would cost a station people or places", () => {
  // With b the crew is two; a two-person load takes whatever else fits.
  expect(loadsOf(["a 10", "b 10"], { tasks: { b: { people: 2 } } })).toEqual(["a", "a b"]);
  // 10 + 60 s need a second place.
  expect(loadsOf(["a 10", "b 60"], { maxPlaces: 2 })).toEqual(["a", "a b", "b"]);
});

it("pauses where its patience ends, and says how far it came", () => {
  const { loads } = startWalk(floorProblemOf(floorLine(["a 10", "b 10", "c 10"])), []);
  expect([loads.advance(2), loads.steps]).toEqual(["pause", 2]);
  expect([loads.advance(10), [...loads.load.subarray(0, loads.count)]]).toEqual(["load", [0, 1, 2]]);
});
