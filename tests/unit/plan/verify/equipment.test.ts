import { describe, expect, it } from "vitest";
import { ratio } from "../../../../src/time/ratio.js";
import { floorLine, s } from "../../../tools/floor-line.js";
import { paceOf } from "../../../tools/line-of.js";
import { faultsOf } from "./faults-of.js";

const press = { equipment: ["press"] };

describe("equipment that stands at stations of the floor", () => {
  const line = floorLine(["a 10", "b 10"], {
    tasks: { b: press },
    floor: [{ id: "S1" }, { id: "S2", equipment: ["press", "crane"] }],
  });

  it("is used there", () => {
    expect(faultsOf(line, ["S1: a", "S2: b"])).toEqual([]);
  });

  it("is used nowhere else", () => {
    expect(faultsOf(line, ["S1: a b"])).toEqual([
      "equipment: b needs press, which stands at S2; it stands at S1",
    ]);
    expect(faultsOf(line, ["S1: a", "S3: b"])).toEqual([
      "equipment: b needs press, which stands at S2; it stands at S3",
    ]);
  });
});

describe("equipment of which two exist", () => {
  const line = floorLine(["a 10", "b 10", "c 90"], {
    tasks: { a: press, b: press, c: press },
    equipment: { press: 2 },
    maxPlaces: 2,
  });

  it("is enough for two places", () => {
    expect(faultsOf(line, ["S1: a b"]).filter((each) => each.startsWith("equipment"))).toEqual([]);
    expect(faultsOf(line, ["S1 x2: a b c"])).toEqual([]);
  });

  it("is too little for three", () => {
    expect(faultsOf(line, ["S1: a b", "S2 x2: c"])).toEqual([
      "equipment: press is needed at S1 and S2 (2 places): 3 are needed, 2 exist",
    ]);
  });

  it("is not counted where the file gives no number", () => {
    const uncounted = floorLine(["a 50", "b 50"], { tasks: { a: press, b: press } });
    expect(faultsOf(uncounted, ["S1: a", "S2: b"])).toEqual([]);
  });
});

describe("a machine that is loaded for 8 s at a line cycle of 30 s", () => {
  const line = (seconds: number, count = 1) =>
    floorLine(["a 8"], {
      tasks: { a: { ...press, machineTime: s(seconds) } },
      equipment: { press: count },
    });

  it("just runs 22 s: 8 + 22 = 30", () => {
    expect(faultsOf(line(22), ["S1: a"], {}, paceOf(30))).toEqual([]);
  });

  it("needs a second one to run 25 s: 33 s of 30", () => {
    expect(faultsOf(line(25), ["S1: a"], {}, paceOf(30))).toEqual([
      "machine: press: 2 at S1, where it is loaded and runs 33 s for a unit at a line cycle of 30 s; 2 are needed, 1 exists",
    ]);
    expect(faultsOf(line(25, 2), ["S1: a"], {}, paceOf(30))).toEqual([]);
  });

  it("is free on all units but every 2nd: half of 8 + 52 s is 30 s", () => {
    const seldom = (seconds: number) =>
      floorLine(["a 8"], {
        tasks: { a: { ...press, machineTime: s(seconds), every: 2 } },
        equipment: { press: 1 },
      });
    expect(faultsOf(seldom(52), ["S1: a"], {}, paceOf(30))).toEqual([]);
    expect(faultsOf(seldom(53), ["S1: a"], {}, paceOf(30))).toHaveLength(1);
  });

  it("runs for the share of units that it is used for, and again for failures", () => {
    const shared = (share: number, visits = ratio(1)) => {
      const models = [
        { id: "city", share: ratio(share, 100) },
        { id: "cargo", share: ratio(100 - share, 100) },
      ];
      const task = { ...press, machineTime: s(42), times: [s(8), null], visits };
      return floorLine(["a 8"], { models, tasks: { a: task }, equipment: { press: 1 } });
    };
    // 60 % of (8 + 42) s = 30 s; 61 % are 30.5 s; with 1.25 visits 48 % are 30 s.
    expect(faultsOf(shared(60), ["S1: a"], {}, paceOf(30))).toEqual([]);
    expect(faultsOf(shared(61), ["S1: a"], {}, paceOf(30))).toHaveLength(1);
    expect(faultsOf(shared(48, ratio(5, 4)), ["S1: a"], {}, paceOf(30))).toEqual([]);
    expect(faultsOf(shared(49, ratio(5, 4)), ["S1: a"], {}, paceOf(30))).toHaveLength(1);
  });
});
