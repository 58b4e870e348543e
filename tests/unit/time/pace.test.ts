import { describe, expect, test } from "vitest";
import type { Calendar, NamedTime, Shift } from "../../../src/time/calendar.js";
import { type Demand, readDemand } from "../../../src/time/demand.js";
import { type PaceTerms, paceFromCycle, paceFromDemand } from "../../../src/time/pace.js";
import { ONE, ratio } from "../../../src/time/ratio.js";
import { decimal, inUnit, percent, seconds } from "../../../src/time/show-values.js";
import { type TaktSum, taktSum } from "../../../src/time/takt.js";

const MINUTE = 60_000_000;
const once = (name: string, minutes: number): NamedTime => ({ name, count: 1, each: minutes * MINUTE });
const shift = (minutes: number, given: Partial<Shift> = {}): Shift => ({
  name: "early",
  from: null,
  to: null,
  gross: minutes * MINUTE,
  breaks: [],
  stops: [],
  changeovers: [],
  overtime: 0,
  ...given,
});
const calendar = (shifts: Shift[], counts: Partial<Calendar> = {}): Calendar => ({
  shifts,
  daysPerWeek: null,
  daysPerMonth: null,
  daysPerYear: null,
  weeksPerYear: null,
  ...counts,
});
const demand = (text: string): Demand => {
  const read = readDemand(text);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};
const terms = (text: string, given: Calendar | null, rest: Partial<PaceTerms> = {}): PaceTerms => ({
  demand: demand(text),
  calendar: given,
  uptime: ONE,
  yield: ONE,
  handling: 0,
  planTo: ONE,
  ...rest,
});
const sum = (given: PaceTerms): TaktSum => {
  const read = taktSum(given);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};
const takt = (text: string, given: Calendar | null) => inUnit(sum(terms(text, given)).takt, "s", 3);

describe("takt", () => {
  // Stevenson, Operations Management, lean chapter, example 1: 480 min less 20, 20 and 30, two shifts, 80 a day.
  test("is 10.25 min in Stevenson's example of two shifts", () => {
    const each = { breaks: [once("first", 20), once("second", 20), once("meal", 30)] };
    const two = sum(terms("80 per day", calendar([shift(480, each), shift(480, { ...each, name: "late" })])));
    expect(two.calendar?.shifts.map((one) => one.available / MINUTE)).toEqual([410, 410]);
    expect(two.calendar?.availablePerDay).toBe(820 * MINUTE);
    expect(inUnit(two.takt, "min", 2)).toBe("10.25");
  });

  // Exercise answers of the same kind, found in course texts.
  test.each([
    ["80 per day", [20, 60], 480, "300.000"],
    ["357 per day", [82], 410, "55.126"],
    ["160 per day", [], 480, "180.000"],
    // 27,600 s and 460 units a shift (Rother and Shook, Learning to See, Acme)
    ["460 per shift", [10, 10], 480, "60.000"],
  ])("of %s with breaks of %j min in %d min is %s s", (wanted, breaks, minutes, expected) => {
    const named = breaks.map((each, at) => once(`break ${at + 1}`, each));
    expect(takt(wanted, calendar([shift(minutes, { breaks: named })]))).toBe(expected);
  });

  test("of a yearly demand is 34.32 s over 52 weeks of 5 days and two shifts", () => {
    const each = { breaks: [once("meal", 30), once("first", 10), once("second", 10)] };
    const weeks = { daysPerWeek: ratio(5), weeksPerYear: ratio(52) };
    const two = calendar([shift(600, each), shift(600, each)], weeks);
    const year = sum(terms("500000 per year", two));
    // 330,000 s a week
    expect(inUnit(year.availablePerPeriod, "s", 0)).toBe("17,160,000");
    expect(inUnit(year.takt, "s", 2)).toBe("34.32");
    expect(year.calendar?.counts.map((each) => each.key)).toEqual(["days-per-week", "weeks-per-year"]);
  });

  test("subtracts breaks: 960 min of two shifts for 480 units is 120 s, not 127.5 s", () => {
    const each = { breaks: [once("meal", 30)] };
    expect(takt("480 per day", calendar([shift(510, each), shift(510, each)]))).toBe("120.000");
  });

  test.each([
    ["without overtime", {}, "210.000"],
    ["with overtime of 60 min", { overtime: 60 * MINUTE }, "240.000"],
    ["without the planned stop", { stops: [], overtime: 60 * MINUTE }, "255.000"],
    ["with breaks only", { stops: [] }, "225.000"],
  ])("of two 8 h shifts for 240 units %s is one figure", (_, given, expected) => {
    const breaks = [{ name: "short", count: 2, each: 15 * MINUTE }];
    const one = shift(480, { breaks, stops: [once("service", 30)], ...given });
    expect(takt("240 per day", calendar([one, one]))).toBe(expected);
  });

  test.each([
    [22, "135.000", "200"],
    [20, "122.727", "220"],
    [30, "184.091", "146.667"],
  ])("of 4400 a month over %d days is %s s and %s a day", (days, expected, perDay) => {
    const month = sum(terms("4400 per month", calendar([shift(450)], { daysPerMonth: ratio(days) })));
    expect(inUnit(month.takt, "s", 3)).toBe(expected);
    expect(decimal(month.calendar!.demandPerDay, 3)).toBe(perDay);
  });

  test("loses three changeovers of 10 min: 84 s instead of 90 s", () => {
    const changeovers = [{ name: "colour", count: 3, each: 10 * MINUTE }];
    expect([
      takt("300 per day", calendar([shift(450)])),
      takt("300 per day", calendar([shift(450, { changeovers })])),
    ]).toEqual(["90.000", "84.000"]);
  });

  test("doubles with the hours alone, not with hours and demand together", () => {
    const day = (hours: number) => calendar([shift(hours * 60)]);
    expect([
      takt("100 per day", day(11)),
      takt("200 per day", day(22)),
      takt("100 per day", day(22)),
    ]).toEqual(["396.000", "396.000", "792.000"]);
  });
});

