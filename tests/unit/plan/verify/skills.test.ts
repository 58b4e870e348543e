import { describe, expect, it } from "vitest";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

const tasks = { a: { skills: ["brakes"] }, b: { skills: ["press"] }, c: { skills: ["brakes", "wheels"] } };
const rows = ["a 50", "b 50", "c 50", "d 50"];

describe("skills of stations", () => {
  it("cover those of their tasks, else each task that misses one is named", () => {
    const line = floorLine(rows, {
      tasks,
      floor: [
        { id: "S1", skills: ["brakes", "press"] },
        { id: "S2" },
        { id: "S3", skills: ["brakes", "wheels"] },
      ],
    });
    const faults = (plan: string[]) => faultsOf(line, plan).filter((each) => !each.startsWith("load"));
    expect(faults(["S1: a b", "S2: d", "S3: c"])).toEqual([]);
    expect(faults(["S1: a c", "S2: b d"])).toEqual([
      "skill: c needs wheels; it stands at S1, which has brakes and press",
      "skill: b needs press; it stands at S2, which has no skills",
    ]);
    expect(faults(["S1: a b d", "S4: c"])).toEqual([
      "skill: c needs brakes and wheels; it stands at S4, which has no skills",
    ]);
  });
});

describe("people with skills", () => {
  const plan = ["S1: a", "S2: b", "S3: c", "S4: d"];
  const faults = (people: Record<string, string[]>, stations = plan) =>
    faultsOf(
      floorLine(rows, {
        tasks,
        maxPlaces: 3,
        people: Object.entries(people).map(([id, skills]) => ({ id, skills })),
      }),
      stations,
    );

  it("are given places so that all find one, also when the first choice must move", () => {
    expect(faults({ Kim: ["brakes", "press"], Lee: ["brakes", "wheels"], Sam: ["brakes"] })).toEqual([]);
    expect(faults({ Kim: ["brakes", "wheels"], Lee: ["brakes", "press"], Sam: ["brakes"] })).toEqual([]);
  });

  it("are named where they are fewer than the places that only they can take", () => {
    expect(faults({ Kim: ["brakes", "wheels"], Lee: ["press"], Sam: ["press"] })).toEqual([
      "skill: 2 places need a person each, S1 (brakes) and S3 (brakes and wheels); only Kim can take them",
    ]);
  });

  it("each take one place of several, and all its skills", () => {
    const lone = { Kim: ["brakes", "wheels"], Lee: ["press"], Sam: ["brakes"], Pat: ["brakes"] };
    expect(faults(lone, ["S1 x3: a", "S2: b", "S3: c", "S4: d"])).toEqual([
      "skill: 4 places need a person each, S1 (brakes) and S3 (brakes and wheels); only Kim, Sam and Pat can take them",
    ]);
    expect(faults({ Kim: ["brakes"], Lee: ["wheels"], Sam: ["brakes"], Pat: ["press"] })).toEqual([
      "skill: S3 needs a person with brakes and wheels; nobody is listed with that",
    ]);
  });

  it("are told apart in shortages that have nothing to do with each other", () => {
    expect(faults({ Kim: ["brakes", "wheels"] })).toEqual([
      "skill: 2 places need a person each, S1 (brakes) and S3 (brakes and wheels); only Kim can take them",
      "skill: S2 needs a person with press; nobody is listed with that",
    ]);
  });

  it("who are missing altogether are missed once a station", () => {
    expect(
      faults({ Kim: ["brakes", "wheels"], Sam: ["brakes"] }, ["S1: a", "S2 x3: b", "S3: c", "S4: d"]),
    ).toEqual(["skill: S2 needs a person with press; nobody is listed with that"]);
  });

  it("do not matter where the file lists none", () => {
    expect(faults({})).toEqual([]);
  });

  describe("several of whom stand at a place", () => {
    const people = [
      { id: "Ann", skills: ["weld"] },
      { id: "Eve", skills: ["wire"] },
    ];
    const own = { a: { skills: ["weld"] }, b: { skills: ["wire"] }, lift: { people: 2 } };
    const rows = ["a 10", "b 10", "lift 10"];

    it("have their skills between them where they work together, each person at one place", () => {
      const line = floorLine(rows, { tasks: own, people, maxPlaces: 3 });
      expect(faultsOf(line, ["S1: a b lift"], { S1: 2 })).toEqual([]);
      expect(faultsOf(line, ["S1: a b", "S2: lift"], { S2: 2 })).toEqual([
        "skill: S1 needs a person with weld and wire; nobody is listed with that",
      ]);
      expect(faultsOf(line, ["S1 x2: a b lift"], { S1: 2 })).toEqual([
        "skill: 2 places need a person each, S1 (weld); only Ann can take them",
        "skill: 2 places need a person each, S1 (wire); only Eve can take them",
      ]);
      // Ann and Eve at one, Ben at another.
      const more = { ...line, people: [...people, { id: "Ben", skills: ["weld", "wire"] }] };
      expect(faultsOf(more, ["S1 x2: a b lift"], { S1: 2 })).toEqual([]);
      expect(faultsOf(more, ["S1 x3: a b lift"], { S1: 2 })).toEqual([
        "skill: the people listed cannot be at S1 (weld and wire) at once, each at one place, with one of those at each task who has all its skills",
      ]);
    });

    it("have those of the tasks that each does where they share a unit", () => {
      const line = floorLine(rows, { tasks: own, people, maxCrew: 2 });
      expect(faultsOf(line, ["S1: a/1 b/2 lift/1+2"])).toEqual([]);
      expect(faultsOf(line, ["S1: a/2 b/1 lift/1+2"])).toEqual([]);
      expect(faultsOf(line, ["S1: a/1 b/1 lift/1+2"])).toEqual([
        "skill: S1 needs a person with weld and wire as person 1; nobody is listed with that",
      ]);
    });

    it("have those of their side; at a task of both sides one of them has its skills", () => {
      const sided = { ...own, a: { ...own.a, side: "left" as const }, lift: { people: 2, skills: ["weld"] } };
      const line = floorLine(rows, { tasks: { ...sided, b: { ...own.b, side: "either" as const } }, people });
      expect(faultsOf(line, ["S1: a/left b/right lift/both"], { S1: 2 })).toEqual([]);
      expect(faultsOf(line, ["S1: a/left b/left lift/both"], { S1: 2 })).toEqual([
        "skill: S1 needs a person with weld and wire at the left; nobody is listed with that",
      ]);
    });

    it("are named where none of them has what a task of two needs", () => {
      const line = floorLine(rows, { tasks: { ...own, lift: { people: 2, skills: ["press"] } }, people });
      expect(faultsOf(line, ["S1: a b lift"], { S1: 2 })).toEqual([
        "skill: S1 needs weld, wire and press of 2 people; the people listed cannot share its tasks so that one at each has all its skills",
      ]);
    });
  });
});
