import { describe, expect, it } from "vitest";
import { sumUpChange } from "../../../../src/answer/rebalance/change-sum.js";
import { matchStations } from "../../../../src/answer/rebalance/match-stations.js";
import { stepsOf } from "../../../../src/answer/rebalance/steps.js";
import type { Plan } from "../../../../src/plan/plan.js";
import type { Pace } from "../../../../src/time/pace.js";
import { ratio } from "../../../../src/time/ratio.js";
import { decimal } from "../../../../src/time/show-values.js";
import { planFrom } from "../../../tools/floor-line.js";
import { idsOf, lineOf, paceOf } from "../../../tools/line-of.js";

/** Every second is good for one unit: 60 s a unit make 480 in a shift of 8 h. */
const text = (keys: string, tasks: string) =>
  `unit: s\nmax-places: 2\n${keys}\ntasks:\n  A: 10\n  B: 20\n${tasks}`;

async function sumOf(file: string, from: readonly string[], to: readonly string[], cycle = 60, crews = {}) {
  const line = lineOf(file);
  const pace: Pace = paceOf(cycle);
  const [before, after]: [Plan, Plan] = [planFrom(line, from), planFrom(line, to, crews)];
  const matched = matchStations(line, before, after);
  const steps = (await stepsOf(line, pace, before, after, matched))!;
  return { line, ...sumUpChange(line, pace, before, after, matched, steps) };
}

describe("Training of a change", () => {
  const file = text(
    "training: {gears: 90 min}",
    "  C: {time: 5, skill: gears}\n  D: {time: 5, training: 2 h}\n  E: {time: 5, people: 2, training: 1 h}\n  F: 5\n",
  );

  it("is that of one person x the places and the crew of the station: (1.5 h + 2 h) x 2 places", async () => {
    const { trainingHours } = await sumOf(
      file,
      ["S1: A C D", "S2: B E F"],
      ["S1: A", "S2 x2: B E F C D"],
      60,
      {
        S2: 2,
      },
    );
    // Two people at each of two places.
    expect(decimal(trainingHours!, 3)).toBe("14");
  });

  it("is that of all tasks at a new station, and of none at a station that only hands on", async () => {
    const { trainingHours, tasksWithoutTraining, line } = await sumOf(
      file,
      ["S1: A C D F", "S2: B E"],
      ["S1: A", "S2: B E", "S3: C D F"],
    );
    expect(decimal(trainingHours!, 3)).toBe("3.5");
    expect(idsOf(line, tasksWithoutTraining)).toEqual(["F"]);
  });

  it("is not told where the line says nothing of training", async () => {
    const plain = text("", "  C: 5\n");
    const { trainingHours, tasksWithoutTraining } = await sumOf(
      plain,
      ["S1: A C", "S2: B"],
      ["S1: A", "S2: B C"],
    );
    expect([trainingHours, tasksWithoutTraining]).toEqual([null, []]);
  });
});

describe("Output of a change from 60 s to 40 s a unit", () => {
  const change = (keys: string) =>
    sumOf(text(keys, "  C: 30\n  D: 10\n"), ["S1: A B C", "S2: D"], ["S1: A C", "S2: B D"], 45);

  it("is that of a shift: 480 before and during, as the one step ends with it, and 720 after it", async () => {
    const { outputBefore, outputDuring, outputAfter, outputPer } = await change(
      "calendar: {shifts: {day: {length: 8 h}}}\ndemand: 640 per shift",
    );
    expect([outputBefore, outputDuring, outputAfter, outputPer]).toEqual([
      ratio(480),
      ratio(480),
      ratio(720),
      "shift",
    ]);
  });

  it("is that of a day where shifts differ in length: 480 + 240 and 720 + 360", async () => {
    const { outputBefore, outputAfter, outputPer } = await change(
      "calendar: {shifts: {day: {length: 8 h}, late: {length: 4 h}}}\ndemand: 960 per day",
    );
    expect([outputBefore, outputAfter, outputPer]).toEqual([ratio(720), ratio(1080), "day"]);
  });

  it("is that of an hour without a calendar, which nobody counts in whole units: 60 x 95 % = 57 and 90 x 95 % = 85.5", async () => {
    const { outputBefore, outputAfter, outputPer } = await change("uptime: 95 %\ndemand: 80 per hour");
    expect([outputBefore, outputAfter, outputPer]).toEqual([ratio(57), ratio(171, 2), "hour"]);
  });
});

it("today's plan makes no whole units where work is new to the line, and the new plan does", async () => {
  const { outputBefore, outputDuring, outputAfter, moves } = await sumOf(
    text("", "  C: 30\n"),
    ["S1: A", "S2: B"],
    ["S1: A", "S2: B C"],
  );
  expect([outputBefore, outputDuring, outputAfter, moves]).toEqual([null, null, ratio(72), 0]);
});

it("the most people on the way are told: a station that moves two tasks to a new one is left with the second", async () => {
  const { peopleBefore, peopleAtMost, peopleAfter } = await sumOf(
    text("stations: [{id: S1}, {id: S2}, {id: S3}]", "  C: 30\n  D: 30\n"),
    ["S1: C D", "S2: A B"],
    ["S2: A B", "S3: C D"],
  );
  expect([peopleBefore, peopleAtMost, peopleAfter]).toEqual([2, 3, 2]);
});
