import { expect, it } from "vitest";
import { ceilingDivision, wholeDivision } from "../../../../src/solve/bounds/whole-numbers.js";

const LARGEST = Number.MAX_SAFE_INTEGER;

it.each([
  [7, 2, 3, 4],
  [8, 2, 4, 4],
  [0, 5, 0, 0],
  // As a floating-point quotient this is 3002399751580330.5 rounded to a neighbour; the whole parts are exact.
  [LARGEST, 3, 3002399751580330, 3002399751580331],
  [LARGEST, 2, 4503599627370495, 4503599627370496],
  [LARGEST, LARGEST - 1, 1, 2],
])("%d / %d is %d rounded down and %d rounded up", (amount, divisor, down, up) => {
  expect([wholeDivision(amount, divisor), ceilingDivision(amount, divisor)]).toEqual([down, up]);
});
