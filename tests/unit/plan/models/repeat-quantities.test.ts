import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { repeatQuantities } from "../../../../src/plan/models/repeat-quantities.js";
import { ratio } from "../../../../src/time/ratio.js";
import { sharesFrom } from "./mixed-line.js";

describe("the smallest whole repeat of shares", () => {
  it.each([
    [
      [60, 40],
      [3, 2],
    ],
    [
      [120, 80, 40],
      [3, 2, 1],
    ],
    [
      [1, 1, 1],
      [1, 1, 1],
    ],
    [[5], [1]],
    [
      [7, 0],
      [1, 0],
    ],
    [
      [101, 99],
      [101, 99],
    ],
  ])("of %j is %j", (quantities, repeat) => {
    const units = repeat.reduce((sum, each) => sum + each, 0);
    expect(repeatQuantities(sharesFrom(quantities))).toEqual({
      quantities: repeat,
      exact: true,
      evenAfter: BigInt(units),
    });
  });

  it("of 33.4, 33.3 and 33.3 % is one of each: 1000 units are too long, and no length to 200 is nearer", () => {
    // Every third length holds thirds, 0.067 points off; 200 units hold 67, 67 and 66, 0.3 points off.
    expect(repeatQuantities(sharesFrom([334, 333, 333]))).toEqual({
      quantities: [1, 1, 1],
      exact: false,
      evenAfter: 1000n,
    });
  });

  it("keeps one unit of a model that is rarer than the longest repeat", () => {
    expect(repeatQuantities(sharesFrom([999, 1]))).toEqual({
      quantities: [199, 1],
      exact: false,
      evenAfter: 1000n,
    });
  });

  it("takes the units of rare models from the common one", () => {
    expect(repeatQuantities(sharesFrom([997, 1, 1, 1]), 10).quantities).toEqual([7, 1, 1, 1]);
  });

  it("is longer than asked only where there are more models", () => {
    expect(repeatQuantities(sharesFrom([5, 3, 3, 0]), 2).quantities).toEqual([1, 1, 1, 0]);
  });
});

const anyShares = fc
  .array(fc.integer({ min: 0, max: 700 }), { minLength: 1, maxLength: 5 })
  .filter((each) => each.some((quantity) => quantity > 0))
  .map(sharesFrom);

it("holds the shares exactly, or every model within its length, none that has no share", () => {
  fc.assert(
    fc.property(anyShares, fc.integer({ min: 5, max: 40 }), (shares, longest) => {
      const { quantities, exact, evenAfter } = repeatQuantities(shares, longest);
      const units = quantities.reduce((sum, each) => sum + each, 0);
      expect(exact).toBe(evenAfter <= BigInt(longest));
      expect(units).toBeLessThanOrEqual(longest);
      expect(quantities.map((each) => each > 0)).toEqual(shares.map(({ num }) => num > 0n));
      if (exact) expect(quantities.map((each) => ratio(each, units))).toEqual(shares);
    }),
    { seed: 7 },
  );
});

it("is nearer than every other way to build so few units, tried one by one", () => {
  const shares = fc
    .tuple(fc.integer({ min: 1, max: 97 }), fc.integer({ min: 1, max: 97 }), fc.integer({ min: 1, max: 97 }))
    .map((each) => ({ each, sum: each[0] + each[1] + each[2] }))
    .filter(({ sum }) => sum > 20);
  const longest = 12;
  fc.assert(
    fc.property(shares, ({ each, sum }) => {
      // Gaps in whole numbers: |quantity x sum - wanted x units| over units x sum.
      const gapOf = (quantities: readonly number[]): readonly [number, number] => {
        const units = quantities.reduce((one, two) => one + two, 0);
        return [
          Math.max(...quantities.map((quantity, at) => Math.abs(quantity * sum - each[at]! * units))),
          units,
        ];
      };
      const { quantities, exact } = repeatQuantities(sharesFrom(each), longest);
      const [gap, units] = gapOf(quantities);
      if (exact) expect(gap).toBe(0);
      for (let a = 1; a <= longest; a++) {
        for (let b = 1; a + b < longest; b++) {
          for (let c = 1; a + b + c <= longest; c++) {
            const [other, otherUnits] = gapOf([a, b, c]);
            expect(gap * otherUnits).toBeLessThanOrEqual(other * units);
          }
        }
      }
    }),
    { seed: 7 },
  );
});
