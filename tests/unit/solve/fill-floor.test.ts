import { expect, it } from "vitest";
import { type FillingStep, fillStations } from "../../../src/solve/fill-stations.js";
import { type FloorTerms, floorLine } from "../../tools/floor-line.js";
import { floorProblemOf, rowsOfFloor } from "../../tools/floor-plans.js";
import { numbersOf } from "../../tools/line-of.js";

/** Stations of 60 s filled by a ranking, the first name first. */
function fill(rows: readonly string[], ranking: string, terms: FloorTerms = {}) {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line);
  const steps: FillingStep[] = [];
  const plan = fillStations(problem, numbersOf(line, ...ranking.split(" ")), (step) => steps.push(step));
  return { rows: rowsOfFloor(line, problem, plan), steps };
}

it("takes the first of the ranking that can start and fits", () => {
  // a 30, then c 25; b 20 no longer fits 60 s.
  expect(fill(["a 30", "b 20", "c 25"], "a c b").rows).toEqual(["S1: a c", "S2: b"]);
});

it("ranks tasks that share a station as the first of them", () => {
  const together = [["b", "c"]];
  expect(fill(["a 30", "b 20", "c 25"], "c a b", { together }).rows).toEqual(["S1: b c", "S2: a"]);
});

it("takes first what must stand no later than here", () => {
  const terms = { floor: [{ id: "S1" }, { id: "S2" }], tasks: { c: { notAfter: 0 } } };
  expect(fill(["a 30", "b 20", "c 40"], "a b c", terms).rows).toEqual(["S1: b c", "S2: a"]);
});

it("gives a station several places for its first task only", () => {
  // a takes two places, up to 120 s; b alone would fit one place, and c is not a reason for a second.
  expect(fill(["a 90", "b 30", "c 50"], "a b c", { maxPlaces: 2 }).rows).toEqual(["S1 x2: a b", "S2: c"]);
  expect(fill(["a 40", "b 30", "c 50"], "a b c", { maxPlaces: 2 }).rows).toEqual(["S1: a", "S2: b", "S3: c"]);
});

it("opens a further place for a task that can stand nowhere later", () => {
  // S2 holds a and b, 70 s in all, at two places; by the ranking alone b would find one place with 20 s left.
  const floor = [{ id: "S1" }, { id: "S2", maxPlaces: 2 }];
  const tasks = { a: { stations: [1] }, b: { stations: [1] } };
  expect(fill(["a 40", "b 30", "c 50"], "a b c", { floor, tasks }).rows).toEqual(["S1: c", "S2 x2: a b"]);
});

it("puts what its followers need in time before the ranking, where the ranking alone runs into a rule", () => {
  // d must stand at S2, so a, b and c (30 s each) must end before 30 s of S2 are left: two of them at S1, none of e.
  const terms = { floor: [{ id: "S1" }, { id: "S2" }], tasks: { d: { stations: [1] } } };
  expect(fill(["a 30", "b 30 a", "c 30 b", "d 30 c", "e 20"], "e a b c d", terms).rows).toEqual([
    "S1: a b",
    "S2: c d",
    "S3: e",
  ]);
});

it("leaves stations empty that nothing may stand at yet", () => {
  const floor = [{ id: "S1" }, { id: "S2" }, { id: "S3" }];
  expect(fill(["a 30"], "a", { floor, tasks: { a: { notBefore: 2 } } }).rows).toEqual(["S3: a"]);
  const waits = [{ after: "b", on: "a", stations: 3 }];
  expect(fill(["a 30", "b 30 a"], "a b", { waits }).rows).toEqual(["S1: a", "S4: b"]);
});

it("gives no plan where the ranking runs into a rule, though there is one", () => {
  // b beside a takes the one press at S1, and c finds none at S2; c beside a takes it from b.
  const terms = {
    tasks: { b: { equipment: ["press"] }, c: { equipment: ["press"] } },
    equipment: { press: 1 },
  };
  const rows = ["a 20", "b 30", "c 30 a", "d 20 a"];
  expect(fill(rows, "b a d c", terms).rows).toBeNull();
  expect(fill(rows, "c a b d", terms).rows).toBeNull();
  expect(fill(rows, "a d b c", terms).rows).toEqual(["S1: a d", "S2: b c"]);
});

it("gives no plan where too few people have the skills of its stations", () => {
  const terms = {
    tasks: { a: { skills: ["brakes"] }, b: { skills: ["brakes"] } },
    people: [{ id: "early-1", skills: ["brakes"] }],
  };
  expect(fill(["a 40", "b 40"], "a b", terms).rows).toBeNull();
  expect(fill(["a 30", "b 30"], "a b", terms).rows).toEqual(["S1: a b"]);
});

it("tells every step: what is placed, what was passed over, and what is free", () => {
  // Times of steps are in parts of a microsecond; one part is a microsecond here.
  const second = 1_000_000;
  expect(fill(["a 50", "b 20", "c 10"], "a b c").steps).toEqual([
    {
      step: "place",
      station: 0,
      task: 0,
      freeBefore: 60 * second,
      freeAfter: 10 * second,
      passedOver: [],
    },
    {
      step: "place",
      station: 0,
      task: 2,
      freeBefore: 10 * second,
      freeAfter: 0,
      passedOver: [1],
    },
    { step: "close", station: 0, free: 0, left: [1] },
    {
      step: "place",
      station: 1,
      task: 1,
      freeBefore: 60 * second,
      freeAfter: 40 * second,
      passedOver: [],
    },
    { step: "close", station: 1, free: 40 * second, left: [] },
  ]);
});
