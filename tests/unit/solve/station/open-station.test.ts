import { describe, expect, it } from "vitest";
import { OpenStation } from "../../../../src/solve/station/open-station.js";
import { ratio } from "../../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../../tools/floor-line.js";
import { blockOf, floorProblemOf } from "../../../tools/floor-plans.js";
import { paceWith } from "../../../tools/floor-random-line.js";
import { paceOf } from "../../../tools/line-of.js";

/** A station at a position with tasks that stand there already, and what it says of others. */
function stationOf(rows: readonly string[], terms: FloorTerms = {}, pace = paceOf(60)) {
  const line = floorLine(rows, terms);
  const problem = floorProblemOf(line, pace);
  const block = (id: string) => blockOf(line, problem, id);
  return (ids: string, { position = 0, inUse = problem.equipment.map(() => 0) } = {}) => {
    const station = new OpenStation(problem);
    station.start(position, inUse);
    for (const id of ids.split(" ").filter((each) => each !== "")) station.take(block(id));
    return {
      close: () => station.close(),
      closings: () => station.closings().map(({ places, crew }) => `${places} x ${crew}`),
      takes: () =>
        line.tasks.flatMap(({ id }) => (!station.has(block(id)) && station.canTake(block(id)) ? id : [])),
      couldHold: (id: string) => station.couldHold(block(id), station.closings()),
    };
  };
}

describe("a station", () => {
  it("takes what fits its limit, and at more places what fits theirs", () => {
    const rows = ["a 40", "b 20", "c 21", "d 80"];
    const single = stationOf(rows);
    expect(single("a").takes()).toEqual(["b"]);
    const double = stationOf(rows, { maxPlaces: 2 });
    expect(double("a").takes()).toEqual(["b", "c", "d"]);
    expect(double("a b").closings()).toEqual(["1 x 1"]);
    expect(double("a c").closings()).toEqual(["2 x 1"]);
    expect(double("a d").closings()).toEqual(["2 x 1"]);
    expect(double("a c d").close()).toBeNull();
  });

  it("loses handling once, at any number of places: 2 x 60 - 10 = 110 s", () => {
    const station = stationOf(["a 55", "b 55", "c 1"], { maxPlaces: 2 }, paceWith(60, 10));
    expect(station("a b").closings()).toEqual(["2 x 1"]);
    expect(station("a b").takes()).toEqual([]);
  });

  it("takes one task alone above the limit, beside tasks of no time", () => {
    // 90 % of 60 s are 54 s.
    const station = stationOf(["a 58", "b 1", "check 0"], {}, paceWith(60, 0, ratio(9, 10)));
    expect(station("").takes()).toEqual(["a", "b", "check"]);
    expect(station("a").takes()).toEqual(["check"]);
    expect(station("check").takes()).toEqual(["a", "b"]);
    expect(station("b check").takes()).toEqual([]);
  });

  it("has as large a crew as any of its tasks needs", () => {
    const station = stationOf(["a 10", "b 10", "c 10"], { tasks: { b: { people: 2 }, c: { people: 3 } } });
    expect(station("a").close()).toMatchObject({ places: 1, crew: 1 });
    expect(station("a b").close()).toMatchObject({ places: 1, crew: 2 });
    expect(station("b c").close()).toMatchObject({ places: 1, crew: 3 });
  });

  it("keeps zones and tasks apart, and every task to its positions", () => {
    const tasks = { a: { zone: "paint" }, b: { zone: "assembly" }, d: { notBefore: 1 } };
    const floor = [{ id: "S1" }, { id: "S2" }];
    const station = stationOf(["a 5", "b 5", "c 5", "d 5"], { tasks, floor, apart: [["a", "c"]] });
    expect(station("a").takes()).toEqual([]);
    expect(station("a", { position: 1 }).takes()).toEqual(["d"]);
    expect(station("b").takes()).toEqual(["c"]);
  });
});

