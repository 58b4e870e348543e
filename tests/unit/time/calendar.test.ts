import { describe, expect, test } from "vitest";
import {
  availableTime,
  availableTimeOf,
  type Calendar,
  calendarFaults,
  type Shift,
} from "../../../src/time/calendar.js";
import { PERIODS } from "../../../src/time/demand.js";
import { ratio } from "../../../src/time/ratio.js";
import {
  grossBetween,
  readCalendarCount,
  readClock,
  readNamedTime,
  readShiftLength,
} from "../../../src/time/read-calendar.js";
import { longTime } from "../../../src/time/show-values.js";

const MINUTE = 60_000_000;
const named = (name: string, text: string) => {
  const read = readNamedTime(name, text);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};
const shift = (given: Partial<Shift>): Shift => ({
  name: "early",
  from: null,
  to: null,
  gross: 480 * MINUTE,
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

describe("a named time of a shift", () => {
  test.each([
    ["30 min", 1, 30],
    ["3 x 10 min", 3, 10],
    ["3x10 min", 3, 10],
    ["2 × 15 min", 2, 15],
    ["12:30", 1, 12.5],
    ["0", 1, 0],
  ])("%j is read as a count and a time", (text, count, minutes) => {
    expect(readNamedTime("colour", text)).toEqual({
      ok: true,
      value: { name: "colour", count, each: minutes * MINUTE },
    });
  });

  test.each([
    ["45", '"45" is not a time: it needs a unit; write 45 min or 45 s'],
    ["3 x 10", '"10" is not a time: it needs a unit; write 10 min or 10 s'],
    ["10 min x 3", '"10 min x 3" is not a time: write 3 x 10 min'],
    ["0 x 10 min", '"0 x 10 min" is no time: the number before the x is a whole number from 1'],
    ["0x1A", '"0x1A" is not a time: write the number out in plain digits: 26'],
    ["3 x 9 h", '"3 x 9 h" is more than the 24 h of a day'],
    ["", "a time is missing (blank is never 0): write it with its unit, such as 40 s or 1.5 min"],
  ])("refuses %j, saying why", (text, problem) => {
    expect(readNamedTime("colour", text)).toEqual({ ok: false, problem });
  });
});

describe("the length of a shift", () => {
  test.each(["7 1/2 h", "7½ h", "7.5 h", "7:30:00", "7 h 30 min", "27000 s"])("%j is 27,000 s", (text) => {
    expect(readShiftLength(text)).toEqual({ ok: true, value: 27_000_000_000 });
  });

  test.each([
    ["7:30", '"7:30" would be 7 min 30 s (a:b is mm:ss); write 7 h 30 min or 7:30:00'],
    ["8:00", '"8:00" would be 8 min (a:b is mm:ss); write 8 h or 8:00:00'],
    ["7,5 h", '"7,5 h" is not a time: decimals take a point; write 7.5 h'],
    ["7h30", '"7h30" is not a time: every number needs its unit; write 7 h 30 min or 7:30:00'],
    ["71/2 h", '"71/2 h" is not a time: a fraction must be below 1; write 7 1/2 h or 35.5 h'],
    ["8", '"8" is not a time: it needs a unit; write 8 h or 8 min'],
    ["25 h", '"25 h" is more than the 24 h of a day'],
  ])("refuses %j, saying why", (text, problem) => {
    expect(readShiftLength(text)).toEqual({ ok: false, problem });
  });
});

describe("the time of day", () => {
  test("is read in 24-hour form", () => {
    expect(["06:00", "6:00", "23:59", "24:00"].map(readClock)).toEqual(
      [360, 360, 1439, 1440].map((minutes) => ({ ok: true, value: minutes * MINUTE })),
    );
  });

  test.each([
    ["6", "06:00"],
    ["0600", "06:00"],
    ["6.30", "06:30"],
    ["06:00:00", "06:00"],
    ["2:00 pm", "14:00"],
    ["12 am", "00:00"],
    ["24:30", "hours and minutes from 00:00 to 24:00, such as 06:00"],
    ["noon", "hours and minutes from 00:00 to 24:00, such as 06:00"],
  ])("refuses %j and names what to write", (text, write) => {
    expect(readClock(text)).toEqual({ ok: false, problem: `"${text}" is not a time of day: write ${write}` });
  });

  test.each([
    ["06:00", "14:00", "8 h"],
    ["22:00", "06:00", "8 h"],
    ["22:15", "06:00", "7 h 45 min"],
    ["16:00", "24:00", "8 h"],
    ["00:00", "24:00", "24 h"],
    ["24:00", "06:00", "6 h"],
  ])("from %s to %s is %s, over midnight where it must", (from, to, expected) => {
    const read = grossBetween(from, to);
    expect(read.ok && longTime(read.value)).toBe(expected);
  });

  test("does not guess whether from = to is nothing or a whole day", () => {
    expect(grossBetween("06:00", "06:00")).toEqual({
      ok: false,
      problem: "a shift from 06:00 to 06:00 has no length; if it runs round the clock, write `length: 24 h`",
    });
  });
});

describe("the available time", () => {
  test("is gross time less breaks, stops and changeovers, plus overtime", () => {
    const full = shift({
      breaks: [named("short", "2 x 15 min")],
      stops: [named("start-up", "30 min")],
      changeovers: [named("colour", "3 x 10 min")],
      overtime: 60 * MINUTE,
    });
    // 480 - 30 - 30 - 30 + 60 = 450
    expect(availableTime(full)).toBe(450 * MINUTE);
  });

  const two = calendar([shift({}), shift({ name: "late", gross: 360 * MINUTE })], {
    daysPerWeek: ratio(5),
    daysPerMonth: ratio(2167, 100),
    weeksPerYear: ratio(48),
  });

  test("of every period follows from the shifts of a day and the counts of days", () => {
    // day 840 min; shift 420; week 4200; month 840 x 21.67 = 18,202.8; year 840 x 5 x 48 = 201,600
    const minutes = PERIODS.map((period) => availableTimeOf(two, period));
    expect(minutes).toEqual(
      [60, 420, 840, 4200, 18_202.8, 201_600].map((each) => ({
        ok: true,
        value: ratio(Math.round(each * MINUTE)),
      })),
    );
  });

  test("of an hour needs no calendar", () => {
    expect(availableTimeOf(null, "hour")).toEqual({ ok: true, value: ratio(60 * MINUTE) });
  });

  test.each([
    ["week", "no count", {}, "`days-per-week`"],
    ["month", "no count", {}, "`days-per-month`"],
    ["year", "no count", {}, "`days-per-year`, or `days-per-week` and `weeks-per-year`,"],
    [
      "year",
      "days of a week",
      { daysPerWeek: ratio(5) },
      "`weeks-per-year` (beside `days-per-week`) or `days-per-year`",
    ],
    [
      "year",
      "weeks of a year",
      { weeksPerYear: ratio(48) },
      "`days-per-week` (beside `weeks-per-year`) or `days-per-year`",
    ],
  ] as const)("of a %s with %s is refused, naming the missing count", (period, _, counts, keys) => {
    expect(availableTimeOf(calendar([shift({})], counts), period)).toEqual({
      ok: false,
      problem: `a demand per ${period} needs ${keys} in the calendar; how many days are worked is never guessed`,
    });
  });

  test("of a day without a calendar is refused", () => {
    expect(availableTimeOf(null, "day")).toEqual({
      ok: false,
      problem: "a demand per day needs a `calendar:` that says how long the line works",
    });
  });

  test("finds nothing wrong with a sound calendar", () => {
    expect(calendarFaults(two)).toEqual([]);
  });

  test("finds every fault of a calendar at once", () => {
    const shifts = [
      shift({ name: "day", gross: 720 * MINUTE }),
      shift({ name: "night", gross: 780 * MINUTE, breaks: [named("sleep", "13 h")] }),
    ];
    const counts = { daysPerWeek: ratio(5), weeksPerYear: ratio(50), daysPerYear: ratio(240) };
    expect(calendarFaults(calendar(shifts, counts))).toEqual([
      {
        shift: "night",
        problem:
          "breaks, stops and changeovers of 13 h leave nothing of the 13 h of the shift; less than that is expected",
      },
      { shift: null, problem: "the shifts of a day take 25 h together; a day has 24 h" },
      {
        shift: null,
        problem:
          "days-per-year is 240, but days-per-week x weeks-per-year is 5 x 50 = 250; give one of the two",
      },
    ]);
  });
});

describe("a count of days or weeks", () => {
  test("is exact and may have decimals", () => {
    expect(readCalendarCount("days-per-month", "21.67")).toEqual({ ok: true, value: ratio(2167, 100) });
  });

  test.each([
    ["days-per-week", "8", '"8" cannot be: a number above 0, at most 7, is expected'],
    ["days-per-week", "0", '"0" cannot be: a number above 0, at most 7, is expected'],
    [
      "days-per-month",
      "",
      "days-per-month is missing (blank is never 0): a number above 0, at most 31, is expected",
    ],
    ["days-per-year", "five", '"five" is not a number: a number above 0, at most 366, is expected'],
    ["weeks-per-year", "-48", '"-48" is not a number: it must not be negative; write 48 if that is meant'],
  ] as const)("of %s refuses %j", (key, text, problem) => {
    expect(readCalendarCount(key, text)).toEqual({ ok: false, problem });
  });
});
