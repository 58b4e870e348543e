import { describe, expect, it } from "vitest";
import { answerStations } from "../../../../src/answer/balance/answer-stations.js";
import { lineOf } from "../../../tools/line-of.js";

const answer = async (text: string, count: number, nodes: number) => {
  const options = { nodes, checkpoint: () => null };
  const { outcome, plan, findings } = await answerStations(lineOf(text), count, null, options);
  return [outcome, plan === null, findings.map(({ rule }) => rule)];
};

describe("a fixed number of stations on a line with rules", () => {
  const apart = "unit: s\napart: [[a, b, c]]\ntasks: {a: 10, b: 20, c: 30, d: 40}\n";

  it("is impossible only where every plan was ruled out, and open where the search was stopped", async () => {
    // Three tasks that stay apart need three stations.
    expect(await answer(apart, 2, 10_000)).toEqual(["infeasible", true, ["no-plan"]]);
    expect(await answer(apart, 3, 1)).toEqual(["stopped", true, ["no-plan-found"]]);
    expect((await answer(apart, 3, 10_000))[0]).toBe("proved");
  });
});