describe("counted equipment", () => {
  const tasks = { a: { equipment: ["press"] }, b: { equipment: ["press"] } };

  it("is shared by the places of a station as long as it is held no longer than its units have, and used by no more stations than exist", () => {
    const station = stationOf(["a 50", "b 50", "c 50"], { tasks, equipment: { press: 2 }, maxPlaces: 3 });
    expect(station("a").close()).toMatchObject({ places: 1, equipment: [1] });
    // 100 s at the press, of which one has 60 s for a unit.
    expect(station("a b").close()).toMatchObject({ places: 2, equipment: [2] });
    // 50 s of 100 s.
    expect(station("a c").close()).toMatchObject({ places: 2, equipment: [1] });
    expect(station("a c").takes()).toEqual(["b"]);
    // One press is left, for 60 s.
    expect(station("a", { inUse: [1] }).takes()).toEqual(["c"]);
    expect(station("c", { inUse: [2] }).takes()).toEqual([]);
  });

  it("is a machine where it runs by itself: 8 + 22 s just fit 30 s, 8 + 25 s take two", () => {
    const machine = (seconds: number, count: number) =>
      stationOf(
        ["a 8"],
        {
          tasks: { a: { equipment: ["press"], machineTime: s(seconds) } },
          equipment: { press: count },
          holds: 2,
        },
        paceOf(30),
      )("a").close();
    expect(machine(22, 1)).toMatchObject({ places: 1, equipment: [1] });
    expect(machine(25, 1)).toBeNull();
    expect(machine(25, 2)).toMatchObject({ places: 1, equipment: [2] });
  });

  it("is never a reason to fill a station up", () => {
    const station = stationOf(["a 10", "b 10", "c 10"], { tasks, equipment: { press: 2 } });
    expect(station("c").couldHold("a")).toBe(false);
    expect(station("a").couldHold("c")).toBe(true);
  });
});

describe("a station with sides", () => {
  const tasks = { a: { side: "either" } } as const;

  it("is closed with more places where those take fewer people: 3 x 1, and 2 x 2 beside it only where places take people with skills", () => {
    const station = stationOf(["a 60", "b 60", "c 60"], { tasks, maxPlaces: 3 });
    // 180 s: one person has 60, 120 or 180 s at 1, 2 or 3 places. Two people at one place have 60 s each, too little.
    expect(station("a b c").closings()).toEqual(["3 x 1"]);
    const people = ["ann", "bob", "cy"].map((id) => ({ id, skills: ["wire"] }));
    const skilled = { ...tasks, c: { skills: ["wire"] } };
    const withSkills = stationOf(["a 60", "b 60", "c 60"], { tasks: skilled, people, maxPlaces: 3 });
    expect(withSkills("a b c").closings()).toEqual(["2 x 2", "3 x 1"]);
    // 120 s: two people at one place, or one at each of two: as many people, so fewer places will do.
    expect(station("a b").closings()).toEqual(["1 x 2"]);
  });

  it("could hold a task only where that costs nobody more in any way of closing it", () => {
    const station = stationOf(["a 60", "b 60", "c 50", "d 10", "e 20"], { tasks, maxPlaces: 3 });
    expect(station("a b c").closings()).toEqual(["3 x 1"]);
    expect(station("a b c").couldHold("d")).toBe(true);
    // 190 s still are 2 x 2, but no longer 3 x 1.
    expect(station("a b c").couldHold("e")).toBe(false);
  });
});

it("lets models exceed the working time by no more than is said", () => {
  const models = [
    { id: "city", share: ratio(1, 2) },
    { id: "cargo", share: ratio(1, 2) },
  ];
  const tasks = { a: { times: [s(20), s(50)] }, b: { times: [s(40), s(25)] }, c: { times: [s(40), null] } };
  const overload = (modelOverload: ReturnType<typeof ratio>) =>
    stationOf(["a 0", "b 0", "c 0"], { models, tasks, modelOverload })("a").takes();
  // a and b: 60 s of city and 75 s of cargo, 67.5 s on average; a and c: 60 s and 50 s, 55 s on average.
  expect(overload(ratio(0))).toEqual(["c"]);
  const loose = stationOf(["a 0", "b 0", "c 0"], { models, tasks, modelOverload: ratio(1, 4), maxPlaces: 1 });
  expect(loose("a").takes()).toEqual(["c"]);
  // With a cycle of 70 s the average fits, and 75 s are 7.2 % more.
  const slow = (modelOverload: ReturnType<typeof ratio>) =>
    stationOf(["a 0", "b 0", "c 0"], { models, tasks, modelOverload }, paceOf(70))("a").takes();
  expect(slow(ratio(7, 100))).toEqual(["c"]);
  expect(slow(ratio(8, 100))).toEqual(["b", "c"]);
});
