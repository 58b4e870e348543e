import { describe, expect, it } from "vitest";
import { NOBODY, type Staffing } from "../../../../src/answer/staff/staff-balance.js";
import { settle } from "../../../../src/answer/staff/staff-curve.js";
import { stepsOf } from "../../../../src/answer/staff/staff-steps.js";
import { planOf } from "../../../../src/plan/plan.js";
import { ONE, ratio } from "../../../../src/time/ratio.js";
import { taktSum } from "../../../../src/time/takt.js";
import { shortLine } from "../../../tools/line-of.js";

/** Four tasks of 30 s: one person keeps 120 s, two 60 s, three no shorter cycle, four 30 s. */
const line = shortLine(["a 30", "b 30", "c 30", "d 30"]);
const ONE_EACH = [[0], [1], [2], [3]];
const PAIRS = [
  [0, 1],
  [2, 3],
];

function point(perHour: number, stations: number[][] | null, least: number): Staffing {
  const demand = { units: ratio(perHour), period: "hour" as const };
  const takt = taktSum({ ...line, demand });
  if (!takt.ok) throw new Error(takt.problem);
  const plan = stations === null ? null : planOf(stations);
  const people = stations?.length ?? NOBODY;
  const outcome = people === least ? "proved" : "found";
  return { line, demand, takt: takt.value, plan, people, least, repair: 0, outcome };
}

const settled = (...points: Staffing[]) =>
  settle(points, false).map(({ people, least }) => `${people} of ${least}`);

describe("Neighbouring demands settle each other:", () => {
  it("a plan serves every lower demand that it keeps", () => {
    expect(settled(point(50, ONE_EACH, 2), point(60, PAIRS, 2))).toEqual(["2 of 2", "2 of 2"]);
  });

  it("a demand without a plan gets that of a higher one", () => {
    expect(settled(point(50, null, 0), point(55, null, 0), point(60, PAIRS, 2))).toEqual([
      "2 of 0",
      "2 of 0",
      "2 of 2",
    ]);
  });

  it("what no plan can do at a demand, none can at a higher one", () => {
    expect(settled(point(61, ONE_EACH, 4), point(70, ONE_EACH, 2))).toEqual(["4 of 4", "4 of 4"]);
    expect(settled(point(121, null, NOBODY), point(130, null, 0))).toEqual([
      "Infinity of Infinity",
      "Infinity of Infinity",
    ]);
  });

  it("fewer people at a lower demand say nothing of a higher one", () => {
    expect(settled(point(30, [[0, 1, 2, 3]], 1), point(60, PAIRS, 2))).toEqual(["1 of 1", "2 of 2"]);
  });
});

const steps = (...points: Staffing[]) =>
  stepsOf(points, ONE).map(({ people, from, to, outcome, skipped }) => [
    people,
    Number(from.num),
    Number(to.num),
    outcome,
    skipped,
  ]);

describe("Steps of people", () => {
  it("end where the next demand takes more, and name the crews between", () => {
    expect(
      steps(
        point(20, [[0, 1, 2, 3]], 1),
        point(30, [[0, 1, 2, 3]], 1),
        point(31, PAIRS, 2),
        point(60, PAIRS, 2),
        point(61, ONE_EACH, 4),
      ),
    ).toEqual([
      [1, 20, 30, "proved", []],
      [2, 31, 60, "proved", []],
      [4, 61, 61, "proved", [3]],
    ]);
  });

  it("are found only where fewer people are not ruled out at their start or behind their end", () => {
    expect(steps(point(60, PAIRS, 2), point(61, ONE_EACH, 2))).toEqual([
      [2, 60, 60, "found", []],
      [4, 61, 61, "found", [3]],
    ]);
  });

  it("are found only where demands between them were not looked at", () => {
    expect(steps(point(50, PAIRS, 2), point(70, ONE_EACH, 4))).toEqual([
      [2, 50, 50, "found", []],
      [4, 70, 70, "proved", [3]],
    ]);
  });

  it("end with demands that have no plan, or for which none was found", () => {
    expect(steps(point(120, ONE_EACH, 4), point(121, null, NOBODY))).toEqual([
      [4, 120, 120, "proved", []],
      [null, 121, 121, "infeasible", []],
    ]);
    expect(steps(point(120, ONE_EACH, 4), point(121, null, 0))).toEqual([
      [4, 120, 120, "found", []],
      [null, 121, 121, "stopped", []],
    ]);
  });
});
