import { expect, test } from "vitest";
import { lineFileKeys } from "../../../src/line/line-file.js";
import { keysOfTrade, TRADE_WORDS } from "../../../src/line/read/trade-words.js";

const known = new Set(lineFileKeys().map(({ key }) => key.split(".").at(-1)!));

test("Words of the trade lead to keys that line files have", () => {
  expect(Object.keys(TRADE_WORDS).filter((key) => !known.has(key))).toEqual([]);
});

test("A word of the trade is found however it is spaced and capitalised, and may stand for several keys", () => {
  for (const word of ["cycle-time", "Cycle Time", "CYCLE_TIME"])
    expect(keysOfTrade(word)).toEqual(["demand", "time"]);
  expect(keysOfTrade("constructor")).toEqual([]);
});

test("No word is listed twice for a key, nor for the key that it is", () => {
  for (const [key, words] of Object.entries(TRADE_WORDS)) {
    const each = words.split(" ");
    expect([key, new Set(each).size]).toEqual([key, each.length]);
    expect(each).not.toContain(key);
  }
});
