import { describe, expect, it } from "vitest";
import * as figures from "../../../../src/answer/compare/figures.js";
import { movesBetween } from "../../../../src/answer/rebalance/match-stations.js";
import { measurePlan } from "../../../../src/plan/measure.js";
import { type Plan, planOf } from "../../../../src/plan/plan.js";
import { idsOf, lineOf, numbersOf } from "../../../tools/line-of.js";
import { answerOf } from "./compared.js";

// The pace is 3,600 s / 65 = 55.38 s: S1 of today's plan takes 60 s, the others 55, 55 and 10 s.
const line = lineOf(
  [
    "unit: s",
    "demand: 65 per hour",
    "tasks: {A: 20, B: 30, C: {time: 25, after: A}, D: {time: 40, after: A}, E: {time: 45, after: [B, C]}, F: 10, G: {time: 10, after: E}}",
    "options: {b-at-a-bench: {off-line: [[B]]}}",
    "",
  ].join("\n"),
);
const today = planOf(["A D", "B C", "E F", "G"].map((ids) => numbersOf(line, ...ids.split(" "))));
const stationsOf = ({ stations }: Plan) => stations.map(({ tasks }) => idsOf(line, tasks).join(" "));

describe("an option compared with today's plan", () => {
  it("has the figures of the plan that it moves to: D to S4 is the only single move, and leaves two stations of 55 s", async () => {
    const answer = await answerOf(line, undefined, today);
    expect(stationsOf(answer.plan!)).toEqual(["A", "B C", "E F", "D G"]);
    expect(answer.moves).toEqual({ count: 1, outcome: "proved" });
    expect(figures.slowestCycle(answer)).toEqual({ num: 55_000_000n, den: 1n });
    expect(figures.slowestPost(answer)!.id).toBe("S2");
  });

  it("is as even as it can be where no plan of today is known: 180 s at four stations of 50 s at the most", async () => {
    const answer = await answerOf(line);
    expect(figures.slowestCycle(answer)).toEqual({ num: 50_000_000n, den: 1n });
  });

  it("has no other plan than the one that its moves are counted to, with what stays on the line and at the bench", async () => {
    const answer = await answerOf(line, "b-at-a-bench", today);
    const { balance, plan, moves } = answer;
    // B goes to the bench, all else moves between stations.
    expect(moves!.count).toBe(1 + movesBetween(line, { stations: today.stations }, plan!).length);
    expect(balance!.stations.map(({ id }) => id)).toEqual(plan!.stations.map(({ id }) => id));
    expect(balance!.measures).toEqual(measurePlan(balance!.line, balance!.pace, balance!.plan!));
  });
});
