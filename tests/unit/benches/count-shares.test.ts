import { describe, expect, it } from "vitest";
import { answerOffLine } from "../../../src/answer/off-line/answer-off-line.js";
import { countShares, findCountedShares } from "../../../src/benches/count-shares.js";
import { toNumber } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { asked, compared } from "../answer/compare/compared.js";

/** 200 units in 28,800 s: one every 144 s. A box of 140 s that 40 % of the units have. */
const lineWith = (models: string, box: string, bench: string) =>
  lineOf(`unit: s
demand: 200 per day
calendar: {shifts: {day: {length: 8 h}}}
${models}
benches: {boxes: {${bench}}}
tasks:
  frame: {time: 100, on-base: true}
  box: ${box}
  fit: {time: 70, after: [frame, box]}
options: {at the bench: {off-line: [boxes]}}
`);

const byShare = lineWith("", "140", "tasks: [box], share: 40 %");
const byModel = lineWith(
  "models: {city: 40 %, cargo: 60 %}",
  '{time: {city: 140, cargo: "-"}}',
  "tasks: [box]",
);

async function offLine(line: typeof byShare) {
  const { pace, takt } = asked(line);
  const { before, stated, findings } = await answerOffLine(line, pace, takt, {
    ranks: ["people"],
    benches: 1,
    joinsAtSeveral: false,
    asked: null,
    nodes: 1_000,
    strictLimit: false,
    checkpoint: async () => null,
  });
  const { plan, bench } = stated![0]!.rated!;
  const people = [before.people, plan!.people, bench.places];
  return {
    people,
    efficiency: [before.efficiency, plan!.efficiency],
    rules: findings.map(({ rule }) => rule),
  };
}

describe("What 40 % of the units carry", () => {
  it("is worked on these on the line as well as at the bench, which so frees nobody", async () => {
    // 100 + 0.4 x 140 + 70 = 226 s: two people at 144 s, and the bench would be a third.
    const { people, efficiency, rules } = await offLine(byShare);
    expect(people).toEqual([2, 3, 1]);
    expect(toNumber(efficiency[0]!)).toBe(0.784722);
    expect(rules).toEqual(["share-on-the-line"]);
  });

  it("comes out as where times by model say it", async () => {
    const { people, efficiency, rules } = await offLine(byModel);
    expect({ people, efficiency }).toEqual(
      (({ people: ofShare, efficiency: also }) => ({ people: ofShare, efficiency: also }))(
        await offLine(byShare),
      ),
    );
    expect(rules).toEqual([]);
    const figures = async (line: typeof byShare) =>
      (await compared(line)).rows.map(({ key, values }) => [key, values]);
    expect(await figures(byShare)).toEqual(await figures(byModel));
  });

  it("is told once, and not where `every` says that not every unit has it", () => {
    expect(findCountedShares(byShare).map(({ message }) => message)).toEqual([
      "bench boxes: 40 % of the units carry what is built there, so here box counts on 40 % of them on the line as well; `balance` and `check` count every unit, as no times by model and no `every` say otherwise",
    ]);
    const every = lineWith("", "{time: 140, every: 10}", "tasks: [box], share: 10 %");
    expect(findCountedShares(every)).toEqual([]);
    expect(countShares(every)).toEqual(every);
  });

  it("is as much work at a bench on every tenth unit: 140 s on 10 % of the units", async () => {
    const every = lineWith("", "{time: 140, every: 10}", "tasks: [box], share: 10 %");
    const [, option] = (await compared(every)).options;
    const { work, takt } = option!.benches[0]!;
    expect([toNumber(work), toNumber(takt)]).toEqual([140e6, 1440e6]);
  });
});

describe("A share of a bench on a line with two sides", () => {
  it("makes no unit leave a station earlier than without the work", async () => {
    // f and g are both worked from the right: 92 + 39 = 131 s, above 120 s, whatever half of the units have on the left.
    const text = `unit: s
benches: {B1: {tasks: c, share: 50 %}}
tasks:
  c: {time: 26}
  f: {time: 92, side: right}
  g: {time: 39, side: right}
`;
    const files = { "line.yaml": text };
    const run = await runLinepoise({ args: ["off-line", "line.yaml", "--cycle", "120 s", "--json"], files });
    expect(run.status, run.stderr).toBe(0);
    const { before } = JSON.parse(run.stdout);
    expect([before.stations, before.outcome]).toEqual([2, "proved"]);
  });
});

describe("A share of a bench on equipment that is counted", () => {
  it("holds it on these units only: 35 s on 1 % of them is 0.35 s of the 16.35 s at its station", async () => {
    // Two presses at 220 units an hour, one every 16.36 s: one for each of the two stations will do.
    const text = `unit: s
equipment: {press: 2}
benches: {B1: {tasks: a, share: 1 %}}
options: {same: {plan-to: 100 %}}
tasks: {a: {time: 35, equipment: press}, b: 16, c: {time: 16, equipment: press}}
`;
    const args = ["compare", "line.yaml", "--demand", "220 per hour", "--json"];
    const run = await runLinepoise({ args, files: { "line.yaml": text } });
    expect(run.status, run.stderr).toBe(0);
    const [before] = JSON.parse(run.stdout).options;
    expect(before.plan.stations).toHaveLength(2);
  });
});
