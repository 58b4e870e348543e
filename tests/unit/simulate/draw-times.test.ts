import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { planOf } from "../../../src/plan/plan.js";
import { factorsOf, streamsOf } from "../../../src/simulate/draw-times.js";
import { exponential, naturalLog } from "../../../src/simulate/fixed-math.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";
import { simulated } from "./simulated.js";

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

it("Measured times are drawn as often as each other, in proportion to their mean, and vary as they do", () => {
  const { line } = readLine("line.yaml", "unit: s\ntasks: {work: {time: 60, measured: [30, 40, 50, 40]}}\n");
  const { variation } = line!.tasks[0]!;
  // The mean of 30, 40, 50, 40 is 40, their deviation with n is root 50.
  expect(toNumber(variation!.cv)).toBeCloseTo(Math.sqrt(50) / 40, 6);
  const stream = streamsOf(5).next().value;
  const draw = factorsOf(variation)!;
  const counts = new Map<number, number>();
  for (let at = 0; at < 40_000; at++) {
    const factor = draw(stream);
    counts.set(factor, (counts.get(factor) ?? 0) + 1);
  }
  expect([...counts.keys()].sort()).toEqual([0.75, 1, 1.25]);
  // Chances of 1/4 and 1/2; 350 are four standard deviations.
  expect(Math.abs(counts.get(0.75)! - 10_000)).toBeLessThan(350);
  expect(Math.abs(counts.get(1)! - 20_000)).toBeLessThan(400);
});

it("A station with two measured times shares its units between them, to the second", async () => {
  const { line } = readLine("line.yaml", "unit: s\ntasks: {work: {time: 60, measured: [1 min, 3 min]}}\n");
  const { answer, mean, halfWidth } = await simulated(
    { line: line!, plan: planOf([[0]]) },
    { hours: 100, replications: 10, lineCycle: 60 },
  );
  // 30 s or 90 s, so half of the units run over a minute.
  expect(toNumber(answer.stations[0]!.overrun!)).toBeCloseTo(0.5, 1);
  expect(Math.abs(mean - 60)).toBeLessThan(2 * halfWidth!);
});

it("Streams have nothing in common", () => {
  const streams = streamsOf(1);
  const drawn = Array.from({ length: 50 }, () => streams.next().value()).map(String);
  expect(new Set(drawn).size).toBe(50);
});
