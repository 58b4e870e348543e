import { describe, expect, it } from "vitest";
import { asItIs } from "../../../src/answer/rebalance/as-it-is.js";
import { cycleOfPlan } from "../../../src/plan/figures/cycle.js";
import { idlePerDay } from "../../../src/plan/figures/idle.js";
import { outputByShift, outputOfDay } from "../../../src/plan/figures/output.js";
import { measurePlan, measureStations } from "../../../src/plan/measure.js";
import { type Plan, planOf } from "../../../src/plan/plan.js";
import { postsOf } from "../../../src/plan/post.js";
import { ratio, toDecimal } from "../../../src/time/ratio.js";
import { taktSum } from "../../../src/time/takt.js";
import { floorLine, planFrom } from "../../tools/floor-line.js";
import { lineOf, numbersOf, paceOf, shortLine } from "../../tools/line-of.js";

const seconds = (micros: Parameters<typeof toDecimal>[0] | number) =>
  toDecimal(
    ratio(
      typeof micros === "number" ? BigInt(micros) : micros.num,
      (typeof micros === "number" ? 1n : micros.den) * 1_000_000n,
    ),
    3,
  );
const share = (value: Parameters<typeof toDecimal>[0] | null) =>
  value === null ? null : toDecimal(value, 4);

describe("figures of three stations of 50, 55 and 45 s at 60 s", () => {
  const line = shortLine(["a 50", "b 55", "c 45"]);
  const plan = planOf([numbersOf(line, "a"), numbersOf(line, "b"), numbersOf(line, "c")]);
  const measures = measurePlan(line, paceOf(60), plan);

  it("are 150/180 at the pace and 150/165 at the slowest station, with both delays", () => {
    expect([measures.efficiencyAtPace, measures.efficiencyAtSlowest].map(share)).toEqual([
      "0.8333",
      "0.9091",
    ]);
    expect([measures.balanceDelayAtPace, measures.balanceDelayAtSlowest].map(share)).toEqual([
      "0.1667",
      "0.0909",
    ]);
    expect(measures.slowestStation).toBe("S2");
  });

  it("have gaps of 5, 0 and 10 s to the slowest station: the root of 125 is 11.180 s", () => {
    expect(measures.smoothness / 1e6).toBeCloseTo(Math.sqrt(125), 6);
  });

  it("leave 10 + 5 + 15 = 30 s idle a unit", () => {
    expect(seconds(measures.idlePerUnit)).toBe("30.000");
  });

  it("hold delay at the pace x its denominator = idle per unit", () => {
    // 1/6 of 3 x 60 s
    expect(share(measures.balanceDelayAtPace)).toBe(toDecimal(ratio(30, 180), 4));
  });
});

describe("an overloaded station", () => {
  const line = shortLine(["a 70", "b 20"]);
  const plan = planOf([numbersOf(line, "a"), numbersOf(line, "b")]);

  it("has no efficiency at the pace, and its 10 s are not set off against the idle 40 s", () => {
    const measures = measurePlan(line, paceOf(60), plan);
    expect(measures.efficiencyAtPace).toBeNull();
    expect(measures.balanceDelayAtPace).toBeNull();
    expect(seconds(measures.idlePerUnit)).toBe("40.000");
    expect(measureStations(line, paceOf(60), plan).map(({ overload }) => seconds(overload))).toEqual([
      "10.000",
      "0.000",
    ]);
  });
});

describe("six positions of which two have two places", () => {
  // 420 a day from 25 200 s: 60 s; work 120 + 60 + 60 + 60 + 60 + 120 = 480 s.
  const line = shortLine(["a 120", "b 60", "c 60", "d 60", "e 60", "f 120"]);
  const plan: Plan = {
    stations: planOf([0, 1, 2, 3, 4, 5].map((task) => [task])).stations.map((station, at) => ({
      ...station,
      places: at === 0 || at === 5 ? 2 : 1,
    })),
  };

  it("are 8 people at 100 %, never 133 % of 6 positions", () => {
    const measures = measurePlan(line, paceOf(60), plan);
    expect(measures.operators).toBe(8);
    expect(share(measures.efficiencyAtPace)).toBe("1.0000");
    expect(seconds(measures.cycleOfPlan)).toBe("60.000");
  });
});

describe("two people together at one place", () => {
  it("count twice in the work content and in what is paid", () => {
    const line = floorLine(["lift 40"], { tasks: { lift: { people: 2 } } });
    const plan = planFrom(line, ["S1: lift"], { S1: 2 });
    const measures = measurePlan(line, paceOf(60), plan);
    expect(seconds(measures.workContent)).toBe("80.000");
    expect(share(measures.efficiencyAtPace)).toBe("0.6667");
    expect(seconds(measures.idlePerUnit)).toBe("40.000");
  });
});

describe("handling of 4 s at two places", () => {
  it("is taken once from places x line cycle, and counts in the cycle of the plan", () => {
    const line = lineOf("line: x\nunit: s\ndemand: 60 per hour\nhandling: 4 s\ntasks: {a: 100}\n");
    const takt = taktSum({ ...line, demand: line.demand! });
    if (!takt.ok) throw new Error(takt.problem);
    const plan = planFrom(line, ["S1 x2: a"]);
    const [station] = measureStations(line, takt.value.pace, plan);
    // 2 x 60 - 4 = 116 s of working time, 16 s idle; a unit every (100 + 4) / 2 = 52 s.
    expect(seconds(station!.workingTime)).toBe("116.000");
    expect(seconds(station!.idle)).toBe("16.000");
    expect(seconds(measurePlan(line, takt.value.pace, plan).cycleOfPlan)).toBe("52.000");
  });
});

