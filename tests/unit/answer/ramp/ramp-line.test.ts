import { describe, expect, it } from "vitest";
import type { RampAnswer } from "../../../../src/answer/ramp/ramp-answer.js";
import { rampLine } from "../../../../src/answer/ramp/ramp-line.js";
import type { Line } from "../../../../src/line/line.js";
import { measurePlan } from "../../../../src/plan/measure.js";
import { type Plan, planOf } from "../../../../src/plan/plan.js";
import { paceFromDemand } from "../../../../src/time/pace.js";
import { multiply, ratio, toNumber, ZERO } from "../../../../src/time/ratio.js";
import { taktSum } from "../../../../src/time/takt.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";

const goesOn = async () => true;

/** At the demand of the line. */
async function rampOf(line: Line, plan: Plan, units: number, each = true): Promise<RampAnswer> {
  const terms = { ...line, demand: line.demand! };
  const [pace, takt] = [paceFromDemand(terms), taktSum(terms)];
  if (!pace.ok || !takt.ok) throw new Error("no pace");
  return rampLine(line, pace.value, takt.value, plan, { units, each, goesOn });
}

const seconds = (value: Parameters<typeof toNumber>[0]) => toNumber(multiply(value, ratio(1, 1_000_000)), 3);

// A day of 120 s for 2.4 units: 50 s each. A takes 30 / 0.64, 30 / 0.8, 30 x 0.7021 / 0.64, 30 s and so on; B takes 4 / 3 of that.
const line = lineOf(`unit: s
demand: 2.4 per day
calendar: {shifts: {early: {length: 2 min}}}
learning: {share: 80 %, time-at: 4}
tasks: {a: 30, b: {time: 40, after: a}}
`);
const plan = planOf([[0], [1]]);

