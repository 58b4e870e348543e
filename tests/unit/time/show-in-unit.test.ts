import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { add, compare, ratio, ZERO } from "../../../src/time/ratio.js";
import {
  differenceShown,
  factorShown,
  showSumIn,
  showTimesApart,
  showTimesIn,
  showTimesUpIn,
} from "../../../src/time/show-in-unit.js";
import { beforeRounding, chanceBeside, percentOfAll, percentsApart } from "../../../src/time/show-values.js";
import { TIME_UNITS } from "../../../src/time/units.js";

const anyTime = fc
  .tuple(fc.integer({ min: 1, max: 1_000_000_000 }), fc.integer({ min: 1, max: 1000 }))
  .map(([num, den]) => ratio(num, den));

const numberIn = (shown: string): number => Number.parseFloat(shown.replaceAll(",", ""));

describe("times that one sentence compares", () => {
  it("are shown so that 10 h / 330 is less than 109.091 s", () => {
    expect(showTimesApart("s", 109_091_000, ratio(36_000_000_000, 330))).toEqual([
      "109.091 s",
      "109.090909 s",
    ]);
  });

  it("are told apart at a microsecond, and at less", () => {
    expect(showTimesApart("s", 53_580_001, 53_580_000)).toEqual(["53.580001 s", "53.58 s"]);
    // 1 / 60,000,000 of a minute
    expect(showTimesApart("min", 60_000_001, 60_000_000)).toEqual(["1.0000000167 min", "1 min"]);
    expect(showTimesApart("s", ratio(1_000_000_001, 1000), 1_000_000)).toEqual(["1.000000001 s", "1 s"]);
  });

  it("keep the usual decimals where these are enough, or both are the same", () => {
    expect(showTimesApart("s", 72_000_000, 60_500_000)).toEqual(["72 s", "60.5 s"]);
    expect(showTimesApart("s", ratio(100_000_000, 3), ratio(100_000_000, 3))).toEqual([
      "33.333 s",
      "33.333 s",
    ]);
  });

  it("are shown in the order that they have", () => {
    fc.assert(
      fc.property(fc.constantFrom(...TIME_UNITS), anyTime, anyTime, (unit, one, two) => {
        const [first, second] = showTimesApart(unit, one, two).map(numberIn) as [number, number];
        expect(Math.sign(first - second)).toBe(Math.sign(compare(one, two)));
      }),
      { seed: 5, numRuns: 300 },
    );
  });
});

describe("a sum of times", () => {
  it("has the decimals with which it comes out", () => {
    // 0.3334 + 0.3334 + 0.3334 = 1.0002: with three decimals 0.333 x 3 would be 0.999 beside 1
    const terms = [333_400, 333_400, 333_400].map((each) => ratio(each));
    expect(showSumIn("s", terms)).toEqual({
      terms: ["0.3334 s", "0.3334 s", "0.3334 s"],
      total: "1.0002 s",
      beside: [],
    });
  });

  it("says that it is rounded where thirds never come out", () => {
    const third = ratio(1_000_000, 3);
    expect(showSumIn("s", [third, third])).toEqual({
      terms: ["0.333 s", "0.333 s"],
      total: "0.667 s (rounded)",
      beside: [],
    });
  });

  it("is told from what it is compared with", () => {
    expect(showSumIn("s", [ratio(30_000_000), ratio(30_000_001)], ratio(60_000_000))).toEqual({
      terms: ["30 s", "30.000001 s"],
      total: "60.000001 s",
      beside: ["60 s"],
    });
  });

  it("comes out when it is typed into a calculator, or says that it is rounded", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...TIME_UNITS),
        fc.array(anyTime, { minLength: 1, maxLength: 6 }),
        anyTime,
        (unit, terms, limit) => {
          const shown = showSumIn(unit, terms, limit);
          const total = terms.reduce(add, ZERO);
          const sum = shown.terms.reduce((left, each) => left + numberIn(each), 0);
          if (!shown.total.includes("rounded")) expect(sum).toBeCloseTo(numberIn(shown.total), 9);
          const sign = Math.sign(numberIn(shown.total) - numberIn(shown.beside[0]!));
          expect(sign).toBe(Math.sign(compare(total, limit)));
        },
      ),
      { seed: 6, numRuns: 300 },
    );
  });
});

describe("a factor of a product", () => {
  const show = showTimesIn("s");

  it("has the decimals with which 720 s of repair on 1 / 24 of the units are 30 s", () => {
    // 0.0417 x 720 = 30.024, 0.041667 x 720 = 30.00024
    expect(factorShown(ratio(1, 24), { of: 720_000_000, total: ratio(30_000_000) }, show, 4)).toBe(
      "0.041667",
    );
    expect(factorShown(ratio(1, 8), { of: 720_000_000, total: ratio(90_000_000) }, show, 4)).toBe("0.125");
  });

  it("says that it is rounded where the time itself is, so that no decimals help", () => {
    // 100 / 3 s, shown as 33.333 s, x 3 x 7 / 7 is 100 s; 33.333 s x 3 is 99.999 s
    const time = ratio(100_000_000, 3);
    expect(factorShown(ratio(3), { of: time, total: ratio(100_000_000) }, show, 3)).toBe("3 (rounded)");
  });
});

describe("a difference of times", () => {
  it("is what is left of the two as they are shown: 165.455 - 155.527 = 9.928", () => {
    const takt = ratio(27_300_000_000, 165);
    const atUptime = ratio(27_300_000_000 * 94, 16_500);
    expect(differenceShown(takt, atUptime, showTimesIn("s"))).toBe("9.928 s");
  });

  it("that must be saved is rounded up", () => {
    expect([ratio(4_640_000), ratio(4_600_001), ratio(4_600_000)].map(showTimesUpIn("s"))).toEqual([
      "4.7 s",
      "4.7 s",
      "4.6 s",
    ]);
  });
});

describe("a number before it is rounded to a whole one", () => {
  it("is not shown as a whole one unless it is", () => {
    expect([ratio(1441, 720), ratio(204, 100), ratio(2)].map((each) => beforeRounding(each))).toEqual([
      "2.0014",
      "2.04",
      "2",
    ]);
    const near = [ratio(299_999, 100_000), ratio(3_000_000_001, 1_000_000_000)];
    expect(near.map((each) => beforeRounding(each))).toEqual(["2.99999", "3.000000001"]);
  });
});

describe("shares that one sentence compares", () => {
  it("are told apart where they differ", () => {
    expect(percentsApart(ratio(53_580_001, 56_400_000), ratio(95, 100))).toEqual(["95.000002 %", "95 %"]);
    expect(percentsApart(ratio(871, 1000), ratio(871, 1000))).toEqual(["87.1 %", "87.1 %"]);
  });

  it("tells a chance apart from the one that is asked, and stops where no more digits are of use", () => {
    const asked = ratio(95, 100);
    expect(chanceBeside(ratio(98_769, 100_000), asked)).toBe("98.8 %");
    expect(chanceBeside(ratio(94_999, 100_000), asked)).toBe("94.999 %");
    expect(chanceBeside(ratio(999_999_999, 1_000_000_000), asked)).toBe("> 99.99 %");
    expect(chanceBeside(ratio(99_999, 100_000), ratio(99_995, 100_000))).toBe("99.999 %");
    expect(chanceBeside(ratio(1), asked)).toBe("100 %");
  });

  it("are 100 % only where they are all", () => {
    expect([ratio(1), ratio(1_000_001, 1_000_000), ratio(9_999, 10_000)].map(percentOfAll)).toEqual([
      "100 %",
      "100.0001 %",
      "99.99 %",
    ]);
  });
});
