import { describe, expect, it } from "vitest";
import { flagLongTasks } from "../../../../src/answer/long-tasks/flag-long-tasks.js";
import { answerLongTasks } from "../../../../src/answer/long-tasks/long-task-answers.js";
import type { BalancingOptions } from "../../../../src/solve/balance.js";
import { paceFromDemand } from "../../../../src/time/pace.js";
import { type Ratio, toNumber } from "../../../../src/time/ratio.js";
import { lineOf, paceOf, shortLine } from "../../../tools/line-of.js";

const options: BalancingOptions = {
  method: "best",
  nodes: 10_000,
  strictLimit: false,
  level: false,
  explain: false,
  checkpoint: () => null,
};
const seconds = (value: Ratio) => Math.round(toNumber(value)) / 1e6;

describe("Four stations of 12, 6, 9 and 6 s at 10 units a minute", () => {
  const line = shortLine(["a! 12", "b 6 a", "c 9 b", "d 6 c"]);

  it("need 2, 1, 2 and 1 places at 6 s, 6 in all", async () => {
    const { answers, withPlaces } = await answerLongTasks(line, paceOf(6), null, options);
    expect(answers.map(({ task, places }) => [line.tasks[task]!.id, places])).toEqual([
      ["a", 2],
      ["c", 2],
    ]);
    expect([withPlaces!.stations, withPlaces!.places, withPlaces!.people]).toEqual([4, 6, 6]);
  });

  it("give 6.67 units a minute with only the first doubled, for then the third sets the pace", async () => {
    const { answers } = await answerLongTasks(line, paceOf(6), null, options);
    const [first] = answers;
    expect(seconds(first!.helpedAlone.lineCycle)).toBe(9);
    expect(toNumber(first!.helpedAlone.unitsPerHour) / 60).toBeCloseTo(6.67, 2);
  });
});

describe("A task of 70 s before others of 30, 33 and 36 s at 67.5 s", () => {
  const line = shortLine(["b1 70", "b2 30 b1", "b3 33 b2", "b4 36 b3"]);

  it("shares its two places with the next task, in both commands", async () => {
    const { withPlaces } = await answerLongTasks(line, paceOf(67.5), null, options);
    const { stations, people, outcome } = withPlaces!;
    expect({ stations, people, outcome }).toEqual({ stations: 2, people: 3, outcome: "proved" });
    const [flag] = await flagLongTasks(line, paceOf(67.5), [0], null, options);
    const { stationsAfter, peopleAfter } = flag!;
    expect([stationsAfter, peopleAfter, flag!.outcome]).toEqual([stations, people, outcome]);
  });
});

describe("A long task on a line with a test whose failures are repaired", () => {
  it("needs the people on the line and one for repairs, in both commands", async () => {
    const line = lineOf(
      "unit: s\ntasks: {a: 70, b: {time: 30, after: a}, c: {time: 30, after: b, test: {fail: 5 %, repair: 300 s, return-to: c}}}\n",
    );
    const { withPlaces } = await answerLongTasks(line, paceOf(67.5), null, options);
    const [flag] = await flagLongTasks(line, paceOf(67.5), [0], null, options);
    expect([withPlaces!.people, flag!.peopleAfter]).toEqual([3, 3]);
  });
});

describe("A task of 0.6 min at 0.5 min", () => {
  // The example of five operations in series at 120 units an hour: 5 people at 84 %, or 100 units an hour.
  const line = lineOf(
    "unit: min\ndemand: 120 per hour\ntasks: {a: 0.6, b: {time: 0.5, after: a}, c: {time: 0.3, after: b}, d: {time: 0.2, after: c}, e: {time: 0.5, after: d}}\n",
  );

  it("is doubled, split, or made the pace, each with its number", async () => {
    const pace = paceFromDemand({ ...line, demand: line.demand! });
    if (!pace.ok) throw new Error(pace.problem);
    const { answers, withPlaces } = await answerLongTasks(line, pace.value, null, options);
    const [{ places, parts, partTime, slower } = answers[0]!] = answers;
    expect([places, parts, seconds(partTime)]).toEqual([2, 2, 18]);
    expect([seconds(slower.lineCycle), toNumber(slower.units!)]).toEqual([36, 100]);
    expect([withPlaces!.people, toNumber(withPlaces!.efficiency!)]).toEqual([5, 0.84]);
  });
});

