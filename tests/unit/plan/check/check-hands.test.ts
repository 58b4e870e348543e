import { describe, expect, it } from "vitest";
import { findHands } from "../../../../src/plan/check/check-hands.js";
import { type Plan, planOf } from "../../../../src/plan/plan.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

const told = (rows: readonly string[], seconds: number, plan: Plan): string[] =>
  findHands(lineOf(["line: x", "unit: s", ...rows, ""].join("\n")), paceOf(seconds), plan).map(
    ({ severity, message }) => `${severity}: ${message}`,
  );

describe("seat 8 + 17 s of machine, turn 8 + 9 s, lift 8 s, two units at a place, at 25 s", () => {
  const tasks = (seat: string, turn: string) => [
    "holds: 2",
    "models: {city: 50 %, cargo: 50 %}",
    `tasks: {seat: {time: 8, machine-time: 17}, turn: {time: ${turn}, machine-time: 9, after: seat}, lift: {time: ${seat}, after: turn}}`,
  ];
  const plan = planOf([[1, 2, 0]]);

  it("is told where units of the one model that takes so long follow each other, as they may be mixed otherwise", () => {
    // Tasks in natural order: lift, seat, turn. Of city 8 + 17 + 5 + 9 + 8 = 47 s, of cargo 50 s as all units of such a line.
    expect(told(tasks("8", "{city: 5, cargo: 8}"), 25, plan)).toEqual([
      "note: S1: with 2 units at a place, one person is wanted at two units at once at this pace (25 s) where units of cargo follow each other; the work of both fits only from 28.5 s on",
    ]);
  });

  it("is a warning where both models take so long", () => {
    expect(told(tasks("8", "{city: 8, cargo: 8}"), 25, plan)).toEqual([
      "warning: S1: with 2 units at a place, one person is wanted at two units at once at this pace (25 s); the work of both fits only from 28.5 s on",
    ]);
  });

  it("is no finding where some of the work is on every second unit only", () => {
    const rows = tasks("8", "{city: 8, cargo: 8}").map((row) => row.replace("lift: {", "lift: {every: 2, "));
    expect(told(rows, 25, plan)).toEqual([]);
  });
});

describe("2 s of hands, 4 s at the press, 4 s of hands, 1 s at the press, at two places", () => {
  const rows = (presses: number) => [
    "max-places: 2",
    `equipment: {press: ${presses}}`,
    "tasks: {a: 2, b: {time: 4, equipment: press}, c: 4, d: {time: 1, equipment: press}}",
  ];
  const plan = { stations: planOf([[0, 1, 2, 3]]).stations.map((each) => ({ ...each, places: 2 })) };

  it("want the one press at once at 6 s, which has 5 s of work and a unit 11 s in 12 s", () => {
    // In 12 s b begins at 0 and at 4 or later, d 8 or 9 s behind b: the d of the second meets the b of the first, from 12 s on.
    expect(told(rows(1), 6, plan)).toEqual([
      "warning: S1: with 2 places, one person or the one press is wanted at two units at once at this pace (6 s); the work of both fits only from 6.5 s on",
    ]);
  });

  it("do not where each has a press, nor at 6.5 s", () => {
    expect([told(rows(2), 6, plan), told(rows(1), 6.5, plan)]).toEqual([[], []]);
  });
});
