import { describe, expect, it } from "vitest";
import type { Line } from "../../../../src/line/line.js";
import { balance } from "../../../../src/solve/balance.js";
import { fixStations } from "../../../../src/solve/fix-stations.js";
import { type Ratio, ratio, toNumber } from "../../../../src/time/ratio.js";
import { floorLine, s } from "../../../tools/floor-line.js";
import { rowsOf } from "../../../tools/floor-plans.js";
import { paceWith } from "../../../tools/floor-random-line.js";
import { paceOf } from "../../../tools/line-of.js";

const inSeconds = (time: Ratio) => toNumber(time) / 1e6;
const OPTIONS = { method: "best", nodes: 100_000, strictLimit: false, level: true, explain: false };

/** The evened plan, its cycle and what is proved, in seconds. */
async function even(line: Line, pace = paceOf(60)) {
  const { plan, level } = await balance(line, pace, { ...OPTIONS, checkpoint: () => null });
  return { rows: rowsOf(line, plan!), cycle: inSeconds(level!.slowest), bound: inSeconds(level!.bound) };
}

describe("evening out a line with rules", () => {
  it("keeps the people and the stations, and shortens the slowest one", async () => {
    // a and b apart: with c at one of them and d at the other 50 and 40 s, with both at one 60 and 30 s.
    const line = floorLine(["a 30", "b 30", "c 20", "d 10"], { apart: [["a", "b"]] });
    expect(await even(line)).toEqual({ rows: ["S1: a c", "S2: b d"], cycle: 50, bound: 50 });
  });

  it("divides the time of a station among its places", async () => {
    // 100 s of a, b and c are 50 s for each of two places; d apart from them takes 40 s.
    const line = floorLine(["a 40", "b 30", "c 30", "d 40"], {
      maxPlaces: 2,
      together: [["a", "b", "c"]],
      apart: [["a", "d"]],
    });
    expect(await even(line)).toEqual({ rows: ["S1 x2: a b c", "S2: d"], cycle: 50, bound: 50 });
  });

  it("counts handling in, once a unit and place", async () => {
    // (30 + 20 + 5) s at the one, (30 + 15 + 5) s at the other.
    const line = floorLine(["a 30", "b 30", "c 20", "d 15"], { apart: [["a", "b"]] });
    expect((await even(line, paceWith(60, 5))).cycle).toBe(55);
  });

  it("works both sides of a crew of two, and gives the sides that the shorter cycle needs", async () => {
    // 90 % of 30 s are 27 s. c takes two people 25 s; a and b beside it end after 34 s at the earliest, and take one person 21 s.
    const line = floorLine(["a 12", "b 9", "c 25"], { tasks: { c: { side: "left", people: 2 } } });
    expect(await even(line, paceWith(30, 0, ratio(9, 10)))).toEqual({
      rows: ["S1: c/both by 2", "S2: a/left b/left"],
      cycle: 25,
      bound: 25,
    });
  });
});

describe("a given number of stations", () => {
  const fixed = async (line: Line, count: number) => {
    const found = await fixStations(line, count, 20_000, () => null);
    if (found.plan === null) return found;
    return { rows: rowsOf(line, found.plan), slowest: inSeconds(found.cycle), proved: found.proved };
  };

  it("is worked as fast as the rules let it be", async () => {
    const line = floorLine(["a 30", "b 30", "c 20"], { together: [["a", "b"]] });
    expect(await fixed(line, 2)).toEqual({ rows: ["S1: a b", "S2: c"], slowest: 60, proved: true });
  });

  it("is worked by both sides at once where the product is wide", async () => {
    // 80 s at one station: 50 and 30 s on its sides.
    const line = floorLine(["a 30", "b 30", "c 20"], { tasks: { a: { side: "either" } } });
    expect(await fixed(line, 1)).toEqual({
      rows: ["S1: a/left b/right c/left by 2"],
      slowest: 50,
      proved: true,
    });
  });

  it("has no plan where the rules need more stations", async () => {
    const line = floorLine(["a 30", "b 30", "c 20"], { apart: [["a", "b", "c"]] });
    expect(await fixed(line, 2)).toEqual({ plan: null, isProved: true });
    expect(await fixed(line, 3)).toMatchObject({ slowest: 30, proved: true });
  });

  it("is worked no faster than each model may be above the working time", async () => {
    // City takes 120 s and cargo 160 s, 140 s in the mean; 160 s / 1.1 = 145.4545... s.
    const line = floorLine(["a 60", "b 60 a"], { ...MODELS, tasks: { a: { times: [s(60), s(100)] } } });
    const found = await fixStations(line, 1, 20_000, () => null);
    expect(found).toMatchObject({
      proved: true,
      cycle: ratio(s(1600), 11),
      reason: { kind: "model", model: 1, time: ratio(s(160)), of: { stations: 1 }, overload: ratio(1, 10) },
    });
    // Handling takes no share: (100 / 1.1 + 2) s for a alone.
    const handled = await fixStations({ ...line, handling: s(2) }, 2, 20_000, () => null);
    expect(handled).toMatchObject({
      proved: true,
      cycle: ratio(s(1022), 11),
      cycleBound: ratio(s(1022), 11),
    });
  });

  it("is worked no faster than the machines that exist are held, or a unit stands", async () => {
    // One press: (30 + 60) s, as long as a unit stands. Two at one station that holds two units: 45 s each, and b takes 40 s at the other.
    const rows = ["a 30", "b 40 a"];
    const tasks = { a: { equipment: ["press"], machineTime: s(60) } };
    const terms = { tasks, equipment: { press: 2 } };
    expect(await fixed(floorLine(rows, { ...terms, equipment: { press: 1 }, holds: 2 }), 2)).toMatchObject({
      slowest: 90,
    });
    expect(await fixed(floorLine(rows, terms), 2)).toMatchObject({ slowest: 90 });
    expect(await fixed(floorLine(rows, { ...terms, holds: 2 }), 2)).toEqual({
      rows: ["S1: a", "S2: b"],
      slowest: 45,
      proved: true,
    });
  });

  it("shares machines among stations so that the busiest has the least to do", async () => {
    // a and c apart, 90 and 50 s at the press: of three presses a has two, 45 s each, so that c with 50 s sets the pace.
    const line = floorLine(["a 30", "c 20"], {
      tasks: {
        a: { equipment: ["press"], machineTime: s(60) },
        c: { equipment: ["press"], machineTime: s(30) },
      },
      equipment: { press: 3 },
      apart: [["a", "c"]],
      holds: 2,
    });
    expect(await fixed(line, 2)).toMatchObject({ slowest: 50, proved: true });
  });
});

const MODELS = {
  models: [
    { id: "city", share: ratio(1, 2) },
    { id: "cargo", share: ratio(1, 2) },
  ],
  modelOverload: ratio(1, 10),
};
