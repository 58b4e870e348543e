import fc from "fast-check";
import { expect, test } from "vitest";
import { compareNaturally } from "../../../src/findings/natural-order.js";

const SEED = 7;
const id = fc
  .array(fc.constantFrom("0", "00", "1", "2", "9", "10", "a", "B", "-", "é", "😀", "٣"), { maxLength: 6 })
  .map((parts) => parts.join(""));

test("Runs of digits order by value, then by fewer leading zeros; everything else by code unit", () => {
  const ids = [
    "S10",
    "S2",
    "S1",
    "S01",
    "s1",
    "S1-b",
    "S1-a",
    "A",
    "",
    "é",
    "B10x2",
    "B10x12",
    "10",
    "9",
    "010",
  ];
  expect(ids.toSorted(compareNaturally)).toEqual([
    "",
    "9",
    "10",
    "010",
    "A",
    "B10x2",
    "B10x12",
    "S1",
    "S1-a",
    "S1-b",
    "S01",
    "S2",
    "S10",
    "s1",
    "é",
  ]);
});

test("Digits beyond what a number holds still order by value", () => {
  expect(compareNaturally("12345678901234567890", "12345678901234567891")).toBeLessThan(0);
  expect(compareNaturally("99999999999999999999", "100000000000000000000")).toBeLessThan(0);
});

test("The order is total: only equal ids compare as equal, and three ids never run in a circle", () => {
  fc.assert(
    fc.property(id, id, id, (a, b, c) => {
      const [ab, ba, bc, ac] = [
        compareNaturally(a, b),
        compareNaturally(b, a),
        compareNaturally(b, c),
        compareNaturally(a, c),
      ];
      expect(Math.sign(ab) + Math.sign(ba)).toBe(0);
      expect(ab === 0).toBe(a === b);
      if (ab <= 0 && bc <= 0) expect(ac).toBeLessThanOrEqual(0);
    }),
    { seed: SEED, numRuns: 5000 },
  );
});
