import { expect, test } from "vitest";
import { ratio } from "../../../src/time/ratio.js";
import { decimal, inUnit, longTime, percent, seconds } from "../../../src/time/show-values.js";

test("station times are shown in seconds with up to three decimals, rounded half up", () => {
  expect([136_418_000, 60_000_000, 500, 499, 0].map(seconds)).toEqual([
    "136.418 s",
    "60 s",
    "0.001 s",
    "0 s",
    "0 s",
  ]);
  expect(seconds(ratio(100_000_000, 3))).toBe("33.333 s");
  expect(seconds(-400)).toBe("0 s");
});

test("calendar times are shown in hours, minutes and seconds without parts that are 0", () => {
  const shown = [25_500, 27_000, 90.5, 3620, 0, -600].map((each) => longTime(each * 1e6));
  expect(shown).toEqual(["7 h 5 min", "7 h 30 min", "1 min 30.5 s", "1 h 20 s", "0 min", "-10 min"]);
  expect(longTime(ratio(18_202_800_000_000n, 1000n))).toBe("5 h 3 min 22.8 s");
});

test("a column has the same number of decimals in every row", () => {
  expect([inUnit(90_000_000, "min", 2), inUnit(ratio(100, 3), "tmu", 3), inUnit(0, "h", 0)]).toEqual([
    "1.50",
    "0.001",
    "0",
  ]);
});

test("shares and plain numbers lose trailing zeros only after the point", () => {
  expect([
    percent(ratio(94, 100)),
    percent(ratio(871, 1000)),
    percent(ratio(1)),
    percent(ratio(8708, 10_000), 2),
  ]).toEqual(["94 %", "87.1 %", "100 %", "87.08 %"]);
  expect([decimal(100, 0), decimal(ratio(15, 2), 3), decimal(1200, 2)]).toEqual(["100", "7.5", "1,200"]);
});
