import { describe, expect, it } from "vitest";
import { otherHoursOf } from "../../../src/answer/off-line/answer-off-line.js";
import { statedJobs } from "../../../src/benches/bench-job.js";
import { countShares } from "../../../src/benches/count-shares.js";
import { type BenchFigures, measureBench } from "../../../src/benches/measure-bench.js";
import type { Line } from "../../../src/line/line.js";
import { paceFromDemand } from "../../../src/time/pace.js";
import { type Ratio, toNumber } from "../../../src/time/ratio.js";
import { idsOf, lineOf, paceOf } from "../../tools/line-of.js";

const options = { nodes: 10_000, checkpoint: () => null };
const seconds = (value: Ratio) => toNumber(value) / 1e6;

/** 450 units in one shift of 7.5 h: a line cycle of 60 s. A frame, wheels of 95 s for a unit, and the bench as it is given. */
const wheelLine = (bench: string, shifts = "{day: {length: 7.5 h}}", demand = 450) =>
  lineOf(
    [
      "unit: s",
      `demand: ${demand} per day`,
      `calendar: {shifts: ${shifts}}`,
      `benches: {wheels: {tasks: [lace, true], ${bench}}}`,
      "tasks:",
      "  frame: {time: 30, on-base: true}",
      "  lace: 40",
      "  true: {time: 55, after: lace}",
      "  fit: {time: 20, after: [frame, true]}",
      "",
    ].join("\n"),
  );

async function measured(line: Line): Promise<BenchFigures> {
  const pace = paceFromDemand({ ...line, demand: line.demand! });
  if (!pace.ok) throw new Error(pace.problem);
  return measureBench(countShares(line), pace.value, statedJobs(line)[0]!, options);
}

describe("A bench of 95 s for a unit beside a line of 450 units in one shift of 27,000 s", () => {
  it("needs 1.583 places in one shift; one place would work 11.88 h for the day, and makes 284 units a shift", async () => {
    // 95 / 60 = 1.583; 450 x 95 s = 42,750 s; 27,000 / 95 = 284.2.
    const bench = await measured(wheelLine("pieces: 1"));
    expect(toNumber(bench.placesNeeded)).toBe(1.583333);
    expect([bench.places, bench.people, bench.peopleOfDay]).toEqual([2, 2, 2]);
    expect(seconds(bench.dayOfWork!)).toBe(42_750);
    expect(bench.unitsByShift).toEqual([{ shift: "day", units: 284 }]);
    expect([bench.stock.start, bench.stock.units]).toEqual([0, null]);
  });

  it("has one place 79.2 % loaded on two shifts, with 166 units ready when the line starts", async () => {
    // 95 / 120 = 79.2 %; in the line's shift the bench makes 284 of 450.
    const bench = await measured(wheelLine("shifts: 2"));
    expect([bench.places, bench.people, bench.peopleOfDay]).toEqual([1, 1, 2]);
    expect(toNumber(bench.load)).toBe(0.791667);
    expect([bench.stock.start, bench.stock.most, bench.stock.units]).toEqual([166, 166, 166]);
  });

  it("is shown at one, two and three shifts, and at no more than a day holds", async () => {
    const line = wheelLine("shifts: 2");
    const bench = await measured(line);
    const pace = paceOf(60);
    const rows = otherHoursOf(line, pace, bench).map((each) => [
      each.bench.hours.shifts,
      each.bench.places,
      each.bench.peopleOfDay,
      each.bench.stock.start,
      each.isChosen,
    ]);
    expect(rows).toEqual([
      [1, 2, 2, 0, false],
      [2, 1, 2, 166, true],
      [3, 1, 3, 166, false],
    ]);
  });
});

