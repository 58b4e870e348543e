import { describe, expect, it } from "vitest";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

const rows = ["a 10", "b 10", "lift 10"];
const terms = { tasks: { lift: { people: 2 } } };

describe("persons of a station", () => {
  const line = floorLine(rows, { ...terms, maxCrew: 3, floor: [{ id: "S1", maxCrew: 2 }, { id: "S2" }] });

  it("are those that each task takes, and all of them have something to do", () => {
    expect(faultsOf(line, ["S1: a/1 b/2 lift/1+2"])).toEqual([]);
    expect(faultsOf(line, ["S1: a/1 b/1+2 lift/2"])).toEqual([
      "persons: b is done at S1 by 2 people; it takes 1",
      "persons: lift is done at S1 by 1 person; it takes 2",
    ]);
    expect(faultsOf(line, ["S1: a/1 b/2 lift/2+2"])).toEqual([
      "persons: lift is done at S1 by 2 people, one of them twice; it takes 2",
    ]);
    expect(faultsOf(line, ["S2: a/1 b/1 lift/1+3"])).toEqual([
      "persons: S2 has nothing to do for person 2, and counts 3 people; number them without a gap",
    ]);
    expect(faultsOf(line, ["S1: a/0 b/2 lift/1+2"])).toEqual([
      "persons: a is done at S1 by person 0; they are numbered from 1",
    ]);
  });

  it("are no more than may share a unit at the station, or on the line", () => {
    expect(faultsOf(line, ["S2: a/3 b/3 lift/1+2"])).toEqual([]);
    expect(faultsOf(line, ["S1: a/3 b/3 lift/1+2"])).toEqual([
      "persons: S1 shares its work among 3 people; `max-crew` allows 2",
    ]);
    const apart = floorLine(rows, terms);
    expect(faultsOf(apart, ["S1: a/1 b/2 lift/1+2"])).toEqual([
      "persons: S1 shares its work among people who work together there; `max-crew` would let them",
    ]);
  });

  it("work together where the plan does not say who does what, whatever may be shared", () => {
    expect(faultsOf(line, ["S1: a b lift"], { S1: 2 })).toEqual([]);
  });

  it("make the crew: as many as are numbered", () => {
    expect(faultsOf(line, ["S1: a/1 b/2", "S2: lift"], { S1: 1, S2: 2 })).toEqual([
      "crew: S1 has a crew of 1; 2 is expected, as b is done by person 2",
    ]);
  });

  it("are left to the sides where the line has them", () => {
    const sided = floorLine(["a 10", "b 10"], { tasks: { a: { side: "left" } } });
    expect(faultsOf(sided, ["S1: a/1 b/2"])).toContain(
      "persons: S1 says who does its tasks; on this line the sides say that",
    );
  });
});
