import { describe, expect, it } from "vitest";
import * as figures from "../../../../src/answer/compare/figures.js";
import { peopleOf } from "../../../../src/plan/figures/people.js";
import { verifyPlan } from "../../../../src/plan/verify-plan.js";
import { cellRows } from "../../../../src/report/compare-cells.js";
import { ratio, toNumber } from "../../../../src/time/ratio.js";
import { lineOf, numbersOf } from "../../../tools/line-of.js";
import { answerOf, compared, notesOf, WHEEL } from "./compared.js";

const bike = (...more: string[]) => lineOf(`${WHEEL}${more.join("\n")}\n`);
const number = (value: ReturnType<typeof figures.efficiencyAtPace>) =>
  value === null ? null : toNumber(value);

/** People per shift, people per day, stations on the line, bench places, stock, efficiency at the pace over all people. */
async function terms(option?: string) {
  const line = bike("options: {two benches: {off-line: [[lace, true]]}, two shifts: {off-line: [wheels]}}");
  const answer = await answerOf(line, option);
  const { peoplePerShift, peoplePerDay, stations, benchPlaces, stock, efficiencyAtPace } = figures;
  const counts = [peoplePerShift, peoplePerDay, stations, benchPlaces, stock].map((figure) => figure(answer));
  return [...counts, number(efficiencyAtPace(answer))];
}

describe("a wheel of 95 s on the line or beside it, on equal terms", () => {
  it("on the line: 180 s of work by 4 people at 60 s are 75 %", async () => {
    expect(await terms()).toEqual([4, 4, 4, 0, 0, 0.75]);
  });

  it("at two benches that work with the line: the same people, no stock, 180 / (2 x 60 + 2 x 60)", async () => {
    expect(await terms("two benches")).toEqual([4, 4, 2, 2, 0, 0.75]);
  });

  it("at one bench on two shifts: 3 in the busiest shift, 3 + 1 a day, 450 - floor(27,000 / 95) = 166 in stock", async () => {
    expect(await terms("two shifts")).toEqual([3, 4, 2, 1, 166, 0.75]);
  });
});

describe("benches with other hours than the line", () => {
  const early = "shifts: {early: {length: 7.5 h}, late: {length: 7.5 h}}";

  it("one shift for a line of two: the stock holds what the line takes in the other shift", async () => {
    const line = lineOf(
      WHEEL.replace("450 per day", "900 per day")
        .replace(/calendar: .*\n/, `calendar: {${early}}\n`)
        .replace("shifts: 2}}", "shifts: 1}}")
        .concat("options: {one shift: {off-line: [wheels]}}\n"),
    );
    const answer = await answerOf(line, "one shift");
    // 900 wheels in 27,000 s: one every 30 s, so 95 s need 4 places; 900 / 2 are left for the late shift.
    expect([figures.benchPlaces(answer), figures.stock(answer)]).toEqual([4, 450]);
    expect([figures.peoplePerShift(answer), figures.peoplePerDay(answer)]).toEqual([6, 8]);
  });

  it("a stock without room is told as off-line tells it", async () => {
    const line = lineOf(
      WHEEL.replace("length: 7.5 h", "length: 8 h")
        .replace("shifts: 2}", "shifts: 3, space: 50}")
        .concat("options: {a: {off-line: [wheels]}}\n"),
    );
    // 450 units are built in the shift of the line; 28,800 s x 1 place / 95 s = 303, so 147 lie ready in the morning.
    expect(notesOf(await answerOf(line, "a"))).toEqual([
      "bench wheels: there is room for the parts of 50 units, and a stock of 147 is needed",
    ]);
  });

  it("the time to take parts over is worked where they join", async () => {
    const line = lineOf(
      WHEEL.replace("shifts: 2}", "hand-over: 5, take-over: 15}").concat(
        "options: {a: {off-line: [wheels]}}\n",
      ),
    );
    const { benches, balance } = await answerOf(line, "a");
    expect(benches[0]!.work).toEqual(ratio(100_000_000));
    // 30 + 35 for fit + 35
    expect(toNumber(balance!.measures!.workContent)).toBe(100_000_000);
  });
});

