import { describe, expect, it } from "vitest";
import { ratio } from "../../../../src/time/ratio.js";
import { floorLine, s } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

describe("30 s on the left before 40 s on the right at 60 s", () => {
  const tasks = { L1: { side: "left" }, R1: { side: "right" } } as const;

  it("end after 70 s although the sides hold 30 and 40 s", () => {
    const line = floorLine(["L1 30", "R1 40 L1"], { tasks });
    expect(faultsOf(line, ["S1: L1/left R1/right"], { S1: 2 })).toEqual([
      "dwell: a unit stands 70 s at S1, more than the working time of 60 s",
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
      "dwell: a unit stands 65 s at S1, more than the working time of 60 s",
    ]);
    // Left 30, right 40, then both 20 s: 60 s although the left only works 50 s.
    const fits = floorLine(["a 30", "b 40", "c 20"], {
      tasks: { a: { side: "left" }, b: { side: "right" }, c: { people: 2 } },
    });
    expect(faultsOf(fits, ["S1: a/left b/right c/both"], { S1: 2 })).toEqual([]);
  });
});

describe("two doors of 90 and 10 s in one half of the units, of 10 and 90 s in the other, at 60 s", () => {
  const line = floorLine(["a 0", "b 0"], {
    models: [
      { id: "lefty", share: ratio(1, 2) },
      { id: "righty", share: ratio(1, 2) },
    ],
    tasks: { a: { times: [s(90), s(10)], side: "left" }, b: { times: [s(10), s(90)], side: "right" } },
  });

  it("keep a station for 90 s on average, though both sides hold 50 s", () => {
    expect(faultsOf(line, ["S1: a/left b/right"], { S1: 2 })).toEqual([
      "dwell: a unit stands 90 s at S1, more than the working time of 60 s",
    ]);
    expect(faultsOf(line, ["S1: a/left", "S2: b/right"])).toEqual([]);
  });
});

describe("55 s on the left, and 30 s on the right with twice 60 s of every so many units, at 60 s", () => {
  const ends = (every: number, other: number) => {
    const seldom = { side: "right", times: [s(60)] } as const;
    const line = floorLine(["a 55", "b 30", "c 60", "d 60"], {
      tasks: {
        a: { side: "left" },
        b: { side: "right" },
        c: { ...seldom, every },
        d: { ...seldom, every: other },
      },
    });
    const plan = ["S1: a/left b/right c/right d/right"];
    return faultsOf(line, plan, { S1: 2 }).map((words) => words.split(",")[0]);
  };

  it("take longer on those units by what is beyond the other side", () => {
    // Nine of ten units take 55 s, the tenth 30 + 2 x 60 = 150 s.
    expect(ends(10, 10)).toEqual(["dwell: a unit stands 64.5 s at S1"]);
    // Of twenty, 18 take 55 s, one 30 + 60 = 90 s, one 150 s.
    expect(ends(10, 20)).toEqual(["dwell: a unit stands 61.5 s at S1"]);
    // Of twelve, 8 take 55 s, the 4th, 6th and 8th 90 s, the last 150 s: 860 s.
    expect(ends(4, 6)).toEqual(["dwell: a unit stands 71.667 s at S1"]);
    // Of twenty, 19 take 55 s and one 150 s: 59.75 s.
    expect(ends(20, 20)).toEqual([]);
  });
});

describe("30 s on the left and 55 on the right, at 60 s", () => {
  it("have room for a tenth of the left done again, not for two, as the right holds still meanwhile", () => {
    const line = (visits: ReturnType<typeof ratio>) =>
      floorLine(["a 30", "b 55"], { tasks: { a: { side: "left", visits }, b: { side: "right" } } });
    expect(faultsOf(line(ratio(11, 10)), ["S1: a/left b/right"], { S1: 2 })).toEqual([]);
    expect(faultsOf(line(ratio(12, 10)), ["S1: a/left b/right"], { S1: 2 })).toEqual([
      "dwell: a unit stands 61 s at S1, more than the working time of 60 s",
    ]);
  });
});
