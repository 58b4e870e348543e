import { expect, test } from "vitest";
import type { BalanceAnswer } from "../../../src/answer/balance/balance-answer.js";
import { offLineText } from "../../../src/report/terminal/off-line-text.js";
import { lineOf } from "../../tools/line-of.js";

test("Blocks that all cost people are not told of as more than what is shown", () => {
  const told = (blocks: number, isFull: boolean) => {
    const offLine = Array.from({ length: blocks }, () => ({ kind: "block", freed: -1 }));
    const answer = { line: lineOf("unit: s\ntasks: {a: 5}\n"), offLine, balance: null, rates: null };
    return offLineText(answer as unknown as BalanceAnswer, isFull, { width: 120, colour: false }).trim();
  };
  expect(told(0, false)).toBe("");
  expect(told(1, false)).toBe("1 block shortens the line but costs people; linepoise off-line lists it.");
  expect(told(2, true)).toBe("2 blocks shorten the line but cost people; --json lists them.");
});