describe("A slowest task of 88 s where 330 units in 7.5 h need 81.8 s", () => {
  it("takes 34 min of overtime a shift", async () => {
    const line = lineOf(
      "unit: s\ndemand: 330 per day\ncalendar: {shifts: {day: {length: 7.5 h}}}\ntasks: {a: 88, b: 70}\n",
    );
    const pace = paceFromDemand({ ...line, demand: line.demand! });
    if (!pace.ok) throw new Error(pace.problem);
    const { answers } = await answerLongTasks(line, pace.value, null, options);
    expect([seconds(answers[0]!.slower.overtime!), answers[0]!.slower.fitsDay]).toEqual([34 * 60, true]);
  });

  it("fits no day of three full shifts", async () => {
    const shifts = "{a: {length: 8 h}, b: {length: 8 h}, c: {length: 8 h}}";
    const line = lineOf(
      `unit: s\ndemand: 1080 per day\ncalendar: {shifts: ${shifts}}\ntasks: {a: 88, b: 70}\n`,
    );
    const { answers } = await answerLongTasks(line, paceOf(80), null, options);
    expect(answers[0]!.slower.fitsDay).toBe(false);
  });
});

describe("Tasks of 110, 125 and 250 s at a line cycle of 120 s loaded to 85 %", () => {
  const line = lineOf(
    "unit: s\ndemand: 30 per hour\nplan-to: 85 %\ntasks: {a: 110, b: 125, c: 250, d: {time: 20, after: [a, b, c]}}\n",
  );

  it("need the working time where no station holds them, and their limit where one does", async () => {
    const pace = paceFromDemand({ ...line, demand: line.demand! });
    if (!pace.ok) throw new Error(pace.problem);
    const { answers, withPlaces } = await answerLongTasks(line, pace.value, null, options);
    const figures = answers.map(({ task, isImpossible, places, slower, helpedAlone }) => [
      line.tasks[task]!.id,
      isImpossible ? "over the working time" : "over the limit",
      places,
      Math.round(seconds(slower.lineCycle)),
      Math.round(seconds(helpedAlone.lineCycle)),
    ]);
    // a: 110 / 0.85 = 129.4 s to keep its reserve. b: 125 s, c: 250 s and three places of 120 s, each alone. 250 / 0.85 = 294.1 s.
    expect(figures).toEqual([
      ["a", "over the limit", 2, 129, 250],
      ["b", "over the working time", 2, 125, 250],
      ["c", "over the working time", 3, 250, 125],
    ]);
    // 505 s at 102 s a place are 4.95; but at most three places a station, {a, b} and {c, d} at three each: 235 and 270 s.
    expect([withPlaces!.people, withPlaces!.outcome]).toEqual([6, "proved"]);
  });
});

describe("Tasks that a model, a machine or one jig leave without a station at 50 s", () => {
  const line = lineOf(
    "unit: s\nequipment: {tester: 1, jig: 1}\nmax-places: 2\nmodels: {city: 50 %, cargo: 50 %}\nmodel-overload: 20 %\ntasks: {big: {time: {city: 10, cargo: 130}}, lace: {time: 55, equipment: jig}, test: {time: 8, machine-time: 45, equipment: tester}}\n",
  );

  it("are listed with what they need", async () => {
    const { answers, withPlaces } = await answerLongTasks(line, paceOf(50), null, options);
    const figures = answers.map(({ task, places, parts, slower }) => [
      line.tasks[task]!.id,
      places,
      parts,
      seconds(slower.lineCycle),
    ]);
    // big: cargo's 130 / 1.2 = 108.3 s are three places of 50 s, 130 / 60 three parts, and 108.3 / 2 = 54.2 s at two places.
    // lace: 55 s with one jig. test: a unit stands 8 + 45 = 53 s, as long as the one tester is held.
    expect(figures).toEqual([
      ["big", 3, 3, 54.166667],
      ["lace", 2, 2, 55],
      ["test", 2, 1, 53],
    ]);
    expect(withPlaces).not.toBeNull();
  });
});
