import { describe, expect, test } from "vitest";
import { normalQuantile, studentQuantile } from "../../../src/study/quantiles.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";

/*
 * Student's t: two-sided critical values of any printed table, such as NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2 (from
 * memory), to three decimals.
 */
describe("t is that of the tables", () => {
  test.each([
    [90, 1, 6.314],
    [90, 5, 2.015],
    [90, 10, 1.812],
    [95, 1, 12.706],
    [95, 2, 4.303],
    [95, 3, 3.182],
    [95, 4, 2.776],
    [95, 5, 2.571],
    [95, 9, 2.262],
    [95, 10, 2.228],
    [95, 20, 2.086],
    [95, 29, 2.045],
    [95, 30, 2.042],
    [95, 60, 2.0],
    [95, 120, 1.98],
    [99, 1, 63.657],
    [99, 5, 4.032],
    [99, 10, 3.169],
    [99, 30, 2.75],
  ])("%s %% with %s degrees of freedom: %s", (confidence, freedom, t) => {
    // Tables have three decimals, this four.
    expect(Math.abs(toNumber(studentQuantile(ratio(confidence, 100), freedom)) - t)).toBeLessThan(0.00051);
  });

  test("with many degrees of freedom it comes to z", () => {
    expect(toNumber(studentQuantile(ratio(95, 100), 1_000_000))).toBe(1.96);
  });
});

/* z: the standard normal distribution, from tables of it (1.644854, 1.281552 and 2.326348 are one-sided 95, 90 and 99 %). */
describe("z is that of the tables", () => {
  test.each([
    [80, 1.2816],
    [90, 1.6449],
    [95, 1.96],
    [98, 2.3263],
    [99, 2.5758],
    [99.9, 3.2905],
  ])("%s %%: %s", (confidence, z) => {
    expect(toNumber(normalQuantile(ratio(confidence * 10, 1000)))).toBe(z);
  });

  test("95.45 % is the 2 of the rule of thumb", () => {
    expect(toNumber(normalQuantile(ratio(9545, 10_000)))).toBe(2);
  });
});
