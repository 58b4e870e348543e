import { expect, it } from "vitest";
import { sizeOf, sizeWords } from "../../../src/off-line/changed-line.js";
import { planFrom } from "../../tools/floor-line.js";
import { paceOf, shortLine } from "../../tools/line-of.js";

const line = shortLine(["a! 30", "b 45 a"]);
const changed = { line, pace: paceOf(60), plan: planFrom(line, ["S1: a", "S2: b"]), why: "" };

it("The size of a changed line says whether fewer people or stations might do", () => {
  // 75 / (2 x 60) = 62.5 %.
  expect(sizeOf({ ...changed, outcome: "proved" })).toBe(
    "2 stations and 2 people in all, efficiency 62.5 % at the pace",
  );
  expect(sizeWords({ ...changed, outcome: "found" })).toBe(
    "(2 stations and 2 people in all, not proved least, efficiency 62.5 % at the pace)",
  );
});

it("A changed line without a plan says why", () => {
  expect(sizeWords({ ...changed, plan: null, outcome: "found", why: "no plan keeps the rules" })).toBe(
    "(no plan keeps the rules)",
  );
});
