import { describe, expect, it } from "vitest";
import { paybackOf } from "../../../../src/answer/compare/payback.js";
import { cellRows } from "../../../../src/report/compare-cells.js";
import { compareSheet } from "../../../../src/report/sheet/compare-sheet.js";
import { verdictWords } from "../../../../src/report/words/verdict-words.js";
import { writeCsv } from "../../../../src/table/write-csv.js";
import { ratio } from "../../../../src/time/ratio.js";
import { lineOf } from "../../../tools/line-of.js";
import { compared, notesOf, WHEEL } from "./compared.js";

const csvOf = (comparison: Parameters<typeof compareSheet>[0]) =>
  writeCsv(compareSheet(comparison), { delimiter: ",", decimals: ".", guard: true });

const RATES = "rates: {person-hour: 30, bench-hour: 1, currency: EUR}\n";
/** One person less for 450 units a day: 7.5 h x 30 EUR = 225 EUR a day. */
const FASTER = "times: {frame: 25, lace: 20, true: 40}";
const comparison = (option: string, rates = RATES, names?: readonly string[]) =>
  compared(lineOf(`${WHEEL}${rates}options:\n  o: {${option}}\n`), names);
const payback = async (option: string, rates?: string) => (await comparison(option, rates)).facts[1]!.payback;

describe("payback in working days", () => {
  it("12,000 EUR / (7.5 h x 30 EUR a working day for 1 person less) = 53 1/3 working days", async () => {
    expect(await payback(`${FASTER}, once: 12000 EUR`)).toEqual({
      once: ratio(12_000),
      currency: "EUR",
      outcome: "pays back",
      savingPerDay: ratio(225),
      workingDays: ratio(160, 3),
    });
  });

  it("is exact, and the saving shown gives the days shown: 12,000 / 224.93 would give 53.3", async () => {
    // 1 person less, and 450 units at 29.99 EUR: 7.5 x 29.99 = 224.925; 12,000 / 224.925 = 53.351...
    const told = await comparison(`${FASTER}, once: 12000 EUR`, RATES.replace("30", "29.99"));
    expect(told.facts[1]!.payback).toMatchObject({
      savingPerDay: ratio(224_925, 1000),
      workingDays: ratio(12_000_000, 224_925),
    });
    const rows = cellRows(told).slice(-3);
    expect(rows.map(({ label, cells }) => [label, ...cells.map(({ value }) => value)])).toEqual([
      ["one-off cost", "-", "12,000.00 EUR"],
      ["saving per working day", "-", "224.925 EUR"],
      ["payback, working days", "-", "53.4"],
    ]);
  });

  it("shows a small saving with as many decimals as the days need: 12,000 / 0.0225 EUR, where 0.02 would give 600,000", async () => {
    const told = await comparison(`${FASTER}, once: 12000`, "rates: {person-hour: 0.003}\n");
    const [, saving, days] = cellRows(told).slice(-3);
    expect([saving!.cells[1]!.value, days!.cells[1]!.value]).toEqual(["0.0225", "533,333.3"]);
  });

  it("never comes where a working day costs as much or more: 2 shifts x 7.5 h of a bench at 1 EUR", async () => {
    expect(await payback("off-line: [wheels], once: 500")).toEqual({
      once: ratio(500),
      currency: "EUR",
      outcome: "never",
      savingPerDay: ratio(-15),
    });
    expect(await payback("max-places: 2, once: 500")).toMatchObject({
      outcome: "never",
      savingPerDay: ratio(0),
    });
  });

  it("counts the working days of the option: a week of 6 days at 675 EUR saves 450 EUR on 5 days at 900 EUR, so 450 EUR take 6 days", async () => {
    const calendar = (days: number) => `calendar: {days-per-week: ${days}, shifts: {early: {length: 7.5 h}}}`;
    const week = WHEEL.replace("450 per day", "2250 per week").replace(/calendar: .*/u, calendar(5));
    // 450 units a day take 4 people, 375 a day (72 s) take 3: 4 or 3 x 7.5 h x 30 EUR a day.
    const line = lineOf(`${week}${RATES}options:\n  o: {${calendar(6)}, once: 450 EUR}\n`);
    expect((await compared(line)).facts[1]!.payback).toMatchObject({
      savingPerDay: ratio(75),
      workingDays: ratio(6),
    });
  });

  it("is nothing where an option costs nothing once", async () => {
    const told = await comparison(FASTER);
    expect(told.facts.map((each) => each.payback)).toEqual([null, null]);
    expect(cellRows(told).map(({ label }) => label)).not.toContain("one-off cost");
    expect(csvOf(told)).not.toContain("one-off");
  });
});

describe("payback is not stated", () => {
  const why = (option: string, rates?: string) => payback(`${option}, once: 9 EUR`, rates);

  it.each([
    ["no rates", FASTER, ""],
    ["other demand", "demand: 400 per day", RATES],
    ["misses its demand", "stations: 3", RATES],
  ])("where there is %s", async (reason, option, rates) => {
    expect(await why(option, rates)).toMatchObject({ outcome: "not stated", why: reason });
  });

  it("for the first column, and against one that costs something once too", async () => {
    const two = lineOf(`${WHEEL}${RATES}options: {a: {once: 5}, b: {${FASTER}, once: 9}}\n`);
    expect((await compared(two, ["a", "b"])).facts.map((each) => each.payback)).toMatchObject([
      { why: "it is the first" },
      { why: "first costs once too" },
    ]);
  });

  it("between files in different money", async () => {
    const [first] = (await compared(lineOf(`${WHEEL}${RATES.replace("EUR", "USD")}`))).options;
    const [, option] = (await comparison(`${FASTER}, once: 9`)).options;
    expect(paybackOf(first!, option!)).toMatchObject({ why: "other currency" });
  });

  it("and the notes say why", async () => {
    const { options } = await comparison(`${FASTER}, once: 9`);
    expect(notesOf(options[1]!)).toContain("payback not stated: nothing stands beside it");
  });
});

it("The table for spreadsheets has plain numbers, with the currency, the days and what has none in words", async () => {
  const line = lineOf(
    `${WHEEL}${RATES}options: {a: {${FASTER}, once: 12000}, b: {max-places: 2, once: 9}}\n`,
  );
  const rows = csvOf(await compared(line)).split("\r\n");
  expect(rows.filter((row) => /^(?:one-off|saving|payback)/u.test(row))).toEqual([
    "one-off cost,EUR,,,12000,,,9,,",
    "saving per working day,EUR,,,225,,,0,,",
    "payback,working days,,,53.333333,,,,,never",
  ]);
});

it("The verdict names the one-off cost with its payback", async () => {
  const { verdict } = await comparison(`${FASTER}, once: 12000 EUR`);
  expect(verdictWords(verdict)).toBe(
    "o: frees 1 of 4 people, leaving 3; takes 1 station off the line; takes 0.50 EUR off the cost per unit (1.50 EUR); costs 12,000.00 EUR once (paid back in 53.3 working days).",
  );
  const missed = await comparison("stations: 3, once: 9");
  expect(verdictWords(missed.verdict)).toContain("and 9.00 EUR once).");
});
