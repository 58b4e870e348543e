import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  lowestRepeated,
  meanOf,
  medianOf,
  oddValues,
  readingsNeeded,
  square,
  squareRoot,
  varianceOf,
} from "../../../src/study/statistics.js";
import { compare, ratio, toNumber } from "../../../src/time/ratio.js";

const values = (...given: number[]) => given.map((each) => ratio(each));

describe("20 20 21 20 35 22 20", () => {
  const readings = values(20, 20, 21, 20, 35, 22, 20);
  test("has the mean 22.57, the median 20 and the lowest repeated reading 20", () => {
    expect(toNumber(meanOf(readings), 2)).toBe(22.57);
    expect(medianOf(readings)).toEqual(ratio(20));
    expect(lowestRepeated(readings)).toEqual(ratio(20));
  });

  test("has one odd reading, 35, although most are the same", () => {
    expect(oddValues(readings)).toEqual([false, false, false, false, true, false, false]);
  });
});

describe("odd values", () => {
  test("one of five is seen, which no limit of three deviations can", () => {
    expect(oddValues(values(6, 4, 7, 37, 5))).toEqual([false, false, false, true, false]);
  });

  test("are none where all are the same, and none of so few", () => {
    expect(oddValues(values(5, 5, 5, 5))).toEqual([false, false, false, false]);
    expect(oddValues(values(5, 5, 500))).toEqual([false, false, false]);
  });
});

test("of an even number the median is the mean of the middle two", () => {
  expect(medianOf(values(4, 1, 3, 2))).toEqual(ratio(5, 2));
});

test("nothing repeated is no lowest repeated reading, and one value has no deviation", () => {
  expect(lowestRepeated(values(1, 2, 3))).toBeNull();
  expect(varianceOf(values(7))).toBeNull();
});

describe("readings needed of a mean of 30 s", () => {
  const needed = (deviation: number, quantile: [number, number]) =>
    readingsNeeded(ratio(deviation * deviation), ratio(...quantile), ratio(3, 2));
  test.each([
    [3, [196, 100], 16],
    [6, [196, 100], 62],
    [3, [2, 1], 16],
  ] as const)("and a deviation of %s s with %j are %s", (deviation, quantile, count) => {
    expect(needed(deviation, [...quantile])).toBe(count);
  });
});

test("a root is the nearest millionth: half of one below or above has its square on either side", () => {
  fc.assert(
    fc.property(fc.bigInt(0n, 10n ** 24n), fc.bigInt(1n, 10n ** 9n), (num, den) => {
      const value = ratio(num, den);
      const root = squareRoot(value);
      const half = ratio(1, 2_000_000);
      const above = { num: root.num * half.den + half.num * root.den, den: root.den * half.den };
      const below = { num: root.num * half.den - half.num * root.den, den: root.den * half.den };
      expect(compare(square(above), value)).toBeGreaterThan(0);
      if (below.num > 0n) expect(compare(square(below), value)).toBeLessThanOrEqual(0);
    }),
  );
});
