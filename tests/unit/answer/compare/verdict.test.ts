import { describe, expect, it } from "vitest";
import { compareOptions, ONE_BY_ONE } from "../../../../src/answer/compare/compare-options.js";
import { cellRows, signWords } from "../../../../src/report/compare-cells.js";
import { compareSheet } from "../../../../src/report/sheet/compare-sheet.js";
import { verdictWords } from "../../../../src/report/words/verdict-words.js";
import { writeCsv } from "../../../../src/table/write-csv.js";
import { lineOf, paceOf } from "../../../tools/line-of.js";
import { asked, compared, notesOf, WHEEL } from "./compared.js";

const csvOf = (comparison: Parameters<typeof compareSheet>[0]) =>
  writeCsv(compareSheet(comparison), { delimiter: ",", decimals: ".", guard: true });

const verdictOf = async (options: string, names?: string[]) =>
  verdictWords((await compared(lineOf(`${WHEEL}options: {${options}}\n`), names)).verdict);

describe("the verdict", () => {
  it("names what nobody is freed by, and what it costs all the same", async () => {
    expect(await verdictOf("wheels-off-line: {off-line: [[lace, true]]}")).toBe(
      "wheels-off-line: frees nobody; takes 2 stations off the line; costs 2 bench places and one buffer stock.",
    );
  });

  it("tells the busiest shift from the day", async () => {
    expect(await verdictOf("long bench: {off-line: [wheels]}")).toBe(
      "long bench: frees 1 of 4 people in the busiest shift, leaving 3, but nobody over the day; takes 2 stations off the line; costs 1 bench place and one buffer stock of 166 units.",
    );
  });

  it("tells the busiest shift from the day where a bench works some shifts only", async () => {
    // 900 units in 15 h: 35 s a unit of the bench are 2 people in its 7.5 h, beside 3 on the line in both shifts.
    const line = [
      "unit: s\ndemand: 900 per day\ncalendar: {shifts: {early: {length: 7.5 h}, late: {length: 7.5 h}}}",
      'benches: {wheels: {tasks: [lace, "true"], shifts: 1}}\noptions: {one shift: {off-line: [wheels]}}',
      'tasks: {frame: {time: 50, on-base: true}, fork: {time: 30, after: frame}, lace: 20, "true": {time: 15, after: lace}, fit: {time: 45, after: [fork, "true"]}}\n',
    ].join("\n");
    const told = async (names: string[]) => verdictWords((await compared(lineOf(line), names)).verdict);
    expect(await told(["as it is", "one shift"])).toBe(
      "one shift: costs 2 people more in the busiest shift (5), 2 people more over the day (8), 2 bench places and one buffer stock of 450 units.",
    );
    expect(await told(["one shift", "as it is"])).toBe(
      "as it is: frees 2 of 5 people in the busiest shift, leaving 3, and 2 over the day, leaving 6; gives back 2 bench places; needs one buffer stock less (450 units).",
    );
  });

  it("puts the option first that costs less once, of those with as many people at one cost per unit", async () => {
    const told = await verdictOf(
      "dear: {yield: 100 %, once: 900}, cheap: {yield: 100 %, once: 90}, free: {yield: 100 %}",
    );
    expect(told.match(/free(?=:)|cheap(?=:)|dear(?=:)/gu)).toEqual(["free", "cheap", "dear"]);
  });

  it("measures against the first option, whichever it is", async () => {
    const options = "on two benches: {off-line: [[lace, true]]}, on two shifts: {off-line: [wheels]}";
    expect(await verdictOf(options, ["on two benches", "on two shifts"])).toBe(
      "on two shifts: frees 1 of 4 people in the busiest shift, leaving 3, but nobody over the day; gives back 1 bench place; costs 166 units more in stock.",
    );
  });

  it("says which demand an option is for, and calls it no gain to make less than that", async () => {
    // 27,000 s / 70 s of frame and lace = 385 of 450.
    expect(await verdictOf("busy: {demand: 480 per day}, three: {stations: 3}")).toBe(
      "busy is for more units (480 a day instead of 450) with the same people and stations. three misses its demand by 65 units a shift (385 of 450) and is no gain (3 people instead of 4 and 3 stations instead of 4).",
    );
  });

  it("calls it no cost to make up what the first option misses", async () => {
    expect(await verdictOf("three: {stations: 3}", ["three", "as it is"])).toBe(
      "three misses its demand by 65 units a shift (385 of 450). as it is meets its demand with 4 people instead of 3 and 4 stations instead of 3.",
    );
    expect(await verdictOf("three: {stations: 3}", ["three"])).toBe(
      "three needs 3 people (3 stations), output 385 units a shift and misses its demand by 65 units a shift (385 of 450).",
    );
  });

  it("says how many people at tables would keep up where those given do not", async () => {
    // 2 x 27,000 s / 180 s of work = 300 units; 450 x 180 s / 27,000 s = 3 people.
    const [first] = (await verdictOf("t: {tables: 2}")).split(". ");
    expect(first).toBe(
      "t, with 2 tables in place of 4 stations, misses its demand by 150 units a shift (300 of 450; 3 people at tables would keep up) and is no gain (2 people instead of 4)",
    );
  });

  it("counts what is missed by the hour without a calendar, and by the cycle without a demand", async () => {
    const hourly = WHEEL.replace("450 per day", "60 per hour").replace(/calendar: .*\n/, "");
    const line = lineOf(`${hourly.replace(", shifts: 2", "")}options: {three: {stations: 3}}\n`);
    // 3,600 s / 70 s = 51.4 of 60.
    expect(verdictWords((await compared(line)).verdict)).toBe(
      "three misses its demand by 8.6 units an hour (51.4 of 60) and is no gain (3 people instead of 4 and 3 stations instead of 4).",
    );
    const paced = ["as it is", "three"].map((name) => ({
      ...asked(line, name),
      pace: paceOf(60),
      takt: null,
    }));
    const { verdict } = await compareOptions(line, paced, { ...ONE_BY_ONE, watch: async () => null });
    expect(verdictWords(verdict)).toBe(
      "three misses the line cycle of 60 s (the cycle of its plan is 70 s) and is no gain (3 people instead of 4 and 3 stations instead of 4).",
    );
  });

  it("tells of people who are freed over the day and needed in the shift", async () => {
    const line = WHEEL.replace("early: {length: 7.5 h}", "early: {length: 7.5 h}, late: {length: 7.5 h}");
    const longer = "long day: {calendar: {shifts: {early: {length: 7.5 h, overtime: 2 h}}}}";
    expect(verdictWords((await compared(lineOf(`${line}options: {${longer}}\n`))).verdict)).toBe(
      "long day, on 1 shift a day instead of 2: frees 1 person over the day, leaving 3; costs 1 person more in a shift (3), 1 more station and 2 h of overtime a day.",
    );
  });

  it("takes fewer people of a shift for no gain where the demand is half, or the shifts are more", async () => {
    const shift = "{length: 7.5 h}";
    const two = WHEEL.replace(/calendar: .*\n/, `calendar: {shifts: {early: ${shift}, late: ${shift}}}\n`);
    const options = [
      // As many units in its one shift as the line makes in each of two: half of the day.
      `one: {demand: 225 per day, calendar: {shifts: {early: ${shift}}}}`,
      `half: {demand: 225 per day}`,
      `three: {calendar: {shifts: {early: ${shift}, late: ${shift}, night: ${shift}}}}`,
    ];
    // 54,000 s / 450 = 120 s: 2 people, 81,000 s / 450 = 180 s and 54,000 s / 225 = 240 s: 1 person.
    expect(verdictWords((await compared(lineOf(`${two}options: {${options.join(", ")}}\n`))).verdict)).toBe(
      "three, on 3 shifts a day instead of 2: frees 1 person over the day, leaving 3; takes 1 station off the line; costs 1 more shift a day. half is for fewer units (225 a day instead of 450) and is no gain (1 person instead of 2 and 1 station instead of 2). one, on 1 shift a day instead of 2, is for fewer units (225 a day instead of 450) and is no gain (2 people a day instead of 4).",
    );
  });

  it("takes as many units a week on more days for the same demand, and calls the day a cost", async () => {
    const days = (count: number) => `calendar: {shifts: {early: {length: 7.5 h}}, days-per-week: ${count}}`;
    const five = WHEEL.replace(/calendar: .*\n/, `${days(5)}\n`);
    const line = lineOf(`${five}options: {six: {demand: 2250 per week, ${days(6)}}}\n`);
    const { verdict, rows } = await compared(line);
    // 2,250 / 6 = 375 a day: 72 s, 180 s of work at 3 stations.
    expect(verdictWords(verdict)).toBe(
      "six, on 6 days a week instead of 5: frees 1 of 4 people, leaving 3; takes 1 station off the line; costs 1 more day a week.",
    );
    const unranked = rows.filter((row) => row.unranked !== null).map(({ key }) => key);
    expect(unranked).toContain("peoplePerDay");
    expect(unranked).not.toContain("stations");
  });

  it("counts what is given back as a gain", async () => {
    const options =
      "on two shifts: {off-line: [wheels]}, over: {calendar: {shifts: {early: {length: 7.5 h, overtime: 30 min}}}}";
    expect(await verdictOf(options, ["on two shifts", "as it is"])).toBe(
      "as it is: gives back 1 bench place; needs one buffer stock less (166 units); costs 1 person more in the busiest shift (4) and 2 more stations.",
    );
    expect(await verdictOf(options, ["over", "as it is"])).toBe(
      "as it is: frees nobody; gives back 30 min of overtime a day.",
    );
  });

  it("tells of places where the stations are as many", async () => {
    const line = lineOf(
      "unit: s\ndemand: 60 per hour\nmax-places: 2\ntasks: {frame: {time: 30, on-base: true}, lace: 60, fit: {time: 24, after: [frame, lace]}}\noptions: {off: {off-line: [[lace]]}}\n",
    );
    expect(verdictWords((await compared(line)).verdict)).toBe(
      "off: frees nobody; takes 1 place off the line; costs 1 bench place and one buffer stock.",
    );
    expect(verdictWords((await compared(line, ["off", "as it is"])).verdict)).toBe(
      "as it is: frees nobody; gives back 1 bench place; needs one buffer stock less; costs 1 more place on the line.",
    );
  });

  it("counts a stock for each task at which the parts of a bench join", async () => {
    const wheel = WHEEL.replace("tasks: [lace, true]", "tasks: [lace, true, bell]").replace(
      "brake: {time: 35, after: fit}",
      "brake: {time: 35, after: [fit, bell]}\n  bell: 5",
    );
    expect(
      verdictWords((await compared(lineOf(`${wheel}options: {parts: {off-line: [wheels]}}\n`))).verdict),
    ).toContain("costs 1 bench place and 2 buffer stocks of 180 units");
  });

  it("says how many places fewer stations have", async () => {
    expect(await verdictOf("wide: {max-places: 2}")).toBe(
      "wide: frees nobody; takes 2 stations off the line (2 with 4 places).",
    );
  });

  it("says why an option has no balance", async () => {
    expect(await verdictOf("fast: {demand: 600 per day}")).toBe(
      "fast has no balance (true takes 55 s, 122.2 % of the working time (45 s): no station can hold it).",
    );
  });

  it("gives a reason that options share once, beside what the others need", async () => {
    const line = lineOf(`${WHEEL}options: {a: {note: one}, b: {off-line: [[lace, true]]}, c: {tables: 5}}\n`);
    // 27,000 s / 35 s of brake = 771; 5 x 27,000 s / 180 s = 750.
    const paced = ["as it is", "a", "b", "c"].map((name) => ({
      ...asked(line, name),
      pace: paceOf(45),
      takt: null,
    }));
    const { verdict, options } = await compareOptions(line, paced, {
      ...ONE_BY_ONE,
      watch: async () => null,
    });
    expect(verdictWords(verdict).split(". ").slice(0, 3)).toEqual([
      "as it is and a have no balance (true takes 55 s, 122.2 % of the working time (45 s): no station can hold it)",
      "c needs 5 people (5 tables), output 750 units a shift",
      "b needs 6 people (3 stations and 3 bench places), output 771 units a shift",
    ]);
    expect(options.map(notesOf)).toEqual([[], ["one"], [], []]);
  });
});

