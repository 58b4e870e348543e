import { describe, expect, test } from "vitest";
import type { Shift } from "../../../src/time/calendar.js";
import { overlappingShifts } from "../../../src/time/overlapping-shifts.js";
import { grossBetween } from "../../../src/time/read-calendar.js";

const HOUR = 3_600_000_000;

/** "06:00 14:00 1": from, to, and hours of overtime. */
function shiftAt(name: string, times: string): Shift {
  const [from = "", to = "", overtime = "0"] = times.split(" ");
  const gross = grossBetween(from, to);
  if (!gross.ok) throw new Error(gross.problem);
  const [breaks, stops, changeovers] = [[], [], []];
  return {
    name,
    from,
    to,
    gross: gross.value,
    breaks,
    stops,
    changeovers,
    overtime: Number(overtime) * HOUR,
  };
}

const COUNTS = { daysPerWeek: null, daysPerMonth: null, daysPerYear: null, weeksPerYear: null };

/** By how much each two shifts overlap: "b a 30 min". */
function overlaps(...times: string[]): string[] {
  const shifts = times.map((each, at) => shiftAt("abcd"[at]!, each));
  return overlappingShifts({ shifts, ...COUNTS }).map(({ shift, problem }) => {
    const [, other, by] = /shift (\w+) by ([^(]+) \(/u.exec(problem)!;
    return `${shift} ${other} ${by}`;
  });
}

describe("shifts of a day", () => {
  test.each([
    ["14:00 to 22:30 and 22:00 to 05:00 share half an hour", ["14:00 22:30", "22:00 05:00"], ["b a 30 min"]],
    ["that are equal share all of it", ["06:00 14:00", "06:00 14:00"], ["b a 8 h"]],
    ["one over midnight reaches into the morning", ["04:30 12:00", "20:00 05:00"], ["b a 30 min"]],
    ["two over midnight share the night", ["20:00 04:00", "22:00 06:00"], ["b a 6 h"]],
    ["overtime reaches into the next one", ["06:00 14:00 1", "14:00 22:00"], ["b a 1 h"]],
    ["overtime over midnight reaches into the morning", ["16:00 23:30 2", "01:00 06:00"], ["b a 30 min"]],
    ["a long one is met at both ends", ["06:00 19:00", "18:45 06:10"], ["b a 25 min"]],
    [
      "three are compared two by two",
      ["06:00 12:01", "12:00 18:02", "18:00 24:00"],
      ["b a 1 min", "c b 2 min"],
    ],
    ["that only meet share nothing", ["06:00 14:00 2", "16:00 00:00", "24:00 06:00"], []],
  ])("%s", (_, shifts, expected) => {
    expect(overlaps(...shifts)).toEqual(expected);
  });

  test("of one that overlaps many, three are told, and that there are more", () => {
    const names = [..."abcdef"];
    const shifts = names.map((name) => shiftAt(name, "06:00 14:00"));
    const all = overlappingShifts({ shifts, ...COUNTS });
    expect(all.map(({ shift }) => shift).join("")).toBe("bccdddeeefff");
    const telling = all.filter(({ problem }) => problem.includes("and more shifts than these"));
    expect(telling.map(({ shift }) => shift)).toEqual(["e", "f"]);
  });

  test("are not compared where only their length is given", () => {
    const byLength = { ...shiftAt("b", "06:00 14:00"), from: null, to: null };
    expect(overlappingShifts({ shifts: [shiftAt("a", "06:00 14:00"), byLength], ...COUNTS })).toEqual([]);
  });
});