describe("Stock for a stop of the bench", () => {
  it("of 2 h is 120 units; beside the line the bench builds them again in 15.2 h, longer than a shift", async () => {
    // 7,200 / 60 = 120. On two shifts: 1/95 - 1/120 units a second, 120 units in 54,720 s.
    const { stock } = await measured(wheelLine("shifts: 2, stop: 2 h"));
    expect(stock.stop!.units).toBe(120);
    expect(seconds(stock.stop!.refill!)).toBe(54_720);
    expect(stock.stop!.refills).toBe("longer than a shift");
    expect(stock.units).toBe(166 + 120);
  });

  it("of 10 min is 10 units, built again within the shift", async () => {
    // Two places on the line's shift: 2/95 - 1/60 units a second = 1/228; 10 units in 2,280 s.
    const { stock } = await measured(wheelLine("stop: 10 min"));
    expect([stock.stop!.units, seconds(stock.stop!.refill!), stock.stop!.refills]).toEqual([
      10,
      2280,
      "within a shift",
    ]);
  });

  it("is never built again where the bench is fully loaded", async () => {
    // 95 s at a line cycle of 95 s: nothing to spare.
    const { placesNeeded, stock } = await measured(wheelLine("stop: 10 min", "{day: {length: 42750 s}}"));
    expect(toNumber(placesNeeded)).toBe(1);
    expect([stock.stop!.refill, stock.stop!.refills]).toEqual([null, "never"]);
  });
});

describe("A bench on one of two shifts of its line", () => {
  it("has twice the places, and half of the day's parts lie there after its shift", async () => {
    // 450 units in two shifts of 13,500 s: takt 60 s; the bench has 30 s a unit, 95 / 30 = 3.17.
    const shifts = "{early: {length: 3.75 h}, late: {length: 3.75 h}}";
    const bench = await measured(wheelLine("shifts: 1", shifts));
    expect([seconds(bench.takt), bench.places, bench.peopleOfDay]).toEqual([30, 4, 4]);
    expect([bench.stock.start, bench.stock.most, bench.stock.units]).toEqual([0, 225, 225]);
  });

  it("has room for whole units: a late shift that draws 186.67 of 400 needs room for 187", async () => {
    const shifts = "{early: {length: 8 h}, late: {length: 7 h}}";
    const { stock } = await measured(wheelLine("shifts: 1", shifts, 400));
    expect([stock.start, stock.most, stock.units]).toEqual([0, 187, 187]);
  });
});

describe("What only some units carry", () => {
  it("leaves the bench a longer pace, and a bunch of 5 in a row needs a stock of 2", async () => {
    // 40 % at 60 s: a takt of 150 s. In 5 x 60 s one place makes 300 / 95 = 3 of 5.
    const bench = await measured(wheelLine("share: 40 %, bunch: 5"));
    expect([seconds(bench.takt), bench.places]).toEqual([150, 1]);
    expect(bench.stock.bunch!.units).toBe(2);
    // 1/95 - 1/150 units a second: 2 units in 2 x 14,250 / 55 s.
    expect(seconds(bench.stock.bunch!.refill!)).toBeCloseTo((2 * 14_250) / 55, 6);
  });

  it("is told by the times of the models where those have it", async () => {
    const line = lineOf(
      [
        "unit: s",
        "models: {city: 60 %, cargo: 40 %}",
        "benches: {seats: {tasks: seat}}",
        "tasks:",
        "  frame: {time: 30, on-base: true}",
        '  seat: {time: {city: "-", cargo: 90}}',
        "  mount: {time: 5, after: [frame, seat]}",
        "",
      ].join("\n"),
    );
    const bench = await measureBench(line, paceOf(60), statedJobs(line)[0]!, options);
    expect([seconds(bench.work), seconds(bench.takt), toNumber(bench.share)]).toEqual([90, 150, 0.4]);
    expect(toNumber(bench.placesNeeded)).toBe(0.6);
  });
});

describe("Two wheels of 40 s for a unit at 60 s", () => {
  const line = lineOf(
    "unit: s\nbenches: {w: {tasks: wheel}}\ntasks: {frame: {time: 50, on-base: true}, wheel: {time: 40, quantity: 2}, fit: {time: 20, after: [frame, wheel]}}\n",
  );

  it("have a takt of 30 s each, fill 133 % of a place and need 2, not the one that 40 s < 60 s suggests", async () => {
    const bench = await measureBench(line, paceOf(60), statedJobs(line)[0]!, options);
    expect([bench.pieces, seconds(bench.pieceTakt)]).toEqual([2, 30]);
    expect([toNumber(bench.placesNeeded), bench.places]).toEqual([1.333333, 2]);
  });
});