describe("figures of a day", () => {
  const rates = "rates: {person-hour: 30, bench-hour: 5, overtime: 150 %}";

  it("labour minutes are people x shift time / units wanted: 4 x 450 min / 450 of the 490 that are possible", async () => {
    const answer = await answerOf(bike());
    expect(figures.outputPerShift(answer)).toBe(490);
    expect(figures.labourMinutes(answer)).toEqual(ratio(4 * 450, 450));
    expect(number(figures.idleHours(answer))).toBe(7.5);
  });

  it("labour of an option that makes too few is by the units wanted all the same: 2 x 450 min / 450, of which 293 are made", async () => {
    const line = bike("handling: 4", "options: {t: {tables: 2}}");
    const answer = await answerOf(line, "t");
    expect(figures.outputPerShift(answer)).toBe(Math.floor((2 * 27_000) / 184));
    expect(figures.labourMinutes(answer)).toEqual(ratio(2 * 450, 450));
  });

  it("breaks are attended: shift time counts them, output does not", async () => {
    const line = lineOf(WHEEL.replace("length: 7.5 h", "length: 8 h, breaks: 30 min"));
    const answer = await answerOf(line);
    expect(figures.labourMinutes(answer)).toEqual(ratio(4 * 480, 450));
  });

  it("a unit costs 4 x 7.5 h x 30 / 450 wanted, with benches 2 x 7.5 h x 5 more", async () => {
    const line = bike("options: {off: {off-line: [[lace, true]]}}", rates);
    expect(figures.costPerUnit(await answerOf(line))).toEqual(ratio(900, 450));
    expect(figures.costPerUnit(await answerOf(line, "off"))).toEqual(ratio(900 + 75, 450));
  });

  it("an hour of overtime costs half as much again, and nobody pays for what is not wanted", async () => {
    const longer = "calendar: {shifts: {early: {length: 7.5 h, overtime: 1 h}}}";
    const answer = await answerOf(bike(`options: {over: {${longer}}}`, rates), "over");
    const people = figures.peoplePerShift(answer)!;
    expect(figures.costPerUnit(answer)).toEqual(ratio(people * 60 * (75 + 10 + 5), 450 * 20));
    expect(figures.overtimeHours(answer)).toEqual(ratio(1));
  });

  it("costs are not known without rates, nor figures of a shift where shifts differ", async () => {
    const uneven = "calendar: {shifts: {early: {length: 7.5 h}, late: {length: 4 h}}}";
    const answer = await answerOf(bike(`options: {late: {${uneven}}}`), "late");
    expect(figures.costPerUnit(answer)).toBeNull();
    expect([figures.outputPerShift(answer), figures.idleHours(answer)]).toEqual([null, null]);
    expect(figures.wantedPerShift(answer)).toBeNull();
    expect(figures.peoplePerDay(answer)).toBe(figures.peoplePerShift(answer)! * 2);
  });
});

describe("shifts that differ in length", () => {
  it("have their figures by the day, and the units of each shift by its name", async () => {
    // 41,400 s / 450 = 92 s; three stations with a slowest of 70 s: 27,000 / 70 = 385, 14,400 / 70 = 205.
    const uneven = "calendar: {shifts: {early: {length: 7.5 h}, late: {length: 4 h}}}";
    const { options, rows } = await compared(bike(`options: {late: {${uneven}}}`));
    const [asItIs, late] = options;
    expect([figures.wantedPerDay(late!), figures.outputPerDay(late!)]).toEqual([ratio(450), 590]);
    expect(figures.outputByShift(late!)).toEqual([
      { shift: "early", units: 385 },
      { shift: "late", units: 205 },
    ]);
    // 450 units x 96 s of 3 x 92 s - 180 s
    expect(number(figures.idleHoursPerDay(late!))).toBe(12);
    expect(late!.findings.map(({ message }) => message)).toContain(
      "the shifts differ in length, so figures are of a day; of 590 units a day they make: early 385, late 205",
    );
    expect(asItIs!.findings).toEqual([]);
    const shown = cellRows(await compared(bike())).map(({ label }) => label);
    expect(rows.map(({ label }) => label).filter((label) => !shown.includes(label))).toContain(
      "output per day",
    );
    const both = cellRows(await compared(bike(`options: {late: {${uneven}}}`))).map(({ label }) => label);
    expect(both).toEqual(expect.arrayContaining(["wanted per day", "idle hours per day", "output per day"]));
  });
});

