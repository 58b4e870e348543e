import { describe, expect, it } from "vitest";
import { answerStations } from "../../../src/off-line/answer-stations.js";
import { lineOf } from "../../tools/line-of.js";

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

  it("is not worked out where models or machines limit stations by more than their time, and says so", async () => {
    const models =
      "unit: s\nmodels: {city: 50 %, cargo: 50 %}\nmodel-overload: 10 %\ntasks: {a: {time: {city: 20, cargo: 100}}, b: 30}\n";
    const machine =
      "unit: s\nequipment: {press: 1}\ntasks: {a: {time: 30, machine-time: 60, equipment: press}, b: 40}\n";
    for (const text of [models, machine]) {
      expect(await answer(text, 2, 10_000)).toEqual(["stopped", true, ["no-plan-found"]]);
    }
  });
});