describe("A plan while its people learn", () => {
  it("has at each unit the times of that unit: 62.5, 50, 43.881, 40 s at the slower station", async () => {
    const { rows, settled } = await rampOf(line, plan, 6);
    expect(rows.map(({ cycle }) => seconds(cycle))).toEqual([62.5, 50, 43.881, 40, 40, 40]);
    expect(rows.map(({ cycles }) => seconds(cycles[0]!))).toEqual([46.875, 37.5, 32.911, 30, 30, 30]);
    expect(rows[0]!.slowest).toBe("S2");
    expect([settled!.unit, seconds(settled!.cycle)]).toEqual([4, 40]);
  });

  it("meets the pace of 50 s at one station from the first unit on, at the other from the second", async () => {
    const { posts, paceFrom } = await rampOf(line, plan, 6);
    expect(posts.map((post) => post.paceFrom)).toEqual([
      { unit: 1, day: 1 },
      { unit: 2, day: 1 },
    ]);
    expect(paceFrom).toEqual({ unit: 2, day: 1 });
  });

  it("makes 2 units on the first day (62.5 + 50 of 120 s), 3 on the second (until 236.381 of 240 s), and the last on the third", async () => {
    const { rows, days } = await rampOf(line, plan, 6);
    expect(rows.map(({ day }) => day)).toEqual([1, 1, 2, 2, 2, 3]);
    expect(days!.map(({ made, madeInAll }) => [made, madeInAll])).toEqual([
      [2, 2],
      [3, 5],
      [1, 6],
    ]);
  });

  it("is behind by 0.4 of 2.4 units after the first day, and not after the second", async () => {
    const { days } = await rampOf(line, plan, 6);
    expect(days!.map(({ behind }) => behind)).toEqual([ratio(2, 5), ZERO, null]);
  });

  it("is behind by no more than is left of the batch: with 60 a day wanted, by 4 of 6 units, then by 1", async () => {
    const demand = lineOf(
      "unit: s\ndemand: 60 per day\ncalendar: {shifts: {early: {length: 2 min}}}\ntasks: {a: 1}\n",
    );
    const { days } = await rampOf({ ...line, demand: demand.demand }, plan, 6);
    expect(days!.map(({ behind }) => behind)).toEqual([ratio(4), ratio(1), null]);
  });

  it("lacks no hands where how long a unit stands there holds a station up: 56.875 and 47.5 s with 10 s of a machine, for 45 s", async () => {
    const oven = lineOf(
      "unit: s\nlearning: {share: 80 %, time-at: 4}\ntasks: {a: {time: 30, machine-time: 10}}\n",
    );
    const terms = { units: 4, each: true, goesOn };
    const { rows, heldUp, extraHandsTime } = await rampLine(oven, paceOf(45), null, planOf([[0]]), terms);
    expect(rows.map(({ cycle }) => seconds(cycle))).toEqual([56.875, 47.5, 42.911, 40]);
    expect(heldUp).toEqual([{ id: "S1", by: { kind: "dwell" }, from: 1, to: 2 }]);
    expect(rows.map(({ overPace, extraHands }) => [overPace, extraHands])).toEqual([
      [1, ZERO],
      [1, ZERO],
      [0, ZERO],
      [0, ZERO],
    ]);
    expect(extraHandsTime).toEqual(ZERO);
  });

  it("lacks a quarter of a person at the first unit (62.5 / 50 - 1), an eighth on the mean of the first day", async () => {
    const { rows, days, extraHandsTime } = await rampOf(line, plan, 6);
    expect(rows.slice(0, 2).map(({ extraHands }) => extraHands)).toEqual([ratio(1, 4), ZERO]);
    expect(days![0]!.extraHands).toEqual(ratio(1, 8));
    expect(days!.map(({ hands }) => hands)).toEqual([1, 0, 0]);
    // For the 50 s of one unit.
    expect(seconds(extraHandsTime)).toBe(12.5);
  });

  it("takes nobody beside its people on a day whose later units make up for the first: 276.381 of 300 s for 6 units", async () => {
    // 12.5 s late with the first, on the mean of six units 0.0417 of a person, and 36.1 s to spare with the last four.
    const long = lineOf(
      "unit: s\ndemand: 6 per day\ncalendar: {shifts: {early: {length: 5 min}}}\ntasks: {a: 1}\n",
    );
    const { days } = await rampOf({ ...line, demand: long.demand, calendar: long.calendar }, plan, 6);
    expect(days!.map(({ extraHands, hands }) => [extraHands, hands])).toEqual([[ratio(1, 24), 0]]);
  });

  it("takes as much work as all its units: 7 / 4 of what the slower station takes, 276.381 s, for 420 s at the times of the file", async () => {
    const { batch, atStatedTimes } = await rampOf(line, plan, 6);
    expect([seconds(batch.line), seconds(atStatedTimes.line)]).toEqual([276.381, 240]);
    expect([seconds(batch.work), seconds(atStatedTimes.work)]).toEqual([483.668, 420]);
  });

  it("takes longer where the line stands still at times: 90 % uptime and 80 % yield make 276.381 s 383.863 s, and 483.668 s of work 604.584 s", async () => {
    const { batch, atStatedTimes, unitsStarted } = await rampOf(
      { ...line, uptime: ratio(9, 10), yield: ratio(4, 5) },
      plan,
      6,
    );
    expect(seconds(batch.line)).toBe(383.863);
    // 6 good ones of 7.5 started; the work of people does not go on while the line stands still.
    expect([seconds(batch.work), seconds(atStatedTimes.work)]).toEqual([604.584, 525]);
    expect(unitsStarted).toEqual(ratio(15, 2));
  });

  it("starts where it is after the units that were built before", async () => {
    const before = lineOf("unit: s\nlearning: {share: 80 %, time-at: 4, built: 1}\ntasks: {a: 30}\n");
    const answer = await rampLine(before, paceOf(40), null, planOf([[0]]), { units: 2, each: true, goesOn });
    expect(answer.rows.map(({ cycle }) => seconds(cycle))).toEqual([37.5, 32.911]);
    expect([answer.days, answer.rows[0]!.day]).toEqual([null, null]);
  });

  it("shows units 1, 2, 5, 10 and so on, the one that meets the pace, and the last", async () => {
    const { rows } = await rampOf(line, plan, 70, false);
    expect(rows.map(({ unit }) => unit)).toEqual([1, 2, 5, 10, 20, 50, 70]);
    const slow = lineOf("unit: s\nlearning: {share: 80 %, time-at: 100}\ntasks: {a: 30}\n");
    const answer = await rampLine(slow, paceOf(60), null, planOf([[0]]), { units: 80, each: false, goesOn });
    // 60 / 30 x 0.22706 = 0.45412 of the first is left from unit 12 on: 12^log2(0.8) = 0.44935.
    expect(answer.rows.map(({ unit }) => unit)).toEqual([1, 2, 5, 10, 12, 20, 50, 80]);
  });

  it("is the plan as it stands where nothing is learned, told by a warning", async () => {
    const plain = lineOf(`unit: s
demand: 2.4 per day
calendar: {shifts: {early: {length: 2 min}}}
handling: 2 s
tasks: {a: 30, b: {time: 40, after: a}}
`);
    const { rows, findings, pace, batch, atStatedTimes } = await rampOf(plain, plan, 3);
    expect(rows.map(({ cycle }) => cycle)).toEqual(Array(3).fill(measurePlan(plain, pace, plan).cycleOfPlan));
    expect(batch).toEqual(atStatedTimes);
    expect(findings.map(({ rule, severity }) => [rule, severity])).toEqual([["nothing-learned", "warning"]]);
  });

  it("tells what is wrong with the plan itself", async () => {
    const { findings } = await rampOf(line, planOf([[1], [0]]), 1);
    expect(findings.map(({ severity }) => severity)).toEqual(["error"]);
  });

  it("counts the stations of a bench as stations, with their people", async () => {
    const station = planOf([[0], [1]]).stations[0]!;
    const beside = { stations: [planOf([[1]]).stations[0]!], benches: [{ ...station, id: "B1" }] };
    const { posts, rows, people } = await rampOf(line, beside, 1);
    expect([posts.map(({ id }) => id), people]).toEqual([["S1", "B1"], 2]);
    expect(rows[0]!.cycles.map(seconds)).toEqual([62.5, 46.875]);
  });

  it("ends where it is told to, with what is built until then", async () => {
    const slow = lineOf("unit: s\nlearning: {share: 80 %, time-at: 500}\ntasks: {a: 30}\n");
    const until = (last: number) => ({
      units: 500,
      each: false,
      goesOn: async (unit: number) => unit < last,
    });
    const { units, unitsAsked, rows } = await rampLine(slow, paceOf(60), null, planOf([[0]]), until(128));
    expect([units, unitsAsked, rows.map(({ unit }) => unit)]).toEqual([
      127,
      500,
      [1, 2, 5, 10, 20, 50, 59, 100, 127],
    ]);
  });
});
