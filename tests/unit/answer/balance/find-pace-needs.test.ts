import { describe, expect, it } from "vitest";
import { answerStations } from "../../../../src/answer/balance/answer-stations.js";
import { toNumber } from "../../../../src/time/ratio.js";
import { lineOf } from "../../../tools/line-of.js";

const HEAD = "unit: s\ncalendar: {shifts: {early: {length: 4 h}}}\n";

async function answer(text: string, count: number) {
  const line = lineOf(HEAD + text);
  const { outcome, pace, measures, rates, findings } = await answerStations(line, count, null, {
    nodes: 20_000,
    checkpoint: () => null,
  });
  return {
    outcome,
    lineCycle: toNumber(pace!.lineCycle) / 1e6,
    cycleOfPlan: toNumber(measures!.cycleOfPlan) / 1e6,
    output: measures!.outputPerShift,
    rate: rates!.find(({ stations }) => stations === count)!.outputPerShift,
    told: findings.filter(({ rule }) => rule.startsWith("pace-of-")).map(({ message }) => message),
  };
}

describe("a plan that sets its own pace", () => {
  it("tells of the model that needs a longer cycle than its stations, and counts output by that", async () => {
    const models = "models: {city: 50 %, cargo: 50 %}\nmodel-overload: 60 %\n";
    // The mean of 20 and 120 s is 70 s; 120 s / 1.6 = 75 s. 14400 s / 75 s = 192 units.
    expect(await answer(`${models}tasks: {a: {time: {city: 20, cargo: 120}}}\n`, 1)).toEqual({
      outcome: "proved",
      lineCycle: 75,
      cycleOfPlan: 70,
      output: 192,
      rate: 192,
      told: [
        "the stations could keep a cycle of 70 s; the models need a line cycle of 75 s: cargo takes 120 s at S1, and may be 60 % above the working time of 75 s",
      ],
    });
  });

  it("tells of the machines that need a longer cycle than its stations", async () => {
    const press = "{time: 30, machine-time: 60, equipment: press}";
    expect(await answer(`equipment: {press: 1}\ntasks: {a: ${press}, b: 40}\n`, 1)).toMatchObject({
      outcome: "proved",
      lineCycle: 90,
      cycleOfPlan: 90,
      told: [
        "the stations could keep a cycle of 70 s; the machines need a line cycle of 90 s: press at S1 is loaded and runs 90 s for a unit, and 1 exists",
      ],
    });
    const two = await answer(`equipment: {press: 2}\nholds: 2\ntasks: {a: ${press}, b: 10}\n`, 1);
    expect(two.told).toEqual([
      "the stations could keep a cycle of 40 s; the machines need a line cycle of 45 s: 2 x press at S1 are loaded and run 90 s for a unit, and 2 exist",
    ]);
  });

  it("says nothing where its slowest station needs the whole cycle", async () => {
    const { lineCycle, told } = await answer(
      "equipment: {press: 1}\ntasks: {a: {time: 30, machine-time: 10, equipment: press}, b: 40}\n",
      1,
    );
    expect([lineCycle, told]).toEqual([70, []]);
  });
});
