import { describe, expect, it } from "vitest";
import { type FloorTerms, floorLine, s } from "../../../tools/floor-line.js";
import { paceOf } from "../../../tools/line-of.js";
import { faultsOf } from "./faults-of.js";

describe("firmware of 30 s by hand and 120 s by itself, and 150 s of brewing after it, at 200 s", () => {
  const line = (terms: FloorTerms = {}) =>
    floorLine(["firmware 30", "brew 150 firmware"], {
      ...terms,
      tasks: { firmware: { machineTime: s(120) } },
    });
  const faults = (rows: string[], terms: FloorTerms = {}) => faultsOf(line(terms), rows, {}, paceOf(200));

  it("stand 30 + 120 + 150 = 300 s at one station, which holds one unit at a time, for all its 180 s of hands", () => {
    expect(faults(["S1: firmware brew"])).toEqual([
      "dwell: a unit stands 300 s at S1, with what machines run, more than the working time of 200 s",
    ]);
  });

  it("fit two stations, a place with room for two units, or two places", () => {
    expect(faults(["S1: firmware", "S2: brew"])).toEqual([]);
    expect(faults(["S1: firmware brew"], { holds: 2 })).toEqual([]);
    expect(faults(["S1 x2: firmware brew"], { maxPlaces: 2 })).toEqual([]);
    expect(faults(["S1: firmware brew"], { floor: [{ id: "S1", holds: 2 }] })).toEqual([]);
  });
});

describe("a unit stands at its station", () => {
  const run = { machineTime: s(50) };

  it("no longer than hands that work while a machine runs: 10 + max(50, 40) = 60 s", () => {
    const line = floorLine(["load 10", "other 40"], { tasks: { load: run } });
    expect(faultsOf(line, ["S1: load other"], {}, paceOf(60))).toEqual([]);
    expect(faultsOf(line, ["S1: load other"], {}, paceOf(59))).toEqual([
      "dwell: a unit stands 60 s at S1, with what machines run, more than the working time of 59 s",
    ]);
    // The other way round the machine runs last: 40 + 10 + 50 = 100 s.
    expect(faultsOf(line, ["S1: other load"], {}, paceOf(99))).toHaveLength(1);
    expect(faultsOf(line, ["S1: other load"], {}, paceOf(100))).toEqual([]);
  });

  it("on average over models, and those that have no such task do not run the machine: (60 + 10) / 2 = 35 s", () => {
    const models = [
      { id: "city", share: { num: 1n, den: 2n } },
      { id: "cargo", share: { num: 1n, den: 2n } },
    ];
    const tasks = { load: { ...run, times: [s(10), null] }, other: { times: [s(10), s(10)] } };
    const line = floorLine(["load 10", "other 10"], { models, tasks });
    expect(faultsOf(line, ["S1: load other"], {}, paceOf(35))).toEqual([]);
    expect(faultsOf(line, ["S1: load other"], {}, paceOf(34))).toHaveLength(1);
  });

  it("for what is done again one after another: 10 + 50 + 0.5 x (10 + 50) = 90 s", () => {
    const line = floorLine(["load 10"], { tasks: { load: { ...run, visits: { num: 3n, den: 2n } } } });
    expect(faultsOf(line, ["S1: load"], {}, paceOf(90))).toEqual([]);
    expect(faultsOf(line, ["S1: load"], {}, paceOf(89))).toHaveLength(1);
  });

  it("for as long as people who share its work wait for each other: 40 + 40 = 80 s", () => {
    const line = floorLine(["a 40", "b 40 a"], { maxCrew: 2 });
    expect(faultsOf(line, ["S1: a/1 b/2"], {}, paceOf(80))).toEqual([]);
    expect(faultsOf(line, ["S1: a/1 b/2"], {}, paceOf(79))).toEqual([
      "dwell: a unit stands 80 s at S1, more than the working time of 79 s",
    ]);
    expect(faultsOf(floorLine(["a 40", "b 40"], { maxCrew: 2 }), ["S1: a/1 b/2"], {}, paceOf(40))).toEqual(
      [],
    );
    expect(
      faultsOf(floorLine(["a 40", "b 30", "c 20"], { maxCrew: 2 }), ["S1: a/1 b/2 c/2"], {}, paceOf(49)),
    ).toEqual([
      "load: person 2 of S1 holds 50 s, more than the working time of 49 s",
      "dwell: a unit stands 50 s at S1, more than the working time of 49 s",
    ]);
  });

  it("with hands on both sides that wait for a machine: 20 + 30 + 25 = 75 s", () => {
    const line = floorLine(["load 20", "other 25 load"], {
      tasks: { load: { side: "left", machineTime: s(30) }, other: { side: "right" } },
    });
    expect(faultsOf(line, ["S1: load/left other/right"], { S1: 2 }, paceOf(75))).toEqual([]);
    expect(faultsOf(line, ["S1: load/left other/right"], { S1: 2 }, paceOf(74))).toEqual([
      "dwell: a unit stands 75 s at S1, with what machines run, more than the working time of 74 s",
    ]);
  });
});
