import { describe, expect, it } from "vitest";
import { floorLine } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

describe("a wait", () => {
  const line = floorLine(["clamp 10 glue", "glue 10"], {
    waits: [{ on: "glue", after: "clamp", wait: 600 }],
  });

  it("is kept where the task that waits stands at a later station", () => {
    expect(faultsOf(line, ["S1: glue", "S2: clamp"])).toEqual([]);
  });

  it("never passes in a station: the unit would hold it up", () => {
    expect(faultsOf(line, ["S1: glue clamp"])).toEqual([
      "wait: clamp waits for glue and must stand at a later station; glue stands at S1, it at S1",
    ]);
  });

  it("of three stations counts numbers along the floor, those that stay empty too", () => {
    const far = floorLine(["clamp 10 glue", "glue 10", "wipe 10 clamp"], {
      waits: [{ on: "glue", after: "clamp", stations: 3 }],
      floor: [{ id: "in" }, { id: "turn" }, { id: "dry" }],
    });
    expect(faultsOf(far, ["in: glue", "S4: clamp wipe"])).toEqual([]);
    expect(faultsOf(far, ["turn: glue", "S5: clamp wipe"])).toEqual([]);
    expect(faultsOf(far, ["turn: glue", "S4: clamp wipe"])).toEqual([
      "wait: clamp waits for glue and must stand at least 3 stations later; glue stands at turn, it at S4",
    ]);
  });
});

describe("stations of the floor", () => {
  const line = floorLine(["a 10", "b 10", "c 10"], { floor: [{ id: "in" }, { id: "out" }] });

  it("stand in a plan as they stand on the floor, further ones behind them", () => {
    expect(faultsOf(line, ["in: a", "out: b", "S3: c"])).toEqual([]);
    expect(faultsOf(line, ["out: a", "in: b", "S3: c"])).toEqual([
      "station-order: in comes after out, but stands before it",
    ]);
    expect(faultsOf(line, ["in: a", "S3: b", "out: c"])).toEqual([
      "station-order: out comes after S3, but stands before it",
    ]);
  });

  it("are in a plan once, however their letters are put together", () => {
    const accent = floorLine(["a 10", "b 10"], { floor: [{ id: "caf\u00e9" }] });
    expect(faultsOf(accent, ["caf\u00e9: a", "cafe\u0301: b"])).toEqual([
      "station-order: cafe\u0301 is in the plan twice",
    ]);
  });
});
