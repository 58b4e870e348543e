import { describe, expect, test } from "vitest";
import { readDuration } from "../../../src/time/duration.js";
import { unitMeant } from "../../../src/time/duration-slips.js";

const inSeconds = (text: string, unit: Parameters<typeof readDuration>[1] = null) => {
  const read = readDuration(text, unit);
  return read.ok ? read.value / 1e6 : read.problem;
};

describe("a duration", () => {
  test.each([
    ["60 s", 60],
    ["60s", 60],
    ["60 S", 60],
    [" 60\u00a0s ", 60],
    ["1.5 min", 90],
    [".5 MIN", 30],
    ["0.1 min", 6],
    ["60 cmin", 36],
    ["0:40", 40],
    ["4:17", 257],
    ["90:00", 5400],
    ["1:20.5", 80.5],
    ["7:30:00", 27_000],
    ["1 min 20 s", 80],
    ["1min20s", 80],
    ["7 h 30 min", 27_000],
    ["7 1/2 h", 27_000],
    ["7½ h", 27_000],
    ["7 ½h", 27_000],
    ["7.5 h", 27_000],
    ["1/3 h", 1200],
    ["⅔ min", 40],
    ["0 s", 0],
    ["0", 0],
    ["0.000001 s", 0.000001],
    ["9007199254 s", 9_007_199_254],
  ])("%j is %d s", (text, expected) => {
    expect(inSeconds(text)).toBe(expected);
  });

  // MTM-1 data card, units box: 1 TMU = 0.036 s = 0.0006 min = 0.00001 h; 100,000 TMU = 1 h.
  test.each([
    ["1 tmu", 0.036],
    ["1000 TMU", 36],
    ["1500 TMU", 54],
    ["170 tmu", 6.12],
    ["100000 tmu", 3600],
    ["0.0006 min", 0.036],
    ["0.00001 h", 0.036],
  ])("%j is %d s, as on the MTM-1 data card", (text, expected) => {
    expect(inSeconds(text)).toBe(expected);
  });

  test("takes a bare number in the unit of the file", () => {
    expect([inSeconds("1.5", "min"), inSeconds("1500", "tmu"), inSeconds("7 1/2", "h")]).toEqual([
      90, 54, 27_000,
    ]);
  });

  test("reads colons as mm:ss and h:mm:ss whatever the unit of the file", () => {
    expect([inSeconds("1:30", "h"), inSeconds("1:00:30", "min")]).toEqual([90, 3630]);
  });

  test("adds tenths of a minute exactly: 0.1 + 0.2 + 0.3 = 0.6", () => {
    const micros = ["0.1", "0.2", "0.3", "0.6"].map((text) => readDuration(text, "min"));
    const [one, two, three, six] = micros.map((read) => (read.ok ? read.value : Number.NaN));
    expect(one! + two! + three!).toBe(six);
  });

  test.each([
    ["", "a time is missing (blank is never 0): write it with its unit, such as 40 s or 1.5 min"],
    ["40", '"40" is not a time: it needs a unit; write 40 s or 40 min, or give `unit:`'],
    ["-5 s", '"-5 s" is not a time: it must not be negative; write 5 s if that is meant'],
    ["\u22125 s", '"\u22125 s" is not a time: it must not be negative; write 5 s if that is meant'],
    ["~12 s", '"~12 s" is not a time: one plain number is expected; write 12 s'],
    ["12-15 s", '"12-15 s" is not a time: one number is expected, not a range; write 12 s or 15 s'],
    ["7,5 h", '"7,5 h" is not a time: decimals take a point; write 7.5 h'],
    ["12,5* s", '"12,5* s" is not a time: decimals take a point; write 12.5* s'],
    ["1,234 s", '"1,234 s" is not a time: a comma may mean thousands or decimals; write 1234 s or 1.234 s'],
    ["1,033.1 s", '"1,033.1 s" is not a time: digits stand together; write 1033.1 s'],
    ["1.033,1 s", '"1.033,1 s" is not a time: decimals take a point; write 1033.1 s'],
    ["0,125 s", '"0,125 s" is not a time: decimals take a point; write 0.125 s'],
    ["7h30", '"7h30" is not a time: every number needs its unit; write 7 h 30 min or 7:30:00'],
    ["7 min 5", '"7 min 5" is not a time: every number needs its unit; write 7 min 5 s or 7:05'],
    ["71/2 h", '"71/2 h" is not a time: a fraction must be below 1; write 7 1/2 h or 35.5 h'],
    ["7/0 h", '"7/0 h" is not a time: a fraction cannot have 0 below the line'],
    ["1 234 s", '"1 234 s" is not a time: digits stand together; write 1234 s'],
    ["1\u00a0234 s", '"1\u00a0234 s" is not a time: digits stand together; write 1234 s'],
    ["\uff11\uff12 s", '"\uff11\uff12 s" is not a time: digits are 0 to 9 of the plain keyboard; write 12 s'],
    ["1e3", '"1e3" is not a time: write the number out in plain digits: 1000'],
    ["0x1A s", '"0x1A s" is not a time: write the number out in plain digits: 26 s'],
    ["12sec", '"12sec" is not a time: "sec" is no unit; units are s, min, h, cmin, tmu; write 12 s'],
    [
      "12 secnds",
      '"12 secnds" is not a time: "secnds" is no unit; units are s, min, h, cmin, tmu; write 12 s',
    ],
    ["12 ms", '"12 ms" is not a time: "ms" is no unit; units are s, min, h, cmin, tmu'],
    ["5 m", '"5 m" is not a time: "m" is no unit; units are s, min, h, cmin, tmu; write 5 min'],
    ["3.7a", '"3.7a" is not a time: "a" is no unit; units are s, min, h, cmin, tmu'],
    [
      "4:7",
      '"4:7" is not a time: write mm:ss, or h:mm:ss, with two digits below 60 in every part after the first, such as 4:07',
    ],
    [
      "4:75",
      '"4:75" is not a time: write mm:ss, or h:mm:ss, with two digits below 60 in every part after the first, such as 4:07',
    ],
    [
      "1:75:00",
      '"1:75:00" is not a time: write mm:ss, or h:mm:ss, with two digits below 60 in every part after the first, such as 4:07',
    ],
    [
      "4:17 min",
      '"4:17 min" is not a time: a:b is always mm:ss and a:b:c always h:mm:ss, so it takes no unit; write 4:17',
    ],
    [
      "20 s 1 min",
      '"20 s 1 min" is not a time: units run from large to small, each once, as in 1 min 20 s (s, min, h, cmin, tmu)',
    ],
    [
      "soon",
      '"soon" is not a time: write a number and a unit (s, min, h, cmin, tmu), such as 40 s, or mm:ss',
    ],
    [
      "\u001b[2Js",
      '"␛[2Js" is not a time: write a number and a unit (s, min, h, cmin, tmu), such as 40 s, or mm:ss',
    ],
    ["1/7 h", '"1/7 h" is finer than a microsecond, the smallest step kept: write 514.285714 s, the nearest'],
    [
      "0.0000001 s",
      '"0.0000001 s" is finer than a microsecond, the smallest step kept: the least above 0 is 0.000001 s',
    ],
    ["9007199255 s", '"9007199255 s" is too long: a time is at most 9007199254 s, about 285 years'],
  ])("refuses %j, saying why", (text, problem) => {
    expect(inSeconds(text)).toBe(problem);
  });

  test("refuses a text that is far too long without counting its digits", () => {
    expect(inSeconds("9".repeat(5_000_000))).toBe(`"${"9".repeat(60)}…" is too long a text for a time`);
  });
});

test("takes no word that every object has for a unit", () => {
  for (const word of ["constructor", "toString", "__proto__", "valueOf"]) {
    expect(unitMeant(word)).toBeNull();
    expect(readDuration(`5 ${word}`, null).ok).toBe(false);
  }
});
