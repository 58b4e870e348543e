import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { planOf } from "../../../src/plan/plan.js";
import { dayHours } from "../../../src/simulate/day-hours.js";
import { runsOf } from "./simulated.js";

const [HOUR, MINUTE, SECOND] = [3_600_000_000, 60_000_000, 1_000_000];

function lineWith(calendar: string, also = "", tasks = "a: 60") {
  const { line, findings } = readLine(
    "line.yaml",
    `unit: s\ncalendar: {shifts: ${calendar}}\n${also}\ntasks: {${tasks}}\n`,
  );
  if (line === null) throw new Error(JSON.stringify(findings));
  return line;
}

describe("The hours of a day", () => {
  it("part a shift by its breaks into equal stretches, the longest break in the middle", () => {
    const line = lineWith(
      '{day: {from: "06:00", to: "14:00", breaks: {meal: 30 min, short: 2 x 10 min}, stops: {meeting: 10 min}}}',
    );
    const { line: hours, starts, length } = dayHours(line, null)!;
    expect([starts, length]).toEqual([6 * HOUR, 24 * HOUR]);
    // 480 - 60 min are 420, in five stretches of 84 min: pauses of 10, 10, 30 and 10 min.
    const at = (minutes: number) => hours.clockAt(minutes * MINUTE) / MINUTE;
    expect([0, 84, 85, 168, 169, 252, 253, 336, 337, 420, 421].map(at)).toEqual([
      0, 84, 95, 178, 189, 272, 303, 386, 397, 480, 1441,
    ]);
  });

  it("place shifts by the clock or one after another, and those of a bench beyond the line behind its last one", () => {
    const line = lineWith('{late: {from: "14:00", to: "22:00"}, early: {from: "06:00", to: "13:00"}}');
    const { line: hours, bench } = dayHours(line, 3)!;
    expect([7, 7.5, 15, 16].map((each) => hours.clockAt(each * HOUR) / HOUR)).toEqual([7, 8.5, 16, 25]);
    expect([15, 16, 22.5, 23].map((each) => bench.clockAt(each * HOUR) / HOUR)).toEqual([16, 17, 23.5, 24.5]);
    const lengths = dayHours(lineWith("{one: {length: 2 h}, two: {length: 3 h}}"), 1)!;
    expect([2, 3, 6].map((each) => lengths.line.clockAt(each * HOUR) / HOUR)).toEqual([2, 3, 25]);
    expect([2, 3].map((each) => lengths.bench.clockAt(each * HOUR) / HOUR)).toEqual([2, 25]);
  });

  it("lead from time that is worked to the clock and back", () => {
    const line = lineWith(
      '{a: {from: "06:00", to: "14:00", breaks: 3 x 7 min}, b: {from: "14:00", to: "21:00", overtime: 30 min}}',
    );
    const { line: hours } = dayHours(line, null)!;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100 * HOUR }),
        fc.integer({ min: 0, max: 30 * HOUR }),
        (one, takes) => {
          expect(hours.workedAt(hours.clockAt(one))).toBe(one);
          const until = hours.unattendedUntil(one, takes);
          // No sooner than the pauses allow, and no later than with none.
          expect(until).toBeGreaterThanOrEqual(one);
          expect(until).toBeLessThanOrEqual(one + takes);
          expect(hours.clockAt(until)).toBeLessThanOrEqual(hours.clockAt(one) + takes);
        },
      ),
      { numRuns: 200, seed: 3 },
    );
  });
});

describe("In breaks and between shifts", () => {
  // Two stretches of 45 min with half an hour between them, and the night.
  const calendar = "{day: {length: 2 h, breaks: 30 min}}";
  const hours = 1.5;

  it("glue goes on to set: ten units wait on the other side of the break and are caught up", () => {
    const tasks = "glue: 60, press: {time: 50, after: [{task: glue, wait: 10 min}]}";
    const [run] = runsOf({ line: lineWith(calendar, "", tasks), plan: planOf([[0], [1]]) }, { hours });
    /*
     * Unit k is glued at 60 k. Units up to 35 are ready 600 s later, at 2,700 s the last of them, and leave after 710 s each. Units 36 to 45 set
     * in the break: they follow from 2,750 s on, 50 s apart, so unit k leaves after 2,750 + 50 (k - 35) - 60 (k - 1) = 1,060 - 10 k.
     * Units 46 to 79 take 710 s again, the last one to 60 x 79 + 650 = 5,390 s.
     */
    const caughtUp = Array.from({ length: 10 }, (_, at) => 1060 - 10 * (36 + at)).reduce(
      (sum, each) => sum + each,
    );
    expect(run!.left).toBe(79);
    expect(run!.passThrough).toBe((69 * 710 + caughtUp) * SECOND);
    expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
  });

  it("a machine runs on: of cycles of 30 s and 10 min one ends in the break and one in the night", () => {
    const tasks = "test: {time: 30, machine-time: 10 min}";
    const of = { line: lineWith(calendar, "", tasks), plan: planOf([[0]]) };
    /*
     * Four units by 2,520 s; the fifth runs from 2,550 s and is there after the break, at 2,700 s. Four more by 5,220 s; the tenth runs from
     * 5,250 s into the night and is there as the day begins, at 5,400 s. Without a break and a night there were 8.
     */
    expect(runsOf(of, { hours })[0]!.left).toBe(10);
    expect(runsOf({ ...of, line: { ...of.line, calendar: null } }, { hours })[0]!.left).toBe(8);
    const moving = { ...of, line: { ...of.line, flow: { ...of.line.flow, pacing: "indexing" as const } } };
    expect(runsOf(moving, { hours })[0]!.left).toBe(10);
  });

  it("nobody works: where nothing waits or runs by itself, a calendar makes no difference", () => {
    const also = "variation: {shape: lognormal, cv: 40 %}";
    const line = lineWith(calendar, also, "a: 60, b: {time: 50, after: a}");
    const plan = planOf([[0], [1]]);
    expect(runsOf({ line, plan }, { hours: 20 })).toEqual(
      runsOf({ line: { ...line, calendar: null }, plan }, { hours: 20 }),
    );
  });
});
