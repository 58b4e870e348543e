import { describe, expect, it } from "vitest";
import { BestFilling } from "../../../../src/solve/bounds/best-filling.js";
import { KnownFillings } from "../../../../src/solve/bounds/known-fillings.js";
import { PackingPrices } from "../../../../src/solve/bounds/packing-prices.js";
import { PackingProgramme } from "../../../../src/solve/bounds/packing-programme.js";
import { layOut } from "../../../../src/solve/search/instance.js";

const pricesOf = (times: number[], limit: number) =>
  new PackingPrices(layOut({ times, limit, before: times.map(() => []) }));

describe("the heaviest filling", () => {
  it("takes no more tasks of a time than there are", () => {
    // Room 10: two of 4 weigh 10, one of 4 and one of 5 weigh 11; there is only one of 5.
    const filling = new BestFilling(Float64Array.of(5, 4), Int32Array.of(1, 3), 10);
    expect([filling.find(Float64Array.of(6, 5)), [...filling.counts]]).toEqual([11, [1, 1]]);
  });

  it("takes three tasks of one time in pieces of one and two", () => {
    // Room 10: three of 3 weigh 12, which beats one of 7 and one of 3 with 10 + 4 only when 7 is worth less than 8.
    const filling = new BestFilling(Float64Array.of(7, 3), Int32Array.of(1, 3), 10);
    expect([filling.find(Float64Array.of(7, 4)), [...filling.counts]]).toEqual([12, [0, 3]]);
    expect([filling.find(Float64Array.of(10, 4)), [...filling.counts]]).toEqual([14, [1, 1]]);
  });

  it("gives a time without a weight what the heaviest filling leaves it", () => {
    // Room 10: two of 5 weigh 12. One of 4 beside one of 5 may weigh 12 - 6, two of 4 together 12; then 3 beside 5 takes 6 as well,
    // but beside one of 4 and another of 3 only 12 - 6 = 6 for two.
    const filling = new BestFilling(Float64Array.of(5, 4, 3), Int32Array.of(2, 2, 2), 10);
    const weights = Float64Array.of(6, 0, 0);
    const heaviest = filling.find(weights);
    filling.lift(weights, heaviest);
    expect([heaviest, [...weights]]).toEqual([12, [6, 6, 3]]);
  });
});

describe("fillings found once", () => {
  it("give the one worth most, the first of equals, and none worth 1 or less", () => {
    const known = new KnownFillings();
    known.add(Int32Array.of(1, 0, 2));
    known.add(Int32Array.of(0, 3, 0));
    known.add(Int32Array.of(1, 2, 0));
    expect(known.best(Float64Array.of(0.5, 0.4, 0.3))).toEqual(Int32Array.of(1, 2, 0));
    expect(known.best(Float64Array.of(0.25, 0.5, 0.625))).toEqual(Int32Array.of(1, 0, 2));
    expect(known.best(Float64Array.of(0.25, 0.25, 0.375))).toBeNull();
  });
});

describe("the packing programme (Gilmore & Gomory 1961)", () => {
  it("mixes fillings in fractions", () => {
    // Three equal tasks, two to a filling: one and a half fillings, each task worth half a filling.
    const programme = new PackingProgramme(Int32Array.of(3));
    expect([programme.value, programme.enter(Int32Array.of(2)), programme.value]).toEqual([3, true, 1.5]);
    expect([[...programme.prices], programme.enter(Int32Array.of(2))]).toEqual([[0.5], false]);
  });

  it("lets a filling place more than is asked for", () => {
    // One task of each of two times; {1, 1} places both, {0, 1} and {1, 0} then gain nothing.
    const programme = new PackingProgramme(Int32Array.of(1, 1));
    programme.enter(Int32Array.of(1, 1));
    while (programme.relax());
    expect(programme.value).toBe(1);
    expect([...programme.prices].every((price) => price >= 0)).toBe(true);
    expect([programme.enter(Int32Array.of(1, 0)), programme.enter(Int32Array.of(0, 1))]).toEqual([
      false,
      false,
    ]);
  });
});

describe("prices of the packing programme", () => {
  // Limit 20, eight tasks of 7: 56 would fit three stations, but a station holds two of them.
  it("see that tasks over a third of the limit go two to a station", () => {
    const prices = pricesOf(Array(8).fill(7), 20);
    expect(prices.weightingAgainst(Array(8).keys(), 4)).toBeNull();
    const { weights, capacity, total } = prices.weightingAgainst(Array(8).keys(), 3)!;
    expect([2 * weights[0]!, total]).toEqual([capacity, 4 * capacity]);
  });

  it("see that long and short tasks go two to a station together", () => {
    // Limit 47, times 24, 20 and 17 three times each: 183 would fit four stations of 188, but nine tasks take 4.5.
    const times = [24, 20, 17].flatMap((time) => [time, time, time]);
    const prices = pricesOf(times, 47);
    expect(prices.weightingAgainst(times.keys(), 4)!.total).toBeGreaterThan(0);
    expect(prices.weightingAgainst(times.keys(), 5)).toBeNull();
  });

  it("are not asked for where a filling takes too long to find", () => {
    expect(pricesOf([100_000, 99_999, 5], 150_000).isUsable).toBe(false);
    expect(pricesOf([100_000, 99_999, 5], 150_000).weightingAgainst([0, 1, 2], 1)).toBeNull();
  });
});
