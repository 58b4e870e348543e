import { describe, expect, it } from "vitest";
import { ratio } from "../../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../../tools/floor-line.js";
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

  it("is too little where one station keeps it 20 s for a unit and another 90 s of 60", () => {
    expect(faultsOf(line, ["S1: a b", "S2 x2: c"])).toEqual([
      "equipment-hold: press holds each unit 90 s at S2 (c), where a unit comes every 60 s: 3 x press are needed, 2 exist",
    ]);
  });

  it("is too little for three stations", () => {
    expect(faultsOf(line, ["S1: a", "S2: b", "S3 x2: c"])).toEqual([
      "equipment: press is needed at S1, S2 and S3: 3 are needed, 2 exist",
    ]);
  });

  it("is shared by places of a station where a unit keeps it no longer than a line cycle: 60 s, and not 61 s", () => {
    const at = (seconds: number) =>
      floorLine([`a ${seconds}`, "b 40"], { tasks: { a: press }, equipment: { press: 1 }, maxPlaces: 2 });
    expect(faultsOf(at(60), ["S1 x2: a b"])).toEqual([]);
    expect(faultsOf(at(61), ["S1 x2: a b"])).toEqual([
      "equipment-hold: press holds each unit 61 s at S1 (a), where a unit comes every 60 s: 2 x press are needed, 1 exists",
    ]);
  });

  it("is not counted where the file gives no number", () => {
    const uncounted = floorLine(["a 50", "b 50"], { tasks: { a: press, b: press } });
    expect(faultsOf(uncounted, ["S1: a", "S2: b"])).toEqual([]);
  });
});

describe("a machine that is loaded for 8 s at a line cycle of 30 s, at a place with room for two units", () => {
  const line = (seconds: number, count = 1) =>
    floorLine(["a 8"], {
      tasks: { a: { ...press, machineTime: s(seconds) } },
      equipment: { press: count },
      holds: 2,
    });

  it("just runs 22 s: 8 + 22 = 30", () => {
    expect(faultsOf(line(22), ["S1: a"], {}, paceOf(30))).toEqual([]);
  });

  it("needs a second one to run 25 s: 33 s of 30", () => {
    expect(faultsOf(line(25), ["S1: a"], {}, paceOf(30))).toEqual([
      "equipment-hold: press holds each unit 33 s at S1 (a), where a unit comes every 30 s: 2 x press are needed, 1 exists",
    ]);
    expect(faultsOf(line(25, 2), ["S1: a"], {}, paceOf(30))).toEqual([]);
  });

  it("is free on all units but every 2nd: half of 8 + 52 s is 30 s", () => {
    const seldom = (seconds: number) =>
      floorLine(["a 8"], {
        tasks: { a: { ...press, machineTime: s(seconds), every: 2 } },
        equipment: { press: 1 },
        holds: 2,
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
      return floorLine(["a 8"], { models, tasks: { a: task }, equipment: { press: 1 }, holds: 2 });
    };
    // 60 % of (8 + 42) s = 30 s; 61 % are 30.5 s; with 1.25 visits 48 % are 30 s.
    expect(faultsOf(shared(60), ["S1: a"], {}, paceOf(30))).toEqual([]);
    expect(faultsOf(shared(61), ["S1: a"], {}, paceOf(30))).toHaveLength(1);
    expect(faultsOf(shared(48, ratio(5, 4)), ["S1: a"], {}, paceOf(30))).toEqual([]);
    expect(faultsOf(shared(49, ratio(5, 4)), ["S1: a"], {}, paceOf(30))).toHaveLength(1);
  });
});

describe("equipment that a unit keeps from hook to unhook", () => {
  // 40 by hand, 35 by hand and 150 by itself, 20 by hand, all on one rig in a row: 40 + 35 + 150 + 20 = 245 s.
  const rig = { equipment: ["rig"] };
  const line = (terms: FloorTerms) =>
    floorLine(["hook 40", "test 35 hook", "unhook 20 test"], {
      ...terms,
      tasks: { hook: rig, test: { ...rig, machineTime: s(150) }, unhook: rig },
    });
  const faults = (terms: FloorTerms, row = "S1: hook test unhook") =>
    faultsOf(line(terms), [row], {}, paceOf(200));

  it("is held 245 s of 200 s: one rig does not do, and a place has no room for the next unit", () => {
    expect(faults({ equipment: { rig: 1 } })).toEqual([
      "dwell: a unit stands 245 s at S1, with what machines run, more than the working time of 200 s",
      "equipment-hold: rig holds each unit 245 s at S1 (hook, test, unhook), where a unit comes every 200 s: 2 x rig are needed, 1 exists",
    ]);
  });

  it("does with two of it where a place has room for two units, or the station has two places", () => {
    expect(faults({ equipment: { rig: 2 }, holds: 2 })).toEqual([]);
    expect(faults({ equipment: { rig: 2 }, maxPlaces: 2 }, "S1 x2: hook test unhook")).toEqual([]);
    expect(faults({ equipment: { rig: 1 }, holds: 2 })).toEqual([
      "equipment-hold: rig holds each unit 245 s at S1 (hook, test, unhook), where a unit comes every 200 s: 2 x rig are needed, 1 exists",
    ]);
    expect(faults({ equipment: { rig: 2 }, floor: [{ id: "S1", holds: 1 }], holds: 2 })).toEqual([
      "dwell: a unit stands 245 s at S1, with what machines run, more than the working time of 200 s",
    ]);
  });

  it("is kept through work in between that does without it: 20 + 70 + 20 = 110 s", () => {
    const between = floorLine(["hook 20", "look 70 hook", "unhook 20 look"], {
      tasks: { hook: rig, unhook: rig },
      equipment: { rig: 1 },
      maxPlaces: 2,
    });
    expect(faultsOf(between, ["S1 x2: hook look unhook"], {}, paceOf(110))).toEqual([]);
    expect(faultsOf(between, ["S1 x2: hook look unhook"], {}, paceOf(109))).toEqual([
      "equipment-hold: rig holds each unit 110 s at S1 (hook, unhook), where a unit comes every 109 s: 2 x rig are needed, 1 exists",
    ]);
  });

  it("is let go between tasks without an arrow: 20 + 20 = 40 s", () => {
    const apart = floorLine(["hook 20", "look 70", "unhook 20"], {
      tasks: { hook: rig, unhook: rig },
      equipment: { rig: 1 },
      maxPlaces: 3,
    });
    expect(faultsOf(apart, ["S1 x3: hook look unhook"], {}, paceOf(40))).toEqual([]);
  });

  it("is not taken up again before the unit is done with it, even where somebody else does", () => {
    const two = floorLine(["one 20", "two 20 one", "other 20"], {
      tasks: { one: rig, two: rig, other: rig },
      equipment: { rig: 1 },
      maxCrew: 2,
    });
    const faults = (row: string) => faultsOf(two, [row], {}, paceOf(60));
    expect(faults("S1: one/1 two/1 other/2")).toEqual([]);
    expect(faults("S1: one/1 other/2 two/1")).toEqual([]);
    expect(faults("S1: one/1 other/1 two/1")).toEqual([
      "order: the order of work at S1 takes up rig again before the work begun on it is done (one, other, two); do what follows each other on it in a row",
    ]);
  });
});