describe("a shift of 27 000 s at 450 good units", () => {
  const text = (shifts: string) =>
    `line: x\nunit: s\ndemand: 450 per shift\ncalendar: {shifts: ${shifts}}\ntasks: {a: 50, b: 55, c: 45}\n`;
  const measure = (shifts: string) => {
    const line = lineOf(text(shifts));
    const takt = taktSum({ ...line, demand: line.demand! });
    if (!takt.ok) throw new Error(takt.problem);
    return measurePlan(line, takt.value.pace, planOf([[0], [1], [2]]));
  };

  it("idles 30 s x 450 = 13 500 s and makes floor(27 000 / 55) = 490 units", () => {
    const measures = measure("{day: {length: 7.5 h}}");
    expect(seconds(measures.idlePerShift!)).toBe("13500.000");
    expect(measures.outputPerShift).toBe(490);
    expect(measures.operatorsPerDay).toBe(3);
  });

  it("has no single figure per shift where two shifts differ, and 3 people in each of them", () => {
    const measures = measure("{early: {length: 7 h}, late: {length: 8 h}}");
    expect(measures.idlePerShift).toBeNull();
    expect(measures.outputPerShift).toBeNull();
    expect(measures.operatorsPerDay).toBe(6);
  });
});

describe("shifts that differ in length", () => {
  const line = lineOf(
    "unit: s\ncalendar: {shifts: {early: {length: 7.5 h}, late: {length: 5 h}}}\nuptime: 90 %\ntasks: {a: 40}\n",
  );

  it("make whole units each: 27,000 x 0.9 / 48 = 506.25 and 18,000 x 0.9 / 48 = 337.5", () => {
    const byShift = outputByShift(line, ratio(48_000_000))!;
    expect(byShift).toEqual([
      { shift: "early", units: 506 },
      { shift: "late", units: 337 },
    ]);
    expect(outputOfDay(byShift)).toBe(843);
  });

  it("idle for 6 s a unit in a day of 45,000 s x 0.9 / 48 = 843.75 units: 5,062.5 s", () => {
    expect(idlePerDay(line, ratio(48_000_000), ratio(6_000_000))).toEqual(ratio(5_062_500_000));
  });
});

describe("one rig that two tasks are loaded on and run by themselves", () => {
  // 28,800 s / 100 = 288 s; by hand 20 + 20 + 60 s, the rig 110 + 110 s; the other work is done while the rig runs b from 130 s on.
  const text = (demand: number) =>
    `line: x\nunit: s\ndemand: ${demand} per day\ncalendar: {shifts: {day: {length: 8 h}}}\nequipment: {rig: 1}\ntasks:\n  a: {time: 20, machine-time: 90, equipment: rig}\n  b: {time: 20, machine-time: 90, equipment: rig, after: a}\n  other: 60\n`;
  const at = (demand: number) => {
    const line = lineOf(text(demand));
    const takt = taktSum({ ...line, demand: line.demand! });
    if (!takt.ok) throw new Error(takt.problem);
    return { line, pace: takt.value.pace, plan: planOf([numbersOf(line, "a", "b", "other")]) };
  };

  it("lets a unit go every 220 s: 28,800 / 220 = 130 units a shift, though a person needs 100 s", () => {
    const { line, pace, plan } = at(100);
    const measures = measurePlan(line, pace, plan);
    expect([seconds(measures.cycleOfPlan), measures.outputPerShift]).toEqual(["220.000", 130]);
    // 100 s of work in 288 s, and in 220 s.
    expect([measures.efficiencyAtPace, measures.efficiencyAtSlowest].map(share)).toEqual([
      "0.3472",
      "0.4545",
    ]);
  });

  it("needs 28,800 x 220 / 115.2 = 55,000 s for 250 units, and is 104.8 s above that pace", () => {
    const { line, pace, plan } = at(250);
    expect(seconds(asItIs(line, pace, plan).timeNeeded!)).toBe("55000.000");
    expect(measureStations(line, pace, plan).map(({ overload }) => seconds(overload))).toEqual(["104.800"]);
    expect(measurePlan(line, pace, plan).efficiencyAtPace).toBeNull();
  });

  it("counts for stations that share what exists: the busiest has the second of two", () => {
    const line = lineOf(
      "unit: s\nholds: 2\nequipment: {rig: 3}\ntasks:\n  a: {time: 20, machine-time: 90, equipment: rig}\n  b: {time: 20, machine-time: 160, equipment: rig}\n",
    );
    const posts = postsOf(line, paceOf(100), planOf([numbersOf(line, "a"), numbersOf(line, "b")]));
    // 110 / 1 = 110 s, 180 / 2 = 90 s.
    expect(posts.map(({ equipment }) => equipment.map(({ units }) => units))).toEqual([[1], [2]]);
    expect(seconds(cycleOfPlan(posts))).toBe("110.000");
  });
});