describe("whole units at tables", () => {
  it("5 people give floor(5 x 27,000 / 184) units with handling once a unit, walking among the work", async () => {
    const line = bike("handling: 4", "options: {t: {tables: 5}, far: {tables: {people: 5, walking: 60}}}");
    const answer = await answerOf(line, "t");
    expect(figures.outputPerShift(answer)).toBe(Math.floor((5 * 27_000) / 184));
    expect([figures.peoplePerShift(answer), figures.kits(answer)]).toEqual([5, 5]);
    expect([figures.stations(answer), figures.benchPlaces(answer), figures.stock(answer)]).toEqual([
      null,
      null,
      null,
    ]);
    expect(figures.labourMinutes(answer)).toEqual(ratio(5 * 450, 450));
    expect(number(figures.efficiencyAtPace(answer))).toBe(0.608108); // 180 / (5 x 60 - 4)
    expect(figures.outputPerShift(await answerOf(line, "far"))).toBe(Math.floor((5 * 27_000) / 244));
  });

  it("two people for 450 units are too few: no efficiency at the pace", async () => {
    const answer = await answerOf(bike("options: {t: {tables: 2}}"), "t");
    expect([figures.efficiencyAtPace(answer), figures.idleHours(answer)]).toEqual([null, null]);
    expect(number(figures.efficiencyAtSlowest(answer))).toBe(1);
  });
});

describe("the plan of an option", () => {
  it("holds every task of the whole line, and the verifier passes it with its benches", async () => {
    const line = bike("options: {a: {off-line: [[lace, true]]}}");
    const { plan, asked } = await answerOf(line, "a");
    expect(verifyPlan(asked.line, asked.pace, plan!, false)).toEqual([]);
    expect(plan!.benches!.map(({ tasks }) => tasks)).toEqual([numbersOf(line, "lace", "true")]);
    expect(peopleOf(plan!)).toBe(2);
  });

  it("moves are tasks that change their station, or go to a bench", async () => {
    const line = bike("options: {a: {off-line: [[lace, true]]}}");
    const today = (await answerOf(line)).plan!;
    expect(figures.moves(await answerOf(line, "as it is", today))).toBe(0);
    expect(figures.moves(await answerOf(line, "a", today))).toBe(2);
    const off = (await answerOf(line, "a")).plan!;
    expect(figures.moves(await answerOf(line, "a", off))).toBe(0);
    expect(figures.moves(await answerOf(line))).toBeNull();
  });

  it("times of an option replace those of the file, once for each piece", async () => {
    const line = bike("options: {a: {times: {lace: 20}}}");
    const { asked } = await answerOf(line, "a");
    const [lace] = numbersOf(line, "lace");
    expect([asked.line.tasks[lace!]!.load, line.tasks[lace!]!.load]).toEqual([
      ratio(20_000_000),
      ratio(40_000_000),
    ]);
  });

  it("a fixed number of stations is measured against the demand", async () => {
    const line = bike("options: {a: {stations: 3}, b: {stations: 5}}");
    const [three, five] = [await answerOf(line, "a"), await answerOf(line, "b")];
    expect([figures.outputPerShift(three), figures.efficiencyAtPace(three)]).toEqual([385, null]);
    expect(number(figures.efficiencyAtPace(five))).toBe(0.6);
  });
});

describe("so many stations at the pace of their models", () => {
  it("are as slow as the model that may not run over: 88 s a unit and 306 units, though the mean takes 80 s", async () => {
    const line = lineOf(
      [
        "unit: s",
        "demand: 300 per day",
        "calendar: {shifts: {early: {length: 7.5 h}}}",
        "models: {city: 50 %, cargo: 50 %}",
        "model-overload: 0 %",
        "tasks: {a: {time: {city: 72, cargo: 88}}, b: {time: 60, after: a}}",
        "options: {two: {stations: 2}}",
        "",
      ].join("\n"),
    );
    const comparison = await compared(line, ["two"]);
    const [answer] = comparison.options;
    expect(figures.slowestCycle(answer!)).toEqual(ratio(88_000_000));
    expect(figures.slowestPost(answer!)?.id).toBe("S1");
    // 27,000 / 88 = 306.8.
    expect(figures.outputPerShift(answer!)).toBe(306);
    expect(notesOf(answer!)).toEqual([
      "the stations could keep a cycle of 80 s; the models need a line cycle of 88 s: cargo takes 88 s at S1, and may not be above the working time of 88 s",
    ]);
  });
});
