import { expect, it } from "vitest";
import { normalScore, normalShare } from "../../../src/time/normal-share.js";
import { ratio, toDecimal } from "../../../src/time/ratio.js";

it("Quantiles of the normal distribution are those of tables, to ten decimals", () => {
  // Abramowitz & Stegun (1964) table 26.5: 1.28155 16 and so on; the further digits from memory of longer tables.
  const scores = [500, 900, 950, 975, 990, 999].map((chance) => normalScore(ratio(chance, 1000)));
  expect(scores.map((each) => toDecimal(each, 10))).toEqual([
    "0.0000000000",
    "1.2815515655",
    "1.6448536270",
    "1.9599639845",
    "2.3263478740",
    "3.0902323062",
  ]);
});

it("Shares below a number of deviations are those of tables", () => {
  // Abramowitz & Stegun (1964) table 26.1: 0.84134 47460 68543 and 0.97724 98680 51821; a body-welding station, 40 s for a mean of 38.6 s and a deviation of 1.729 s (Inman 1999): 0.790948.
  expect(toDecimal(normalShare(ratio(1)), 15)).toBe("0.841344746068543");
  expect(toDecimal(normalShare(ratio(2)), 15)).toBe("0.977249868051821");
  expect(toDecimal(normalShare(ratio(1400, 1729)), 6)).toBe("0.790948");
  expect(normalShare(ratio(12))).toEqual(ratio(1));
});
