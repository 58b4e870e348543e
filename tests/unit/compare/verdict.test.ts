import { describe, expect, it } from "vitest";
import { compareOptions, ONE_BY_ONE } from "../../../src/compare/compare-options.js";
import { lineOf, paceOf } from "../../tools/line-of.js";
import { asked, compared, WHEEL } from "./compared.js";

const verdictOf = async (options: string, names?: string[]) =>
  (await compared(lineOf(`${WHEEL}options: {${options}}\n`), names)).verdict;

describe("the verdict", () => {
  it("names what nobody is freed by, and what it costs all the same", async () => {
    expect(await verdictOf("wheels-off-line: {off-line: [[lace, true]]}")).toBe(
      "wheels-off-line frees nobody and takes 2 stations off the line, and costs 2 bench places and one stock.",
    );
  });

  it("tells the busiest shift from the day", async () => {
    expect(await verdictOf("long bench: {off-line: [wheels]}")).toBe(
      "long bench frees 1 person of 4 (3) in the busiest shift but nobody over the day and takes 2 stations off the line, and costs 1 bench place and one stock of 166 units.",
    );
  });

  it("measures against the first option, whichever it is", async () => {
    const options = "on two benches: {off-line: [[lace, true]]}, on two shifts: {off-line: [wheels]}";
    expect(await verdictOf(options, ["on two benches", "on two shifts"])).toBe(
      "on two shifts frees 1 person of 4 (3) in the busiest shift but nobody over the day and gives back 1 bench place, and costs 166 units more in stock.",
    );
  });

  it("says which demand an option is for, and calls it no gain to make less than that", async () => {
    // 27,000 s / 70 s of frame and lace = 385 of 450.
    expect(await verdictOf("busy: {demand: 480 per day}, three: {stations: 3}")).toBe(
      "busy, for 480 units a shift instead of 450, frees nobody; three misses its demand by 65 units a shift (385 of 450) and is no gain with 3 people instead of 4 and 3 stations instead of 4.",
    );
  });

  it("calls it no cost to make up what the first option misses", async () => {
    expect(await verdictOf("three: {stations: 3}", ["three", "as it is"])).toBe(
      "three misses its demand by 65 units a shift (385 of 450); as it is meets its demand with 4 people instead of 3 and 4 stations instead of 3.",
    );
    expect(await verdictOf("three: {stations: 3}", ["three"])).toBe(
      "three needs 3 people, output 385 units a shift and misses its demand by 65 units a shift (385 of 450).",
    );
  });

  it("says how many people at tables would keep up where those given do not", async () => {
    // 2 x 27,000 s / 180 s of work = 300 units; 450 x 180 s / 27,000 s = 3 people.
    const [first] = (await verdictOf("t: {tables: 2}")).split(". ");
    expect(first).toBe(
      "t misses its demand by 150 units a shift (300 of 450; 3 people at tables would keep up) and is no gain with 2 people instead of 4",
    );
  });

  it("counts what is missed by the hour without a calendar, and by the cycle without a demand", async () => {
    const hourly = WHEEL.replace("450 per day", "60 per hour").replace(/calendar: .*\n/, "");
    const line = lineOf(`${hourly.replace(", shifts: 2", "")}options: {three: {stations: 3}}\n`);
    // 3,600 s / 70 s = 51.4 of 60.
    expect((await compared(line)).verdict).toBe(
      "three misses its demand by 8.6 units an hour (51.4 of 60) and is no gain with 3 people instead of 4 and 3 stations instead of 4.",
    );
    const paced = ["as it is", "three"].map((name) => ({
      ...asked(line, name),
      pace: paceOf(60),
      takt: null,
    }));
    const { verdict } = await compareOptions(line, paced, { ...ONE_BY_ONE, watch: async () => null });
    expect(verdict).toBe(
      "three misses the line cycle of 60 s (its slowest cycle is 70 s) and is no gain with 3 people instead of 4 and 3 stations instead of 4.",
    );
  });

  it("tells of people who are freed over the day and needed in the shift", async () => {
    const line = WHEEL.replace("early: {length: 7.5 h}", "early: {length: 7.5 h}, late: {length: 7.5 h}");
    const longer = "long day: {calendar: {shifts: {early: {length: 7.5 h, overtime: 2 h}}}}";
    expect((await compared(lineOf(`${line}options: {${longer}}\n`))).verdict).toBe(
      "long day, for 450 units a shift instead of 225, frees 1 person over the day (3), and costs 1 person more (3), 1 more station and 2 h of overtime a day.",
    );
  });

  it("says why an option has no balance", async () => {
    expect(await verdictOf("fast: {demand: 600 per day}")).toBe(
      "fast has no balance (true takes 55 s, 122.2 % of the working time (45 s): no station can hold it).",
    );
  });
});

describe("the marks of the best values", () => {
  const marked = async (options: string) => {
    const { rows, options: answers } = await compared(lineOf(`${WHEEL}options: {${options}}\n`));
    return answers.map(({ asked: { name } }, at) => [
      name,
      rows.filter(({ isBest }) => isBest[at]).map(({ key }) => key),
    ]);
  };

  it("go to no option that misses its demand, and to none where nothing is left to compare", async () => {
    expect(await marked("three: {stations: 3}, t: {tables: 2}, fast: {times: {true: 90}}")).toEqual([
      ["as it is", []],
      ["fast", []],
      ["t", []],
      ["three", []],
    ]);
  });

  it("go to no option for another demand than the first", async () => {
    const found = new Map(
      (await marked("few: {demand: 100 per day}, benches: {off-line: [[lace, true]]}")) as [],
    );
    expect(found.get("few")).toEqual([]);
    expect(found.get("as it is")).toContain("peoplePerShift");
    expect(found.get("benches")).toContain("peoplePerShift");
  });
});

describe("a sentence of its own for tables", () => {
  it.each([
    [
      "6, walking: 60",
      "Against as many tables as each demand needs (those of t), the line (as it is) needs fewer people for the first time at 113 units a shift (1 instead of 2), after that at some demands only, and at every one from 451 to 490, the highest looked at.",
    ],
    [
      "2",
      "Against as many tables as each demand needs (those of t), the line (as it is) needs fewer people at no demand up to 490 units a shift, the highest looked at.",
    ],
    [
      "6, walking: 300",
      "Against as many tables as each demand needs (those of t), the line (as it is) needs fewer people from 57 units a shift (1 instead of 2) on, at every demand up to 490, the highest looked at.",
    ],
  ])("with {people: %s} tells from which demand on the line needs fewer people", async (tables, sentence) => {
    const verdict = await verdictOf(`t: {tables: {people: ${tables}}}`);
    expect(verdict.slice(verdict.indexOf("Against"))).toBe(sentence);
  });
});
