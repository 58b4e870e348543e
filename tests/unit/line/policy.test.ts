import { describe, expect, it } from "vitest";
import { ONE, ratio } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const withKeys = (...keys: string[]) => lineOf(["unit: s", ...keys, "tasks: {a: 5}", ""].join("\n"));

describe("The policy of a line file", () => {
  it("asks of a silent file only that no station is loaded beyond its working time", () => {
    const { policy, supplies } = withKeys();
    const rest = { minEfficiency: null, maxStations: null, maxPeople: null, maxAboveLeast: null };
    expect([policy, supplies]).toEqual([{ maxLoad: ONE, ...rest }, []]);
  });

  it("is read in exact numbers", () => {
    const given =
      "policy: {max-load: 97.5 %, min-efficiency: 85 %, max-stations: 12, max-people: 13, max-above-least: 0}";
    expect(withKeys(given).policy).toEqual({
      maxLoad: ratio(39, 40),
      minEfficiency: ratio(17, 20),
      maxStations: 12,
      maxPeople: 13,
      maxAboveLeast: 0,
    });
  });
});

it("Supplies are read with their period, in natural order of names", () => {
  const line = withKeys(
    "calendar: {shifts: {a: {length: 8 h}}}",
    "supply: {b10: 150 per shift, b9: 20 per hour}",
  );
  expect(line.supplies.map(({ place: _, ...rest }) => rest)).toEqual([
    { name: "b9", units: ratio(20), period: "hour" },
    { name: "b10", units: ratio(150), period: "shift" },
  ]);
});

it("A supply per shift needs a calendar", () => {
  expect(() => withKeys("supply: {wheels: 150 per shift}")).toThrow(
    "supply, wheels: a supply per shift needs a `calendar:` that says how long the line works",
  );
});
