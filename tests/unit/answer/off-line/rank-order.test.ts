import { describe, expect, it } from "vitest";
import { compareRanked, readRanks } from "../../../../src/answer/off-line/rank-order.js";

const read = (text: string) => {
  const reading = readRanks(text);
  return reading.ok ? reading.value : reading.problem;
};

describe("The order of ranks", () => {
  it("is completed in the usual order", () => {
    expect(read("stock")).toEqual(["stock", "people", "stations"]);
    expect(read("stations, people")).toEqual(["stations", "people", "stock"]);
  });

  it("refuses other words and doubles", () => {
    const expected = "a list of people, stations, stock is expected, such as stock,stations,people";
    expect(read("poeple")).toBe(`"poeple" is nothing to rank by; ${expected}; nearest: people`);
    expect(read("people,people")).toBe(`people stands twice; ${expected}`);
  });

  it("decides by the first figure that differs, stock by its units before its places", () => {
    const one = { people: 4, stations: 3, stock: 0, stockPoints: 2 };
    const two = { people: 5, stations: 2, stock: 0, stockPoints: 1 };
    expect(compareRanked(["people", "stations", "stock"], one, two)).toBeLessThan(0);
    expect(compareRanked(["stations", "people", "stock"], one, two)).toBeGreaterThan(0);
    expect(compareRanked(["stock", "people", "stations"], one, two)).toBeGreaterThan(0);
    expect(compareRanked(["people"], one, { ...two, people: 4 })).toBe(0);
  });
});
