import { describe, expect, test } from "vitest";
import { amountOf, limitRows, limitsAt, unitsPerShift } from "../../../src/line/parts/limits.js";
import { ratio } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const CALENDAR = "calendar: {shifts: {early: {length: 8 h, breaks: 30 min}, late: {length: 5 h}}}";

describe("Limits are read", () => {
  const line = lineOf(
    [
      "demand: 100 per day",
      CALENDAR,
      "limits: {shelf: {per: station, most: 1 1/2 m}, kits: {per: person, most: 3}}",
      "stations: [{id: S1, limits: {' shelf ': {per: person, most: 0.6m}}}, {id: S2}]",
      "tasks: {a: {time: 1 s, uses: {'shelf ': 1/3 m, kits: 1}}, b: 1 s}",
    ].join("\n"),
  );

  test("as exact amounts in units of the file's own, in natural order of names", () => {
    expect(line.limits).toEqual([
      { name: "kits", per: "person", most: ratio(3), unit: "" },
      { name: "shelf", per: "station", most: ratio(3, 2), unit: "m" },
    ]);
    expect(line.tasks.map(({ uses }) => uses)).toEqual([
      [
        { limit: "kits", amount: ratio(1) },
        { limit: "shelf", amount: ratio(1, 3) },
      ],
      [],
    ]);
  });

  test("those of a station in place of those of the line with the same name", () => {
    const kits = line.limits[0];
    expect(limitsAt(line, line.floor[0]!)).toEqual([
      kits,
      { name: "shelf", per: "person", most: ratio(3, 5), unit: "m" },
    ]);
    expect(limitsAt(line, line.floor[1]!)).toEqual(line.limits);
    expect(limitsAt(line, null)).toEqual(line.limits);
  });

  test("and given to a search in whole parts: 1/3 of 3/5 m is 5 of 9 fifteenths, of 3/2 m 2 of 9 sixths", () => {
    expect(limitRows(line)).toEqual([
      { isPerPlace: false, isPerPerson: true, uses: [1n, 0n], most: [3n, 3n, 3n] },
      { isPerPlace: false, isPerPerson: true, uses: [5n, 0n], most: [9n, null, null] },
      { isPerPlace: false, isPerPerson: false, uses: [2n, 0n], most: [null, 9n, 9n] },
    ]);
  });
});

describe("The good units of the longest shift, of 7.5 h and 5 h,", () => {
  const unitsOf = (demand: string, more = "") =>
    unitsPerShift(lineOf(`demand: ${demand}\n${CALENDAR.replace("}}}", `}}${more}}`)}\ntasks: {a: 1 s}`));

  test.each([
    ["are 60 of 100 a day: 7.5 / 12.5", "100 per day", "", ratio(60)],
    ["are 75 at 10 an hour", "10 per hour", "", ratio(75)],
    ["are 60 of 50 in the mean shift of 6.25 h", "50 per shift", "", ratio(60)],
    ["are 60 of 500 in a week of 5 days", "500 per week", ", days-per-week: 5", ratio(60)],
  ])("%s", (_, demand, more, expected) => {
    expect(unitsOf(demand, more)).toEqual(expected);
  });

  test("are not known without a calendar", () => {
    expect(unitsPerShift(lineOf("demand: 10 per hour\ntasks: {a: 1 s}"))).toBeNull();
  });
});

test("Per shift a use counts as often as the task is done: 4 kg x 60 units, on every 3rd unit, 10 % of them twice", () => {
  const line = lineOf(
    [
      "demand: 100 per day",
      CALENDAR,
      "limits: {lifted: {per: person-and-shift, most: 900 kg}}",
      "tasks:",
      "  a: {time: 1 s, every: 3, uses: {lifted: 4 kg}}",
      "  b: {time: 1 s, uses: {lifted: 4 kg}, test: {fail: 10 %, repair: 1 s, return-to: b, retest: once}}",
    ].join("\n"),
  );
  const [lifted] = line.limits;
  expect(line.tasks.map((task) => amountOf(line, task, lifted!))).toEqual([ratio(80), ratio(264)]);
});
