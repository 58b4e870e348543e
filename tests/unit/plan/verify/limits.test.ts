import { describe, expect, it } from "vitest";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import { paceFromDemand } from "../../../../src/time/pace.js";
import { planFrom } from "../../../tools/floor-line.js";
import { lineOf } from "../../../tools/line-of.js";

/** Everything wrong with a plan of a line file at its own pace, as messages. */
function faultsOf(
  text: readonly string[],
  rows: readonly string[],
  crews: Record<string, number> = {},
): string[] {
  const line = lineOf(text.join("\n"));
  const pace = paceFromDemand({ ...line, demand: line.demand! });
  if (!pace.ok) throw new Error(pace.problem);
  return verifyPlan(line, pace.value, planFrom(line, rows, crews), false).map(({ message }) => message);
}

/** 240 a day in shifts of 8 h and 4 h: a line cycle of 180 s, and 160 units in the longest shift. */
const PACE = [
  "demand: 240 per day",
  "max-places: 2",
  "calendar: {shifts: {early: {length: 8 h}, late: {length: 4 h}}}",
];

describe("A limit per station", () => {
  const text = (shelf: string) => [
    ...PACE,
    `limits: {shelf: {per: station, most: ${shelf}}}`,
    "tasks: {a: {time: 90 s, uses: {shelf: 0.7 m}}, b: {time: 90 s, after: a, uses: {shelf: 1/3 m}}}",
  ];

  it("holds what comes to just as much: 0.7 + 1/3 of 31/30 m", () => {
    expect(faultsOf(text("1 1/30 m"), ["S1: a b"])).toEqual([]);
  });

  it("is broken by a millionth, and shown with as many decimals as that takes", () => {
    expect(faultsOf(text("1.033333 m"), ["S1: a b"])).toEqual([
      "S1 takes 1.033333333 m of shelf, more than the limit of 1.033333 m",
    ]);
    expect(faultsOf(text("1.033333 m"), ["S1: a", "S2: b"])).toEqual([]);
  });

  it("has its whole at each of two places", () => {
    expect(faultsOf(text("1 m"), ["S1 x2: a b"])).toEqual([
      "S1 takes 1.033 m of shelf, more than the limit of 1 m",
    ]);
  });
});

describe("A limit per person", () => {
  const text = [
    ...PACE,
    "limits: {strain: {per: person, most: 5}}",
    "tasks: {a: {time: 90 s, people: 2, uses: {strain: 4}}, b: {time: 80 s, uses: {strain: 5}}, c: {time: 1 s, uses: {strain: 2}}}",
  ];

  it("is shared by the people at a place: (4 + 5) / 2 of 5", () => {
    expect(faultsOf(text, ["S1: a b", "S2: c"], { S1: 2 })).toEqual([]);
  });

  it("is broken where there are too few of them: (4 + 5 + 2) / 2, and 5 + 2 by one", () => {
    expect(faultsOf(text, ["S1: a b c"], { S1: 2 })).toEqual([
      "each person at S1 takes 5.5 of strain, more than the limit of 5",
    ]);
    expect(faultsOf(text, ["S1: a", "S2: b c"], { S1: 2 })).toEqual([
      "each person at S2 takes 7 of strain, more than the limit of 5",
    ]);
  });
});

describe("A limit per shift", () => {
  const text = (per: string, most: number, people = 1) => [
    ...PACE,
    `limits: {lifted: {per: ${per}, most: ${most} kg}}`,
    `tasks: {a: {time: 90 s, people: ${people}, uses: {lifted: 8 kg}}, b: {time: 80 s, every: 2, uses: {lifted: 9 kg}}}`,
  ];

  it("counts the longest shift and how often work is done: 160 x 8 + 80 x 9 = 2000 kg", () => {
    expect(faultsOf(text("station-and-shift", 2000), ["S1: a b"])).toEqual([]);
    expect(faultsOf(text("station-and-shift", 1999), ["S1: a b"])).toEqual([
      "S1 takes 2000 kg of lifted in the longest shift, more than the limit of 1999 kg",
    ]);
  });

  it("is shared by the places, and per person by the crew of each", () => {
    expect(faultsOf(text("station-and-shift", 1000), ["S1 x2: a b"])).toEqual([]);
    expect(faultsOf(text("person-and-shift", 500, 2), ["S1 x2: a b"], { S1: 2 })).toEqual([]);
    expect(faultsOf(text("person-and-shift", 499, 2), ["S1 x2: a b"], { S1: 2 })).toEqual([
      "each person at S1 takes 500 kg of lifted in the longest shift, more than the limit of 499 kg",
    ]);
  });

  it.each([
    ["week", "1200 per week", "days-per-week: 5", 2000],
    ["year", "55200 per year", "days-per-week: 5, weeks-per-year: 46", 2000],
    ["hour", "20 per hour", "days-per-week: 5", 2000],
    ["shift", "120 per shift", "days-per-week: 5", 2000],
  ])("knows what a shift makes of a demand per %s", (_, demand, counts, most) => {
    const changed = (limit: number) =>
      text("station-and-shift", limit).map((row) =>
        row.replace("240 per day", demand).replace("{shifts", `{${counts}, shifts`),
      );
    expect(faultsOf(changed(most), ["S1: a b"])).toEqual([]);
    expect(faultsOf(changed(most - 1), ["S1: a b"])).toHaveLength(1);
  });
});

describe("A limit of a station of the floor", () => {
  const text = [
    ...PACE,
    "limits: {shelf: {per: station, most: 1 m}}",
    "stations: [{id: W1, limits: {shelf: {per: station, most: 0.5 m}}}, {id: W2, limits: {hooks: {per: station, most: 1}}}]",
    "tasks: {a: {time: 9 s, uses: {shelf: 0.6 m, hooks: 2}}}",
  ];

  it("stands in place of that of the line, and what only one station limits is free at the others", () => {
    expect(faultsOf(text, ["W1: a"])).toEqual(["W1 takes 0.6 m of shelf, more than the limit of 0.5 m"]);
    expect(faultsOf(text, ["W2: a"])).toEqual(["W2 takes 2 of hooks, more than the limit of 1"]);
    expect(faultsOf(text, ["S3: a"])).toEqual([]);
  });
});
