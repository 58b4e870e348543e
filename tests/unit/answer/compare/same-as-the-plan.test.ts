import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import * as figures from "../../../../src/answer/compare/figures.js";
import { peopleInAll } from "../../../../src/plan/figures/people.js";
import { divide, ratio } from "../../../../src/time/ratio.js";
import { MICROS_IN } from "../../../../src/time/units.js";
import { lineOf } from "../../../tools/line-of.js";
import { answerOf } from "./compared.js";

const demo = readFileSync(new URL("../../../../examples/cargo-bike.line.yaml", import.meta.url), "utf8");
const ruled = [
  "unit: s",
  "demand: 300 per day",
  "calendar: {shifts: {early: {length: 8 h, breaks: 45 min}, late: {length: 8 h, breaks: 45 min}}}",
  "uptime: 95 %",
  "yield: 98 %",
  "handling: 3",
  "plan-to: 90 %",
  "max-places: 3",
  "tasks:",
  "  frame: 40",
  "  motor: {time: 200, people: 2, after: frame}",
  "  box: {time: 90, walking: 12, after: motor}",
  "  test: {time: 30, after: box, test: {fail: 20 %, repair: 8 min, return-to: box}}",
  "",
].join("\n");

it.each([
  ["the demo", demo],
  ["crews, places, walking and repairs in two shifts", ruled],
])("Without benches the figures are those of the plan: %s", async (_, text) => {
  const line = lineOf(text);
  const answer = await answerOf(line);
  const measures = answer.balance!.measures!;
  const people = peopleInAll(line, measures);
  expect({
    people: figures.peoplePerShift(answer),
    perDay: figures.peoplePerDay(answer),
    stations: figures.stations(answer),
    slowest: figures.slowestCycle(answer),
    slowestStation: figures.slowestPost(answer)!.id,
    atPace: figures.efficiencyAtPace(answer),
    atSlowest: figures.efficiencyAtSlowest(answer),
    idle: figures.idleHours(answer),
    output: figures.outputPerShift(answer),
  }).toEqual({
    people: people.atATime,
    perDay: people.perDay,
    stations: measures.stations,
    slowest: measures.cycleOfPlan,
    slowestStation: measures.slowestStation,
    atPace: measures.efficiencyAtPace,
    atSlowest: measures.efficiencyAtSlowest,
    idle: divide(measures.idlePerShift!, ratio(MICROS_IN.h)),
    output: measures.outputPerShift,
  });
});
