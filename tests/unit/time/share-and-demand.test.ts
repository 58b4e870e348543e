import { describe, expect, test } from "vitest";
import { readDemand } from "../../../src/time/demand.js";
import { ratio } from "../../../src/time/ratio.js";
import { readShare } from "../../../src/time/share.js";

describe("a share", () => {
  test.each([
    ["94 %", ratio(94, 100)],
    ["94%", ratio(94, 100)],
    ["99.5 %", ratio(995, 1000)],
    ["100 %", ratio(1)],
    ["0.001 %", ratio(1, 100_000)],
    ["33 1/3 %", ratio(1, 3)],
  ])("%j is read exactly", (text, value) => {
    expect(readShare(text)).toEqual({ ok: true, value });
  });

  test.each([
    ["", "a share is missing (blank is never 0 %): write it with its %, such as 95 %"],
    [
      "0.95",
      '"0.95" is not a share: it needs its %; as a percentage it is 0.95 %, as a fraction 95 %; write 95 % or 0.95 %',
    ],
    [
      "95",
      '"95" is not a share: it needs its %; as a percentage it is 95 %, as a fraction 9500 %; write 95 %',
    ],
    ["94,5 %", '"94,5 %" is not a share: decimals take a point; write 94.5 %'],
    ["-5 %", '"-5 %" is not a share: it must not be negative; write 5 % if that is meant'],
    ["0 %", '"0 %" is too small: a share is above 0 % and at most 100 %'],
    ["100.1 %", '"100.1 %" is too much: a share is above 0 % and at most 100 %'],
    ["94 percent", '"94 percent" is not a share: write 94 %'],
    ["most", '"most" is not a share: write a number with its %, such as 95 %'],
  ])("refuses %j, saying why", (text, problem) => {
    expect(readShare(text)).toEqual({ ok: false, problem });
  });
});

describe("a demand", () => {
  test.each([
    ["176 per day", ratio(176), "day"],
    ["176 Per Day", ratio(176), "day"],
    ["9615.38 per week", ratio(961_538, 100), "week"],
    ["1 per hour", ratio(1), "hour"],
    ["230 per shift", ratio(230), "shift"],
    ["4400 per month", ratio(4400), "month"],
    ["0.5 per year", ratio(1, 2), "year"],
  ])("%j is read exactly", (text, units, period) => {
    expect(readDemand(text)).toEqual({ ok: true, value: { units, period } });
  });

  test.each([
    ["", "a demand is missing: write it with its period, such as 176 per day"],
    ["176", '"176" is not a demand: it needs a period; write 176 per hour, shift, day, week, month or year'],
    ["176 per dya", '"176 per dya" is not a demand: write 176 per day'],
    ["176 per mnth", '"176 per mnth" is not a demand: write 176 per month'],
    ["176 per days", '"176 per days" is not a demand: write 176 per day'],
    ["176 daily", '"176 daily" is not a demand: write 176 per day'],
    ["176/day", '"176/day" is not a demand: write 176 per day'],
    ["176 units a day", '"176 units a day" is not a demand: write 176 per day'],
    [
      "176 per moon",
      '"176 per moon" is not a demand: "moon" is no period; write 176 per hour, shift, day, week, month or year',
    ],
    [
      "4,400 per month",
      '"4,400 per month" is not a demand: a comma may mean thousands or decimals; write 4400 per month or 4.400 per month',
    ],
    ["0 per day", '"0 per day" is no demand: at least something above 0 is expected'],
    ["-5 per day", '"-5 per day" is not a demand: it must not be negative; write 5 per day if that is meant'],
    ["1e3 per day", '"1e3 per day" is not a demand: write the number out in plain digits: 1000 per day'],
    [
      "120..240 per day",
      '"120..240 per day" is not a demand: one number is expected, not a range; write 120 per day or 240 per day',
    ],
    [
      "plenty",
      '"plenty" is not a demand: write a number of good units and its period, such as 176 per day (hour, shift, day, week, month or year)',
    ],
  ])("refuses %j, saying why", (text, problem) => {
    expect(readDemand(text)).toEqual({ ok: false, problem });
  });
});
