import { expect, it } from "vitest";
import { ratio } from "../../../src/time/ratio.js";
import { lineOf, numbersOf } from "../../tools/line-of.js";

const line = lineOf(
  [
    "unit: s",
    "demand: 450 per day",
    "calendar: {shifts: {early: {length: 7.5 h}}}",
    "benches: {wheels: {tasks: [lace, true], shifts: 2}, B1: {tasks: frame}}",
    "options:",
    "  o10: {off-line: [wheels], stations: 2, once: 7 1/2, note: 7}",
    "  o9: {off-line: [[true, lace]], once: 12000 EUR}",
    "  calendar: {calendar: {shifts: {late: {length: 8 h, overtime: 1 h}}}, demand: 500 per day, handling: 4}",
    "  times: {times: {lace: 0:50}, max-places: 2, uptime: 94 %, yield: 99 %}",
    "  tables: {tables: {people: 6, walking: 9}}",
    "rates: {person-hour: 32.50, overtime: 150 %, currency: EUR}",
    "tasks: {frame: 30, lace: 40, true: {time: 55, after: lace}, fit: {time: 20, after: [frame, true]}}",
    "",
  ].join("\n"),
);
const optionOf = (name: string) => line.options.find((option) => option.name === name)!;

it("Options stand in natural order of names", () => {
  expect(line.options.map(({ name }) => name)).toEqual(["calendar", "o9", "o10", "tables", "times"]);
});

it("A block gets a bench with a free id, a named one is that of the line", () => {
  const [lace, trued] = numbersOf(line, "lace", "true");
  expect(optionOf("o9").offLine).toMatchObject([
    { id: "B2", tasks: [lace, trued], shifts: null, takeOver: 0 },
  ]);
  expect(optionOf("o10").offLine).toEqual(line.benches.filter(({ id }) => id === "wheels"));
});

it("What an option leaves out is null, what it gives is exact", () => {
  expect(optionOf("o10")).toMatchObject({
    stations: 2,
    note: "7",
    demand: null,
    calendar: null,
    planTo: null,
  });
  expect(optionOf("calendar")).toMatchObject({
    demand: { units: ratio(500), period: "day" },
    handling: 4_000_000,
    calendar: { shifts: [{ name: "late", overtime: 3_600_000_000 }] },
  });
  const [lace] = numbersOf(line, "lace");
  expect(optionOf("times")).toMatchObject({ uptime: ratio(47, 50), yield: ratio(99, 100), maxPlaces: 2 });
  expect([...optionOf("times").times]).toEqual([[lace, 50_000_000]]);
  expect(optionOf("tables").tables).toEqual({ people: 6, walking: 9_000_000 });
});

it("A one-off cost is exact, in the currency that it or the rates name", () => {
  expect(optionOf("o9").once).toEqual({ amount: ratio(12_000), currency: "EUR" });
  expect(optionOf("o10").once).toEqual({ amount: ratio(15, 2), currency: "EUR" });
  expect(optionOf("tables").once).toBeNull();
});

it("Rates are plain numbers; the bench costs nothing unless said", () => {
  expect(line.rates).toEqual({
    personHour: ratio(65, 2),
    benchHour: ratio(0),
    overtime: ratio(3, 2),
    currency: "EUR",
  });
});
