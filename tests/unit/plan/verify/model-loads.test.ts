import { describe, expect, it } from "vitest";
import { ratio } from "../../../../src/time/ratio.js";
import { type FloorTerms, floorLine, s } from "../../../tools/floor-line.js";
import { faultsOf } from "./faults-of.js";

const models = [
  { id: "city", share: ratio(1, 2) },
  { id: "cargo", share: ratio(1, 2) },
];

describe("80 s for one model and 40 s for the other at 60 s", () => {
  const line = (overload: ReturnType<typeof ratio> | null, further: FloorTerms["tasks"] = {}) =>
    floorLine(["a 0", "b 0"], {
      models,
      modelOverload: overload,
      tasks: { a: { times: [s(50), s(40)] }, b: { times: [s(30), null] }, ...further },
    });

  it("are 60 s on average, and a third above for the first model", () => {
    expect(faultsOf(line(null), ["S1: a b"])).toEqual([]);
    expect(faultsOf(line(ratio(1, 3)), ["S1: a b"])).toEqual([]);
    expect(faultsOf(line(ratio(33, 100)), ["S1: a b"])).toEqual([
      "model-overload: city takes 80 s at S1, more than 79.8 s, the working time and 33 %",
    ]);
    expect(faultsOf(line(ratio(0)), ["S1: a", "S2: b"])).toEqual([]);
  });

  it("count walking where the model has the task, visits, and work of every so many units by its share", () => {
    const walked = line(ratio(0), { b: { times: [s(8), null], walking: s(2) } });
    expect(faultsOf(walked, ["S1: a b"])).toEqual([]);
    const again = line(ratio(0), { b: { times: [s(8), null], walking: s(2), visits: ratio(101, 100) } });
    expect(faultsOf(again, ["S1: a b"])).toEqual([
      "model-overload: city takes 60.1 s at S1, more than 60 s, the working time and 0 %",
    ]);
    const seldom = line(ratio(0), { b: { times: [s(100), null], every: 10 } });
    expect(faultsOf(seldom, ["S1: a b"])).toEqual([]);
  });

  it("wait for the other side like any unit", () => {
    const sided = (before: string) =>
      floorLine(["a 0", `b 0${before}`], {
        models,
        modelOverload: ratio(0),
        tasks: { a: { times: [s(40), s(10)], side: "left" }, b: { times: [s(30), s(10)], side: "right" } },
      });
    expect(faultsOf(sided(""), ["S1: a/left b/right"], { S1: 2 })).toEqual([]);
    expect(faultsOf(sided(" a"), ["S1: a/left b/right"], { S1: 2 })).toEqual([
      "model-overload: city stands 70 s at S1, more than 60 s, the working time and 0 %",
    ]);
  });
});
