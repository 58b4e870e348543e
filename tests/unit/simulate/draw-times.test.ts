import { describe, expect, it } from "vitest";
import { factorsOf, streamsOf } from "../../../src/simulate/draw-times.js";
import { exponential, naturalLog } from "../../../src/simulate/fixed-math.js";
import { ratio } from "../../../src/time/ratio.js";

it("Logarithm and exponential function are those of the platform, to 14 digits", () => {
  for (let x = 1e-16; x < 1e16; x *= 1.37) {
    expect(Math.abs(naturalLog(x) - Math.log(x))).toBeLessThanOrEqual(
      1e-14 * Math.max(1, Math.abs(Math.log(x))),
    );
    const power = Math.log(x);
    expect(Math.abs(exponential(power) / Math.exp(power) - 1)).toBeLessThan(1e-13);
  }
  expect([naturalLog(1), exponential(0)]).toEqual([0, 1]);
});

const SHAPES = [
  { shape: "exponential", cv: ratio(1) },
  { shape: "normal", cv: ratio(1, 5) },
  { shape: "lognormal", cv: ratio(6, 5) },
  { shape: "triangular", cv: ratio(2, 5) },
] as const;

describe.each(SHAPES)("Factors of $shape times", ({ shape, cv }) => {
  it("are 1 on average, vary as said, and none is below 0", () => {
    const draw = factorsOf({ shape, cv })!;
    const stream = streamsOf(5).next().value;
    const drawn = Array.from({ length: 100_000 }, () => draw(stream));
    const mean = drawn.reduce((sum, each) => sum + each, 0) / drawn.length;
    const variance = drawn.reduce((sum, each) => sum + (each - mean) ** 2, 0) / drawn.length;
    expect(mean).toBeCloseTo(1, 1.7);
    expect(Math.sqrt(variance) / (Number(cv.num) / Number(cv.den))).toBeCloseTo(1, 1);
    expect(Math.min(...drawn.slice(0, 50_000))).toBeGreaterThan(0);
  });
});

it("Streams have nothing in common", () => {
  const streams = streamsOf(1);
  const drawn = Array.from({ length: 50 }, () => streams.next().value()).map(String);
  expect(new Set(drawn).size).toBe(50);
});
