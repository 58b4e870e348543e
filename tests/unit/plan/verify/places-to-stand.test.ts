import { describe, expect, it } from "vitest";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

const floor = [{ id: "S1" }, { id: "S2" }, { id: "S3" }];

describe("a task that may stand at some stations only", () => {
  const line = floorLine(["a 10", "b 10", "c 10"], { floor, tasks: { b: { stations: [0, 2] } } });

  it("stands at one of them", () => {
    expect(faultsOf(line, ["S1: a b", "S2: c"])).toEqual([]);
    expect(faultsOf(line, ["S1: a", "S2: c", "S3: b"])).toEqual([]);
  });

  it("does not stand at another, nor behind the floor", () => {
    expect(faultsOf(line, ["S1: a", "S2: b c"])).toEqual([
      "fixed-station: b may stand at S1 and S3 only; it stands at S2",
    ]);
    expect(faultsOf(line, ["S1: a c", "S4: b"])).toEqual([
      "fixed-station: b may stand at S1 and S3 only; it stands at S4",
    ]);
  });
});

describe("a task with a first and a last station", () => {
  const line = floorLine(["a 10", "b 10", "c 10", "d 10"], {
    floor,
    tasks: { b: { notBefore: 1 }, c: { notAfter: 1 } },
  });

  it("stands between them, ends included, and for a first one behind the floor too", () => {
    expect(faultsOf(line, ["S1: a", "S2: b c", "S3: d"])).toEqual([]);
    expect(faultsOf(line, ["S1: a c", "S4: b d"])).toEqual([]);
  });

  it("does not stand outside them", () => {
    expect(faultsOf(line, ["S1: a b", "S3: c", "S4: d"])).toEqual([
      "fixed-station: b may not stand before S2; it stands at S1",
      "fixed-station: c may not stand after S2; it stands at S3",
    ]);
  });
});

describe("zones", () => {
  const tasks = { a: { zone: "frame" }, b: { zone: "paint" } };

  it("never share a station, while tasks without one go with any", () => {
    const line = floorLine(["a 10", "b 10", "c 10"], { tasks });
    expect(faultsOf(line, ["S1: a c", "S2: b"])).toEqual([]);
    expect(faultsOf(line, ["S1: a", "S2: b c"])).toEqual([]);
    expect(faultsOf(line, ["S1: a b c"])).toEqual([
      "zone: S1 holds tasks of 2 zones: frame (a) and paint (b)",
    ]);
  });

  it("of the floor hold their own tasks and those of none", () => {
    const line = floorLine(["a 10", "b 10", "c 10"], {
      tasks,
      floor: [{ id: "S1", zone: "frame" }, { id: "S2" }, { id: "S3", zone: "paint" }],
    });
    expect(faultsOf(line, ["S1: a c", "S3: b"])).toEqual([]);
    expect(faultsOf(line, ["S1: a b", "S2: c"])).toEqual([
      "zone: b belongs to zone paint; it stands at S1, which is in zone frame",
    ]);
    expect(faultsOf(line, ["S1: a", "S2: b c"])).toEqual([
      "zone: b belongs to zone paint; it stands at S2, which is in no zone",
    ]);
    expect(faultsOf(line, ["S1: a", "S3: c", "S4: b"])).toEqual([
      "zone: b belongs to zone paint; it stands at S4, which is in no zone",
    ]);
  });
});