describe("the marks of the best values", () => {
  it("are explained only where there are any", async () => {
    const line = lineOf(`${WHEEL}options: {few: {demand: 100 per day}}\n`);
    expect(signWords(await compared(line), "✓")).toBe(
      "no value is marked as the best of its row; none for few, which is for another demand",
    );
    expect(signWords(await compared(line, ["few"]), "✓")).toBe("");
  });

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

describe("rows of a shift", () => {
  it("have no best value where options work other numbers of shifts; those of a day have", async () => {
    const night = "calendar: {shifts: {a: {length: 7.5 h}, b: {length: 7.5 h}}}";
    const comparison = await compared(lineOf(`${WHEEL}options: {night: {${night}}}\n`));
    const rows = new Map(comparison.rows.map((row) => [row.key, row]));
    for (const key of ["peoplePerShift", "idleHoursPerShift", "outputPerShift", "slowestCycle"] as const) {
      expect(rows.get(key)).toMatchObject({ unranked: "other shifts", isBest: [false, false] });
    }
    expect(rows.get("peoplePerDay")!.isBest).toEqual([true, true]);
    expect(signWords(comparison, "✓")).toBe(
      "✓ the best of its row; none by the shift, as the options work different numbers of shifts a day: compare by the day",
    );
    const shown = cellRows(comparison).map(({ label }) => label);
    expect(shown).toEqual(expect.arrayContaining(["wanted per day", "wanted per hour", "output per day"]));
  });
});

describe("costs in different currencies", () => {
  const rates = (currency: string) => `rates: {person-hour: 30${currency}}\n`;
  const inFiles = (...currencies: string[]) =>
    compareOptions(
      lineOf(`${WHEEL}${rates(currencies[0]!)}`),
      currencies.map((each, at) => ({ ...asked(lineOf(`${WHEEL}${rates(each)}`)), name: `line ${at + 1}` })),
      { ...ONE_BY_ONE, watch: async () => null },
    );

  it("each keep their own, without a difference, a best value or a word in the verdict", async () => {
    const comparison = await inFiles(", currency: EUR", ", currency: SEK", "");
    const row = comparison.rows.find(({ key }) => key === "costPerUnit")!;
    expect(row).toMatchObject({ unranked: "other currencies", differences: [null, null, null] });
    expect(row.isBest).toEqual([false, false, false]);
    const cells = cellRows(comparison).find(({ label }) => label === row.label)!.cells;
    expect(cells.map(({ value }) => value)).toEqual(["2.00 EUR", "2.00 SEK", "2.00"]);
    expect(signWords(comparison, "✓")).toContain(
      "none for the cost, nor a difference, as the currencies differ (EUR, SEK, one not named)",
    );
    const money = csvOf(comparison)
      .split("\r\n")
      .filter((each) => each.startsWith("cost"));
    expect(money).toEqual([
      "cost per unit wanted,EUR,2,,,,,,,",
      "cost per unit wanted,SEK,,,2,,,,,",
      "cost per unit wanted,,,,,,,2,,",
    ]);
  });

  it("are ranked where all are in one", async () => {
    const { rows } = await inFiles(", currency: EUR", ", currency: EUR");
    expect(rows.find(({ key }) => key === "costPerUnit")!.isBest).toEqual([true, true]);
  });
});

describe("a sentence of its own for tables", () => {
  it("is said once for tables that have it alike, by the shift where the demand is", async () => {
    const tables = "few: {tables: {people: 6, walking: 300}}, more: {tables: {people: 7, walking: 300}}";
    const verdict = await verdictOf(tables);
    expect(verdict.match(/against as many tables/gu)).toHaveLength(1);
    expect(verdict).toContain("(those of few and more)");
    const byShift = WHEEL.replace("450 per day", "450 per shift");
    expect(verdictWords((await compared(lineOf(`${byShift}options: {${tables}}\n`))).verdict)).toContain(
      "from 57 units a shift (1",
    );
  });

  it.each([
    [
      "6, walking: 60",
      "The line (as it is) against as many tables as each demand needs (those of t): it needs fewer people for the first time at 113 units a day (1 instead of 2). After that it does so at some demands only, and at every one from 451 to 490, the highest looked at.",
    ],
    [
      "2",
      "The line (as it is) against as many tables as each demand needs (those of t): it needs fewer people at no demand up to 490 units a day, the highest looked at.",
    ],
    [
      "6, walking: 300",
      "The line (as it is) against as many tables as each demand needs (those of t): it needs fewer people from 57 units a day (1 instead of 2) on, at every demand up to 490, the highest looked at.",
    ],
  ])("with {people: %s} tells from which demand on the line needs fewer people", async (tables, sentence) => {
    const verdict = await verdictOf(`t: {tables: {people: ${tables}}}`);
    expect(verdict.slice(verdict.indexOf("The line (as it is)"))).toBe(sentence);
  });
});
