import { describe, expect, it } from "vitest";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

describe("30 s on the left before 40 s on the right at 60 s", () => {
  const tasks = { L1: { side: "left" }, R1: { side: "right" } } as const;

  it("end after 70 s although the sides hold 30 and 40 s", () => {
    const line = floorLine(["L1 30", "R1 40 L1"], { tasks });
    expect(faultsOf(line, ["S1: L1/left R1/right"], { S1: 2 })).toEqual([
      "sides: R1 at S1 ends after 70 s, more than the working time of 60 s; the left holds 30 s, the right 40 s, and one waits for the other",
    ]);
    expect(faultsOf(line, ["S1: L1/left", "S2: R1/right"])).toEqual([]);
  });

  it("fit where neither waits for the other", () => {
    const line = floorLine(["L1 30", "R1 40"], { tasks });
    expect(faultsOf(line, ["S1: L1/left R1/right"], { S1: 2 })).toEqual([]);
  });
});

describe("the sides of a plan", () => {
  const line = floorLine(["a 30", "b 20", "c 10", "d 40"], {
    tasks: { a: { side: "left" }, b: { side: "either" }, c: { people: 2 } },
  });

  it("are those that tasks ask for, both for two people, either one else", () => {
    expect(faultsOf(line, ["S1: a/left b/right c/both", "S2: d/right"], { S1: 2 })).toEqual([]);
    expect(faultsOf(line, ["S1: a/right b/both c/left", "S2: d/right"], { S1: 2 })).toEqual([
      "sides: a is worked at S1 from the right; expected is the left",
      "sides: b is worked at S1 from both sides; expected is the left or the right",
      "sides: c is worked at S1 from the left; expected is both sides",
    ]);
  });

  it("are given for each task, and on a line with sides only", () => {
    expect(faultsOf(line, ["S1: a b", "S2: c/both d"], { S2: 2 })).toEqual([
      "sides: S1 gives no sides; each task of this line is worked from a side",
      "sides: S2 gives 1 side for 2 tasks; each task of this line is worked from a side",
    ]);
    expect(faultsOf(floorLine(["a 30"]), ["S1: a/left"])).toEqual([
      "sides: S1 gives sides; no task of the line has one",
    ]);
  });

  it("make the crew", () => {
    const faults = (crew: number) =>
      faultsOf(line, ["S1: a/left b/right", "S2: c/both d/left"], { S1: crew, S2: 2 });
    expect(faults(2)).toEqual([]);
    expect(faults(1)).toEqual(["crew: S1 has a crew of 1; 2 is expected, as both sides are worked"]);
  });

  it("hold no more than the limit each, and both are busy while two people work together", () => {
    const full = floorLine(["a 30", "b 40", "c 25"], {
      tasks: { a: { side: "left" }, b: { side: "right" }, c: { people: 2 } },
    });
    expect(faultsOf(full, ["S1: a/left b/right c/both"], { S1: 2 })).toEqual([
      "load: the right of S1 holds 65 s, more than the working time of 60 s",
    ]);
    // Left 30, right 40, then both 20 s: 60 s although the left only works 50 s.
    const fits = floorLine(["a 30", "b 40", "c 20"], {
      tasks: { a: { side: "left" }, b: { side: "right" }, c: { people: 2 } },
    });
    expect(faultsOf(fits, ["S1: a/left b/right c/both"], { S1: 2 })).toEqual([]);
  });
});
