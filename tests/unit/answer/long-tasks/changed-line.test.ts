import { expect, it } from "vitest";
import { sizeOf } from "../../../../src/answer/long-tasks/changed-line.js";
import type { ChangedResult } from "../../../../src/answer/long-tasks/long-answer.js";
import { longAnswerWords } from "../../../../src/report/words/long-answer-words.js";
import { ratio } from "../../../../src/time/ratio.js";
import { planFrom } from "../../../tools/floor-line.js";
import { paceOf, shortLine } from "../../../tools/line-of.js";

const line = shortLine(["a! 30", "b 45 a"]);
const plan = planFrom(line, ["S1: a", "S2: b"]);
const changed = { line, pace: paceOf(60), plan, obstacles: null, scarce: [] };
const words = (result: ChangedResult) =>
  longAnswerWords(line, { kind: "overload", isJoint: true, overload: ratio(1, 10), result });

it("The size of a changed line says whether fewer people or stations might do", () => {
  // 75 / (2 x 60) = 62.5 %.
  expect(words(sizeOf({ ...changed, outcome: "proved" }))).toBe(
    "more overload: `model-overload: 10 %` (2 stations and 2 people in all, efficiency 62.5 % at the pace)",
  );
  expect(words(sizeOf({ ...changed, outcome: "found" }))).toBe(
    "more overload: `model-overload: 10 %` (2 stations and 2 people in all, not proved least, efficiency 62.5 % at the pace)",
  );
});

it("A changed line without a plan says why, once", () => {
  const obstacles = [{ kind: "too-long", tasks: ["b"] }] as const;
  expect(words({ kind: "no-plan", obstacles, isToldBefore: false })).toContain(
    "(no plan keeps the rules of the line then: b is too long for a station)",
  );
  expect(words({ kind: "no-plan", obstacles, isToldBefore: true })).toContain("for the same reasons)");
  expect(words({ kind: "no-plan", obstacles: null, isToldBefore: false })).toContain(
    "(no plan was found before the search was stopped)",
  );
});
