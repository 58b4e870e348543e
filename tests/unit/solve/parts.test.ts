import { describe, expect, it } from "vitest";
import {
  fromParts,
  isCountedExactly,
  loadsInParts,
  mostRounding,
  partsOf,
  partsWithin,
} from "../../../src/solve/parts.js";
import { compare, ratio, subtract } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const bikes = (...shares: string[]) => {
  const tests = shares.map((share, at) => {
    const after = at === 0 ? "" : `, after: t${at}`;
    return `  t${at + 1}: {time: ${50 + at}, test: {fail: ${share}, repair: 60, return-to: t${at + 1}}${after}}`;
  });
  return lineOf(["line: bikes", "unit: s", "tasks:", "  frame: 40", ...tests, ""].join("\n"));
};

describe("parts of a microsecond", () => {
  it("are one where nothing is shared out", () => {
    const line = bikes();
    expect([partsOf(line), isCountedExactly(line), mostRounding(line)]).toEqual([1n, true, ratio(0)]);
    expect(loadsInParts(line)).toEqual([40_000_000]);
  });

  it("make the load of a test that 4 % fail whole: 50 s / 0.96 = 52.083333... s is 156,250,000 thirds of a microsecond", () => {
    const line = bikes("4 %");
    expect([partsOf(line), isCountedExactly(line)]).toEqual([3n, true]);
    expect(loadsInParts(line)).toEqual([120_000_000, 156_250_000]);
  });

  it("are a power of ten where the loads have no common unit below 2^53", () => {
    const line = bikes("4.13 %", "2.37 %", "1.71 %");
    expect(isCountedExactly(line)).toBe(false);
    // 40 + 50 / 0.9587 + 51 / 0.9763 + 52 / 0.9829 = 197.296... s; 2^51 / 197,296,... microseconds = 1.14 x 10^7.
    expect(partsOf(line)).toBe(10_000_000n);
  });

  it("leave loads rounded up at most one part above the true ones, and rounded down at most one part below", () => {
    const line = bikes("4.13 %", "2.37 %", "1.71 %");
    const part = ratio(1, partsOf(line));
    const [up, down] = [loadsInParts(line, "up"), loadsInParts(line, "down")];
    for (const [task, { load }] of line.tasks.entries()) {
      const [more, less] = [fromParts(line, up[task]!), fromParts(line, down[task]!)];
      expect(compare(more, load)).toBeGreaterThanOrEqual(0);
      expect(compare(subtract(more, load), part)).toBeLessThan(0);
      expect(compare(less, load)).toBeLessThanOrEqual(0);
      expect(compare(subtract(load, less), part)).toBeLessThan(0);
    }
    // The frame takes 40 s whichever way it is rounded; the tests do not.
    expect(up.map((each, task) => each - down[task]!)).toEqual([0, 1, 1, 1]);
  });

  it("keep sums of loads and of person-times below 2^53 on any grid", () => {
    const line = bikes(...Array.from({ length: 12 }, (_, at) => `${at + 1}.${at}7 %`));
    const work = loadsInParts(line).reduce((sum, each) => sum + each, 0);
    expect(isCountedExactly(line)).toBe(false);
    expect(work).toBeLessThan(2 ** 53 / 3);
    expect(work * 10).toBeGreaterThan(2 ** 51);
  });
});

describe("how close two times are", () => {
  it("is a power of ten that is not too large: a gap of 3 in 1,000 is one part in 333, said as 100", () => {
    expect(partsWithin(ratio(1000), ratio(3))).toBe(100n);
    expect(partsWithin(ratio(1000), ratio(1))).toBe(1000n);
  });
});
