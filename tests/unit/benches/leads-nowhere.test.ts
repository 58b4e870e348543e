import { describe, expect, it } from "vitest";
import { everyBlock } from "../../../src/benches/every-block.js";
import { findBlocks } from "../../../src/benches/find-blocks.js";
import { judgeBlock } from "../../../src/benches/why-not.js";
import { readLine } from "../../../src/line/read-line.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { hindranceWords } from "../../../src/report/words/hindrance-words.js";
import { planFrom } from "../../tools/floor-line.js";
import { idsOf, lineOf, numbersOf, paceOf } from "../../tools/line-of.js";

const TEXT =
  "line: x\nunit: s\ntasks: {base: {time: 40, on-base: true}, a1: 30, b2: {time: 33, after: [base, a1]}, b3: {time: 35, after: b2}, end: 25}\n";

describe("A task off the base unit that nothing waits for", () => {
  const line = lineOf(TEXT);
  const judged = (...ids: string[]) => {
    const { hindrances, nearest } = judgeBlock(line, numbersOf(line, ...ids), false);
    return [hindrances.map((each) => hindranceWords(line, each)), nearest && idsOf(line, nearest)];
  };

  it("is in no block, also not beside parts that join", () => {
    for (const several of [false, true])
      expect(everyBlock(line, several).blocks.map(({ tasks }) => idsOf(line, tasks))).toEqual([["a1"]]);
    expect(findBlocks(line).map(({ tasks }) => idsOf(line, tasks))).toEqual([["a1"]]);
  });

  it("is refused when asked for, alone and beside parts that join", () => {
    expect(judged("end")).toEqual([
      ["nothing on the line waits for it: no precedence says where it joins"],
      null,
    ]);
    expect(judged("a1", "end")).toEqual([
      ["nothing waits for end: no precedence says where it joins"],
      ["a1"],
    ]);
    expect(judged("a1")).toEqual([[], null]);
  });

  it("is in no block either where it needs a part that another task takes over", () => {
    const needing = lineOf(TEXT.replace("end: 25", "end: {time: 25, after: a1}"));
    for (const several of [false, true])
      expect(everyBlock(needing, several).blocks.map(({ tasks }) => idsOf(needing, tasks))).toEqual(
        several ? [["a1"]] : [],
      );
    expect(findBlocks(needing)).toEqual([]);
  });

  it("is refused in an option of the file", () => {
    const { findings } = readLine("x.yaml", `${TEXT}options: {bench: {off-line: [[a1, end]]}}\n`);
    expect(findings.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([
      "off-line-block: option bench, off-line: nothing waits for end: no precedence says where it joins",
    ]);
  });

  it("is a fault at a bench of a plan", () => {
    const plan = {
      stations: planFrom(line, ["S1: base", "S2: b2", "S3: b3"]).stations,
      benches: planFrom(line, ["B1: a1 end"]).stations,
    };
    expect(verifyPlan(line, paceOf(60), plan, true).map(({ message }) => message)).toEqual([
      "end is done at bench B1, and nothing waits for it",
    ]);
  });
});