describe("A bench of several stations", () => {
  it("is balanced by the same search, with the hand-over at its last station", async () => {
    const line = wheelLine("stations: 2, hand-over: 4 s");
    const bench = await measured(line);
    expect(bench.stations.map(({ tasks, work }) => [idsOf(line, tasks), seconds(work)])).toEqual([
      [["lace"], 40],
      [["true"], 59],
    ]);
    expect([bench.isProved, bench.places, bench.people]).toEqual([true, 1, 2]);
    expect(toNumber(bench.load)).toBe(0.983333);
  });
});

describe("Several parts at one bench", () => {
  it("share its people: work is added first, then rounded up", async () => {
    // 40 + 50 + 25 s at 60 s: 1.92 -> 2 people; each for itself they would take 3.
    const line = lineOf(
      "unit: s\nbenches: {b: {tasks: [p, q, r]}}\ntasks: {frame: {time: 30, on-base: true}, p: 40, q: 50, r: 25, fit: {time: 20, after: [frame, p]}, cap: {time: 9, after: [fit, q, r]}}\n",
    );
    const bench = await measureBench(line, paceOf(60), statedJobs(line)[0]!, options);
    expect([toNumber(bench.placesNeeded), bench.people]).toEqual([1.916667, 2]);
    expect(idsOf(line, bench.joinsAt)).toEqual(["cap", "fit"]);
  });

  it("need two people at each place for a task of two", async () => {
    const line = lineOf(
      "unit: s\nbenches: {b: {tasks: [p]}}\ntasks: {frame: {time: 30, on-base: true}, p: {time: 40, people: 2}, fit: {time: 20, after: [frame, p]}}\n",
    );
    const bench = await measureBench(line, paceOf(60), statedJobs(line)[0]!, options);
    expect([bench.places, bench.crew, bench.people]).toEqual([1, 2, 2]);
  });
});

describe("Reserve and handling", () => {
  it("count at a bench as on the line: (95 / 95 % + 5) / 60 = 1.75 places", async () => {
    const line = wheelLine("pieces: 1");
    const pace = paceFromDemand({
      ...line,
      demand: line.demand!,
      handling: 5_000_000,
      planTo: { num: 19n, den: 20n },
    });
    if (!pace.ok) throw new Error(pace.problem);
    const bench = await measureBench(line, pace.value, statedJobs(line)[0]!, options);
    expect([toNumber(bench.placesNeeded), bench.places]).toEqual([1.75, 2]);
  });
});

describe("Parts that dry before they join", () => {
  it("lie between bench and line for that time: 10 min at 60 s are 10 units", async () => {
    const line = lineOf(
      "unit: s\nbenches: {b: {tasks: [glue]}}\ntasks: {frame: {time: 30, on-base: true}, glue: 40, fit: {time: 20, after: [frame, {task: glue, wait: 10 min}]}}\n",
    );
    const { stock } = await measureBench(line, paceOf(60), statedJobs(line)[0]!, options);
    expect([stock.resting, stock.units]).toEqual([10, 10]);
  });
});

