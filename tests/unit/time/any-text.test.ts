import fc from "fast-check";
import { expect, test } from "vitest";
import { readDemand } from "../../../src/time/demand.js";
import { readDuration } from "../../../src/time/duration.js";
import { ratio, toDecimal } from "../../../src/time/ratio.js";
import { grossBetween, readClock, readNamedTime, readShiftLength } from "../../../src/time/read-calendar.js";
import { readShare } from "../../../src/time/share.js";
import { longTime } from "../../../src/time/show-values.js";
import { MICROS_IN, TIME_UNITS } from "../../../src/time/units.js";

const SEED = 20;

/** Characters that people put into numbers, and some that only machines do. */
const piece = fc.constantFrom(
  ..."0123456789 .,:;/-+~x%½⁄'_e\u00a0\u2212\uff11\u0661\u001b",
  "s",
  "min",
  "h",
  "per day",
  "0x",
);
const anyText = fc.oneof(
  fc.string({ unit: "binary" }),
  fc.array(piece, { maxLength: 12 }).map((all) => all.join("")),
);

test("no text makes a reader fail: it gives a value in range or a problem in words", () => {
  const readers = [
    (text: string) => readDuration(text, null),
    (text: string) => readDuration(text, "min"),
    (text: string) => readNamedTime("break", text),
    (text: string) => grossBetween(text, "06:00"),
    readShiftLength,
    readClock,
    readDemand,
    readShare,
  ];
  fc.assert(
    fc.property(anyText, (text) => {
      for (const reader of readers) {
        const read = reader(text);
        expect(read.ok ? read.value : read.problem.trim()).not.toBe("");
        if (read.ok && typeof read.value === "number") expect(read.value).toSatisfy(Number.isSafeInteger);
      }
    }),
    { numRuns: 2000, seed: SEED },
  );
});

test("a time written out in any unit is read back to the microsecond", () => {
  const micros = fc.integer({ min: 0, max: Number.MAX_SAFE_INTEGER });
  fc.assert(
    fc.property(micros, fc.constantFrom(...TIME_UNITS), (value, unit) => {
      const exact = ratio(value, MICROS_IN[unit]);
      const decimals = toDecimal(exact, 6);
      const fraction = `${exact.num / exact.den} ${exact.num % exact.den}/${exact.den}`;
      if (unit === "s") expect(readDuration(`${decimals} ${unit}`, null)).toEqual({ ok: true, value });
      expect(readDuration(`${fraction} ${unit}`, null)).toEqual({ ok: true, value });
      expect(readDuration(fraction, unit)).toEqual({ ok: true, value });
    }),
    { seed: SEED },
  );
});

test("a time shown in hours, minutes and seconds is read back to the millisecond", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9_000_000_000_000 }), (thousandths) => {
      expect(readDuration(longTime(thousandths * 1000).replaceAll(",", ""), null)).toEqual({
        ok: true,
        value: thousandths * 1000,
      });
    }),
    { seed: SEED },
  );
});
