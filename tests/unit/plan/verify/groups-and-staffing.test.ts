import { describe, expect, it } from "vitest";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

const rows = ["a 10", "b 10", "c 10"];

describe("tasks that belong together", () => {
  const line = floorLine(rows, { together: [["a", "b", "c"]] });

  it("share a station", () => {
    expect(faultsOf(line, ["S1: a b c"])).toEqual([]);
    expect(faultsOf(line, ["S1: a", "S2: b c"])).toEqual([
      "together: a at S1, b at S2 and c at S2 belong together, at one station",
    ]);
  });
});

describe("tasks that are kept apart", () => {
  const line = floorLine(rows, { apart: [["a", "b", "c"]] });

  it("share none, and every station that holds two is named", () => {
    expect(faultsOf(line, ["S1: a", "S2: b", "S3: c"])).toEqual([]);
    expect(faultsOf(line, ["S1: a c", "S2: b"])).toEqual(["apart: a and c are kept apart, and share S1"]);
  });
});

describe("places of a station", () => {
  const line = floorLine(rows, {
    maxPlaces: 2,
    floor: [{ id: "S1" }, { id: "S2", maxPlaces: 3 }, { id: "S3", maxPlaces: 1 }],
  });

  it("are as many as its own limit allows, else that of the line", () => {
    expect(faultsOf(line, ["S1 x2: a", "S2 x3: b", "S3: c"])).toEqual([]);
    expect(faultsOf(line, ["S1 x3: a", "S2 x4: b", "S3 x2: c"])).toEqual([
      "places: S1 has 3 places; 1 to 2 are allowed",
      "places: S2 has 4 places; 1 to 3 are allowed",
      "places: S3 has 2 places; 1 is allowed",
    ]);
  });

  it("are whole", () => {
    expect(faultsOf(line, ["S1 x1.5: a", "S2 x0: b", "S3: c"])).toEqual([
      "places: S1 has 1.5 places; 1 to 2 are allowed",
      "places: S2 has 0 places; 1 to 3 are allowed",
    ]);
  });

  it("hold as much as a cycle each, times the station's own plan-to where it has one", () => {
    const full = floorLine(["a 100", "b 5"], {
      floor: [{ id: "S1", planTo: { num: 5n, den: 6n } }],
      maxPlaces: 2,
    });
    expect(faultsOf(full, ["S1 x2: a", "S2: b"])).toEqual([]);
    expect(faultsOf(full, ["S1 x2: a b"])).toEqual([
      "load: S1 holds 105 s, more than the station limit of 100 s",
    ]);
    expect(faultsOf(full, ["S1: a", "S2: b"])).toEqual([
      "load: S1 holds 100 s, more than the working time of 60 s",
    ]);
  });
});

describe("the crew of a station", () => {
  const line = floorLine(rows, { tasks: { b: { people: 2 } } });

  it("is the largest number of people that one of its tasks needs", () => {
    expect(faultsOf(line, ["S1: a b", "S2: c"], { S1: 2 })).toEqual([]);
    expect(faultsOf(line, ["S1: a b", "S2: c"])).toEqual([
      "crew: S1 has a crew of 1; 2 is expected, as b needs 2 people together",
    ]);
    expect(faultsOf(line, ["S1: a b", "S2: c"], { S1: 2, S2: 2 })).toEqual([
      "crew: S2 has a crew of 2; 1 is expected, as one person at a time works there",
    ]);
  });
});