describe("A machine at a bench", () => {
  const line = (bench: string) =>
    lineOf(
      [
        "unit: s",
        "demand: 450 per day",
        "calendar: {shifts: {day: {length: 7.5 h}}}",
        `benches: {wheels: {tasks: [lace, true], ${bench}}}`,
        "tasks:",
        "  frame: {time: 30, on-base: true}",
        "  lace: {time: 10, machine-time: 85, equipment: press}",
        "  true: {time: 15, after: lace}",
        "  fit: {time: 20, after: [frame, true]}",
        "",
      ].join("\n"),
    );
  const machines = async (bench: string) => {
    const { machines: all, places, people } = await measured(line(bench));
    return [all.map(({ name, busy, units }) => [name, seconds(busy), units]), places, people];
  };

  it("is held against the takt of the bench: 95 s of loading and running need 2 at 60 s, and 1 on two shifts", async () => {
    // A wheel stands 10 + 85 + 15 = 110 s at its place: 2 places at 60 s, where one has room for one wheel.
    expect(await machines("pieces: 1")).toEqual([[["press", 95, 2]], 2, 2]);
    expect(await machines("holds: 2")).toEqual([[["press", 95, 2]], 1, 1]);
    expect(await machines("shifts: 2")).toEqual([[["press", 95, 1]], 1, 1]);
  });

  it("that only some units need has their takt", async () => {
    // 60 s / 50 % = 120 s between two units with such parts.
    expect(await machines("share: 50 %")).toEqual([[["press", 95, 1]], 1, 1]);
  });

  it("bounds what the bench builds in a shift, and how fast it builds up stock", async () => {
    // By hand 27,000 / 25 = 1,080; a place with room for one wheel makes 27,000 / 110 = 245, the line takes 450 in its shift.
    const { unitsByShift, stock } = await measured(line("shifts: 2"));
    expect([unitsByShift![0]!.units, stock.start]).toEqual([245, 205]);
  });
});

describe("A bench of two stations", () => {
  const line = (wheel: string, tyre: string, bench: string) =>
    lineOf(
      `unit: s\ndemand: 1 per shift\ncalendar: {shifts: {day: {length: 1 min}}}\nbenches: {b: {tasks: [tyre, wheel], stations: 2${bench}}}\ntasks: {frame: {time: 30, on-base: true}, tyre: ${tyre}, wheel: ${wheel}, fit: {time: 20, after: [frame, tyre, wheel]}}\n`,
    );
  const stations = async (of: Line) =>
    (await measured(of)).stations.map(({ tasks, work, crew }) => [idsOf(of, tasks), seconds(work), crew]);

  it("hands over at its last station, whichever task the search puts there", async () => {
    // The shorter task comes last, as 7 + 2 is less than 8 + 2.
    expect(await stations(line("8", "7", ", hand-over: 2"))).toEqual([
      [["wheel"], 8, 1],
      [["tyre"], 9, 1],
    ]);
    expect(await stations(line("7", "8", ", hand-over: 2"))).toEqual([
      [["tyre"], 8, 1],
      [["wheel"], 9, 1],
    ]);
  });

  it("has at each of them the people of its own tasks", async () => {
    const of = line("{time: 8, people: 2}", "7", "");
    expect((await stations(of)).map(([, , crew]) => crew).sort()).toEqual([1, 2]);
    expect((await measured(of)).people).toBe(3);
  });
});

describe("A bench beside shifts of 8 h and 2 h", () => {
  const at = (bench: string) =>
    measured(wheelLine(bench, "{long: {length: 8 h}, short: {length: 2 h}}", 200));
  const built = async (bench: string) =>
    (await at(bench)).unitsByShift!.map(({ shift, units }) => [shift, units]);

  it("builds 28,800 / 95 = 303 in the shift that it works, and not what a mean of 5 h would give", async () => {
    expect(await built("shifts: 1")).toEqual([["long", 303]]);
    expect(await built("pieces: 1")).toEqual([
      ["long", 303],
      ["short", 75],
    ]);
    expect(await built("shifts: 3")).toEqual([
      ["long", 303],
      ["short", 75],
      [null, 189],
    ]);
  });

  it("builds up a stock within its own shift: 16,751 s are within 8 h, and 12,071 s are more than 2 h", async () => {
    // 200 units in 36,000 s: one every 180 s, or 144 s of the long shift. 60 x 95 x 144 / 49 s, and 60 x 95 x 180 / 85 s.
    const refills = async (bench: string) => {
      const { stop } = (await at(bench)).stock;
      return [stop!.units, Math.round(seconds(stop!.refill!)), stop!.refills];
    };
    expect(await refills("shifts: 1, stop: 3 h")).toEqual([60, 16_751, "within a shift"]);
    expect(await refills("shifts: 1, stop: 6 h")).toEqual([120, 33_502, "longer than a shift"]);
    expect(await refills("stop: 3 h")).toEqual([60, 12_071, "longer than a shift"]);
  });
});