describe("the pace", () => {
  // Groover, Automation, Production Systems, and CIM, manual assembly lines: 150,000 a year in 250 days of 10 h,
  // uptime 96 %, repositioning 6 s: Rp 60 per hour, Tc 0.96 min, Ts 0.86 min, Er 0.895833.
  test("is Groover's cycle 60 E / Rp, and the working time his service time", () => {
    const year = calendar([shift(600)], { daysPerYear: ratio(250) });
    const groover = sum(terms("150000 per year", year, { uptime: ratio(96, 100), handling: 6_000_000 }));
    expect(groover.demandPerHour).toEqual(ratio(60));
    expect(inUnit(groover.pace.lineCycle, "min", 2)).toBe("0.96");
    expect(inUnit(groover.pace.workingTime, "min", 2)).toBe("0.86");
    expect(percent(groover.workingShare, 4)).toBe("89.5833 %");
  });

  // The same chapter, 42-minute product: 100,000 in 50 weeks of 5 shifts of 7.5 h, uptime 97 %.
  test("is 1.09125 min for Groover's second product", () => {
    const year = calendar([shift(450)], { daysPerWeek: ratio(5), weeksPerYear: ratio(50) });
    const groover = sum(terms("100000 per year", year, { uptime: ratio(97, 100), handling: 6_000_000 }));
    expect(groover.demandPerHour).toEqual(ratio(160, 3));
    expect(inUnit(groover.pace.lineCycle, "min", 5)).toBe("1.09125");
    expect(inUnit(groover.pace.workingTime, "min", 5)).toBe("0.99125");
    expect(percent(groover.workingShare, 4)).toBe("90.8362 %");
  });

  test("keeps takt free of losses: 27,000 s for 225 units at 85 % is takt 120 s and line cycle 102 s", () => {
    const read = paceFromDemand(terms("225 per day", calendar([shift(450)]), { uptime: ratio(85, 100) }));
    expect(read.ok && [seconds(read.value.takt!), seconds(read.value.lineCycle)]).toEqual(["120 s", "102 s"]);
  });

  // Tompkins and White, Facilities Planning, scrap estimates: 97,000 good units after losses of 4, 1 and 3 %
  // need 105,219 units started.
  test("starts as many units as Tompkins and White need for 97,000 good ones", () => {
    const rolled = ratio(96n * 99n * 97n, 1_000_000n);
    const year = calendar([shift(480)], { daysPerYear: ratio(250) });
    const scrap = sum(terms("97000 per year", year, { yield: rolled }));
    expect(scrap.wholeUnitsToStart).toBe(105_219n);
  });

  test("divides by the yield instead of adding the loss: 60 good at 80 % need 75, 400 at 90 % need 445", () => {
    const start = (text: string, share: number) =>
      sum(terms(text, calendar([shift(450)]), { yield: ratio(share, 100) })).wholeUnitsToStart;
    expect([start("60 per day", 80), start("400 per day", 90)]).toEqual([75n, 445n]);
  });

  test("comes from takt in four steps that hang together", () => {
    // 28,800 - 2,700 = 26,100 s for 176: takt 148.295; x 0.94 x 0.99; - 4 s; x 0.95
    const given = terms("176 per day", calendar([shift(480, { breaks: [once("breaks", 45)] })]), {
      uptime: ratio(94, 100),
      yield: ratio(99, 100),
      handling: 4_000_000,
      planTo: ratio(95, 100),
    });
    const { steps, pace, takt: customer } = sum(given);
    expect(steps.map((step) => [step.kind, seconds(step.before), seconds(step.after)])).toEqual([
      ["uptime", "148.295 s", "139.398 s"],
      ["yield", "139.398 s", "138.004 s"],
      ["handling", "138.004 s", "134.004 s"],
      ["plan-to", "134.004 s", "127.304 s"],
    ]);
    expect([steps[0]!.before, steps[3]!.after]).toEqual([customer, pace.stationLimit]);
    expect(sum(given).pace).toEqual(pace);
  });

  test("needs no calendar where demand is per hour of available time", () => {
    const hour = sum(terms("60 per hour", null));
    expect([hour.takt, hour.calendar]).toEqual([ratio(60_000_000), null]);
  });

  test("is refused where handling leaves nothing to work in", () => {
    expect(paceFromDemand(terms("60 per hour", null, { handling: 60_000_000 }))).toEqual({
      ok: false,
      problem:
        "handling of 60 s leaves no working time in a line cycle of 60 s: handling must be below the line cycle; lower it, or the demand",
    });
  });

  test("is refused where the calendar has no count for the period", () => {
    const read = taktSum(terms("4400 per month", calendar([shift(450)])));
    expect(read.ok).toBe(false);
  });

  test("from a given line cycle has that as its working time and station limit, without takt", () => {
    const whole = ratio(60_000_000);
    expect(paceFromCycle(60_000_000)).toEqual({
      takt: null,
      lineCycle: whole,
      handling: 0,
      planTo: ONE,
      workingTime: whole,
      stationLimit: whole,
    });
  });
});
