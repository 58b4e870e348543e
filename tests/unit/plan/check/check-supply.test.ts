import { expect, test } from "vitest";
import { checkSupply } from "../../../../src/plan/check/check-supply.js";
import { ratio } from "../../../../src/time/ratio.js";
import { lineOf } from "../../../tools/line-of.js";

/** What is told of a supply of 35 an hour where a good unit is wanted every 90 s, 40 an hour. */
const told = (keys: string) =>
  checkSupply(
    lineOf(`unit: s\n${keys}supply: {motors: 35 per hour}\ntasks: {a: 40}\n`),
    ratio(90_000_000),
  ).map(({ message }) => message);

test("a supply below the demand is told once where every unit is good", () => {
  expect(told("")).toEqual(["the supply of motors covers 35 units per hour; 40 good units are needed"]);
});

test("with scrap it is told how many are started", () => {
  // 40 / 0.8 = 50.
  expect(told("yield: 80 %\n")).toEqual([
    "the supply of motors covers 35 units per hour; 50 are needed: 40 good units, 80 % of those started",
  ]);
});
