import { describe, expect, it } from "vitest";
import { peopleNeeded } from "../../../../src/plan/figures/people.js";
import { weightedWork } from "../../../../src/plan/models/weighted-work.js";
import { taktOf } from "../../../../src/time/pace.js";
import { ratio, toDecimal } from "../../../../src/time/ratio.js";
import { lineOf, paceOf, shortLine } from "../../../tools/line-of.js";
import { mixedLine } from "./mixed-line.js";

describe("three products of 1000, 899 and 1300 s, 120 a day in 39 600 s: takt 330 s", () => {
  it.each([
    [[40, 40, 40], "1066.3", "3.23"],
    [[60, 40, 20], "1016.3", "3.08"],
    [[20, 20, 80], "1183.2", "3.59"],
  ])("need in the mix %j %s s a unit, %s people, so 4", ([a, b, c], work, people) => {
    const line = mixedLine({ A: a!, B: b!, C: c! }, { build: { seconds: [1000, 899, 1300] } });
    const found = weightedWork(line, paceOf(330));
    expect(toDecimal(ratio(found.workContent.num, found.workContent.den * 1_000_000n), 1)).toBe(work);
    expect([toDecimal(found.people.exact, 2), found.people.whole]).toEqual([people, 4]);
  });
});

it("has one takt for the line, 90 s for 300 units in 27 000 s; models come every 135 and 270 s", () => {
  const { demand, calendar } = lineOf(
    "line: x\nunit: s\ndemand: 300 per day\ncalendar: {shifts: {day: {length: 7.5 h}}}\ntasks: {a: 1}\n",
  );
  const takt = taktOf(demand!, calendar);
  expect(takt).toEqual({ ok: true, value: ratio(90_000_000) });
  const line = mixedLine({ A: 200, B: 100 }, { build: { seconds: [80, null] } });
  expect(weightedWork(line, paceOf(90)).models).toEqual([
    { model: 0, share: ratio(2, 3), workContent: ratio(80_000_000), interval: ratio(135_000_000) },
    { model: 1, share: ratio(1, 3), workContent: ratio(0), interval: ratio(270_000_000) },
  ]);
});

it("counts every person at a task, walking, repeats and rare work; a model not built has no interval", () => {
  const line = mixedLine(
    { A: 1, B: 0 },
    {
      lift: { seconds: [20, 30], people: 2, walking: 5 },
      wash: { seconds: [40, null], every: 4, visits: ratio(3, 2) },
    },
  );
  // A: 2 x 25 + 40 x 1.5 / 4 = 65 s; B: 2 x 35 = 70 s.
  const { models, workContent } = weightedWork(line, paceOf(60));
  expect({ models, workContent }).toEqual({
    models: [
      { model: 0, share: ratio(1), workContent: ratio(65_000_000), interval: ratio(60_000_000) },
      { model: 1, share: ratio(0), workContent: ratio(70_000_000), interval: null },
    ],
    workContent: ratio(65_000_000),
  });
});

it("is the work content on a line without models", () => {
  expect(weightedWork(shortLine(["a 50", "b 70"]), paceOf(60))).toEqual({
    models: [{ model: 0, share: ratio(1), workContent: ratio(120_000_000), interval: ratio(60_000_000) }],
    workContent: ratio(120_000_000),
    people: { exact: ratio(2), whole: 2, lessWork: ratio(60_000_000) },
  });
});

it("needs more people where the line stands still or people are not busy all the time", () => {
  const lost = { availability: ratio(4, 5), efficiency: ratio(1, 2) };
  expect(peopleNeeded(ratio(120), ratio(60), lost)).toEqual({ exact: ratio(5), whole: 5 });
});

it("takes nobody where a fixed number of stations has nothing to do", () => {
  const line = mixedLine({ A: 50, B: 50 }, { first: { seconds: [0, 0] }, last: { seconds: [0, 0] } });
  expect(weightedWork(line, paceOf(0)).people).toEqual({
    exact: ratio(0),
    whole: 0,
    lessWork: null,
  });
});
