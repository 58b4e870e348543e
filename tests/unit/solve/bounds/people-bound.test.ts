import { expect, it } from "vitest";
import { PeopleBound } from "../../../../src/solve/bounds/people-bound.js";
import { ratio } from "../../../../src/time/ratio.js";
import { type FloorTerms, floorLine } from "../../../tools/floor-line.js";
import { blocksOf, floorProblemOf } from "../../../tools/floor-plans.js";
import { paceWith } from "../../../tools/floor-random-line.js";
import { paceOf } from "../../../tools/line-of.js";

function boundOf(rows: readonly string[], terms: FloorTerms = {}, pace = paceOf(60)) {
  const problem = floorProblemOf(floorLine(rows, terms), pace);
  return new PeopleBound(problem).of([...problem.loads.keys()]);
}

it("counts everybody who is busy at a task: 130 s of one person and 40 s of two are 210 s, 3.5 people at 60 s", () => {
  const terms = { tasks: { lift: { people: 2 } } };
  // As stations 170 s are 2.8 of 60 s.
  expect(boundOf(["a 60", "b 60", "c 10", "lift 40"], terms)).toEqual({ people: 4, stations: 3 });
});

it("counts what is more than half a station as a whole one", () => {
  // 3 x 40 = 120 s are 2 stations by work content, but no two of them fit 60 s.
  expect(boundOf(["a 40", "b 40", "c 40"])).toEqual({ people: 3, stations: 3 });
  // 41 s leave no room for 20 s: 1 + 1 + 40/60 of a station.
  expect(boundOf(["a 41", "b 41", "c 20", "d 20"])).toEqual({ people: 3, stations: 3 });
});

it("counts several places by the one that allows a person most", () => {
  // Handling of 10 s is lost once a station: one place has 50 s, two have 110 s, 55 s each. 165 s are 3 people.
  const pace = paceWith(60, 10);
  expect(boundOf(["a 55", "b 55", "c 55"], { maxPlaces: 2 }, pace)).toEqual({ people: 3, stations: 2 });
  // A floor that lets two people do 110 s, with 50 s for the others.
  const floor = [{ id: "S1", maxPlaces: 2 }, { id: "S2" }];
  expect(boundOf(["a 55", "b 55", "c 56"], { floor }, pace)).toEqual({ people: 4, stations: 2 });
});

it("counts two people a station where the product is worked from two sides", () => {
  const tasks = { a: { side: "left" }, b: { side: "right" } } as const;
  // 170 s are 3 people, who need 2 stations.
  expect(boundOf(["a 60", "b 60", "c 50"], { tasks })).toEqual({ people: 3, stations: 2 });
});

it("holds where a task stands alone above the limit: it still is one person", () => {
  // 90 % of 60 s are 54 s; two tasks of 60 s are 120 s, 2.2 times 54 s, and 2 people all the same.
  expect(boundOf(["a 60", "b 60"], {}, paceWith(60, 0, ratio(9, 10)))).toEqual({ people: 2, stations: 2 });
});

it("looks at the blocks that are left only, and takes at least the crew of one of them", () => {
  const line = floorLine(["a 50", "lift 5"], { tasks: { lift: { people: 3 } } });
  const problem = floorProblemOf(line);
  const bound = new PeopleBound(problem);
  expect(bound.of(blocksOf(line, problem, "a"))).toEqual({ people: 1, stations: 1 });
  expect(bound.of(blocksOf(line, problem, "lift"))).toEqual({ people: 3, stations: 1 });
  expect(bound.of([])).toEqual({ people: 0, stations: 0 });
});
