import { describe, expect, it } from "vitest";
import { LearnedLine } from "../../../src/line/learned-line.js";
import { LearningCurve, MOST_UNITS } from "../../../src/line/learning-curve.js";
import type { Learning } from "../../../src/line/line.js";
import { ONE, ratio, ZERO } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const SECOND = 1_000_000;

const curve = (given: Partial<Learning>) =>
  new LearningCurve({ share: ratio(4, 5), by: "unit", timeAt: 1, least: ZERO, ...given });
const times = (each: LearningCurve, units: readonly number[]) =>
  units.map((unit) => each.timeOf(100 * SECOND, unit) / SECOND);

describe("The time of a unit", () => {
  it("falls to the share at each doubling: 100, 80, 64, 51.2, 40.96 s at 80 %", () => {
    expect(times(curve({}), [1, 2, 4, 8, 16])).toEqual([100, 80, 64, 51.2, 40.96]);
  });

  it("is that of the file at the unit that is said: 100 s at unit 4, so 100 / 0.64 at unit 1 and 100 / 0.8 at unit 2", () => {
    expect(times(curve({ timeAt: 4 }), [1, 2, 4, 8])).toEqual([156.25, 125, 100, 80]);
  });

  it("is never below the least: 100 % of 100 s from unit 4 on, or 75 s", () => {
    expect(times(curve({ timeAt: 4, least: ONE }), [2, 4, 5, 1000])).toEqual([125, 100, 100, 100]);
    expect(times(curve({ timeAt: 4, least: ratio(3, 4) }), [4, 8, 16])).toEqual([100, 80, 75]);
  });

  it("is what the total grows by where the mean falls: means of 100, 80, 64 s are totals of 100, 160, 256 s at 1, 2, 4 units", () => {
    const wright = curve({ by: "average" });
    const [first, second, third, fourth] = times(wright, [1, 2, 3, 4]);
    expect([first, second]).toEqual([100, 60]);
    expect(third! + fourth!).toBeCloseTo(256 - 160, 5);
  });

  it("is rounded half up to whole microseconds: 5 us x 0.9 = 4.5, 5 us x 0.81 = 4.05", () => {
    const slow = curve({ share: ratio(9, 10) });
    expect([1, 2, 4].map((unit) => slow.timeOf(5, unit))).toEqual([5, 5, 4]);
  });

  it("settles at the unit that takes the least: 64 % of the first at unit 4, never for no least", () => {
    expect(curve({ least: ratio(64, 100) }).settlesAt()).toBe(4);
    expect(curve({ timeAt: 120, least: ONE }).settlesAt()).toBe(120);
    expect(curve({ share: ONE, least: ONE }).settlesAt()).toBe(1);
    expect(curve({}).settlesAt()).toBe(null);
    expect(curve({ least: ratio(1, 100) }).timeOf(100 * SECOND, MOST_UNITS)).toBe(1_170_662);
  });
});

describe("What a line file says of learning", () => {
  const line = lineOf(`unit: s
learning: {share: 90 %, by: average, time-at: 200, built: 30 units}
tasks:
  a: 10
  b: {time: 20, learning: 80 %}
  c: {time: 30, learning: {built: 0, least: 60 %}}
  d: {time: 40, learning: 100 %}
`);

  it("holds for each task, which may say other things of its own", () => {
    const whole = { share: ratio(9, 10), by: "average", timeAt: 200, least: ONE, built: 30 };
    expect(line.tasks.map(({ learning }) => learning)).toEqual([
      whole,
      { ...whole, share: ratio(4, 5) },
      { ...whole, built: 0, least: ratio(3, 5) },
      null,
    ]);
  });

  it("is by unit, of a time at unit 1,000 that no unit beats, with nothing built, where it is a share alone", () => {
    expect(lineOf("learning: 85 %\ntasks: {a: 4 s}\n").tasks[0]!.learning).toEqual({
      share: ratio(17, 20),
      by: "unit",
      timeAt: 1000,
      least: ONE,
      built: 0,
    });
  });

  it("is nothing where it says nothing", () => {
    expect(lineOf("tasks: {a: 4 s}\n").tasks[0]!.learning).toBe(null);
  });
});

describe("A line at a unit", () => {
  const line = lineOf(`unit: s
models: {city: 50 %, cargo: 50 %}
learning: {share: 80 %, time-at: 8}
tasks:
  a: {time: {city: 40, cargo: "-"}, walking: 3, machine-time: 7, learning: {built: 2}}
  b: {time: 10, learning: 100 %}
`);

  it("has its hand times by what was built before and since: 40 s / 0.8 at the second unit after 2, walking and machine as they are", () => {
    const [a, b] = new LearnedLine(line).at(2).tasks;
    expect([a!.times, a!.walking, a!.machineTime]).toEqual([[null, 50 * SECOND], 3 * SECOND, 7 * SECOND]);
    // Half the units have it: (50 + 3) / 2.
    expect(a!.load).toEqual(ratio(26.5 * SECOND));
    expect(b).toEqual(line.tasks[1]);
  });

  it("is as the file has it once all is learned: unit 8 is the sixth after 2", () => {
    const learned = new LearnedLine(line);
    expect(learned.settlesAt).toBe(6);
    expect(learned.at(6)).toEqual(line);
    expect(learned.at(5)).not.toEqual(line);
  });
});
