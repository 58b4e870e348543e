import { describe, expect, it } from "vitest";
import { flagBlocks } from "../../../src/answer/off-line/flag-blocks.js";
import { keepBenches } from "../../../src/answer/rebalance/keep-benches.js";
import { jobFor } from "../../../src/benches/bench-job.js";
import { benchesOfPlan, lineBeside } from "../../../src/benches/bench-of-plan.js";
import { measureBench } from "../../../src/benches/measure-bench.js";
import { restOfLine } from "../../../src/benches/rest-of-line.js";
import { withLeastScrap, withoutScrapOf } from "../../../src/benches/without-scrap.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { type Ratio, toNumber } from "../../../src/time/ratio.js";
import { planFrom } from "../../tools/floor-line.js";
import { lineOf, numbersOf, paceOf } from "../../tools/line-of.js";

const micros = (value: Ratio) => Math.round(toNumber(value) / 1000) / 1000;

/** A frame of 60 s, a wheel that is laced and tried away from it, and what joins the two. */
const TEXT = (test: string, frame = "60") =>
  `line: x\nunit: s\ntasks:\n  frame: {time: ${frame}, on-base: true}\n  lace: 22\n  try: {time: 20, after: lace${test}}\n  fit: {time: 33, after: [frame, try]}\n`;
const SCRAP = ", test: {scrap: 10 %}";

const loadsOf = (line: ReturnType<typeof lineOf>) =>
  Object.fromEntries(line.tasks.map(({ id, load }) => [id, micros(load)]));

describe("Wheels scrapped at a bench", () => {
  const line = lineOf(TEXT(SCRAP));
  const wheel = numbersOf(line, "lace", "try");

  it("meet no frame: the frame is made once for a good unit, the wheels 10 times for 9", () => {
    expect(loadsOf(line)).toEqual({ frame: 66.667, lace: 24.444, try: 22.222, fit: 33 });
    expect(loadsOf(withoutScrapOf(line, wheel))).toEqual({ frame: 60, lace: 24.444, try: 22.222, fit: 33 });
    expect(loadsOf(withLeastScrap(line, wheel))).toEqual({ frame: 60, lace: 22, try: 20, fit: 33 });
  });

  it("leave the line as a file without the test has it, also where a wheel that fails again is scrapped", () => {
    for (const test of [
      SCRAP,
      ", test: {fail: 20 %, repair: 30 s, return-to: lace, retest: scrap}",
      ", test: {fail: 20 %, repair: 30 s, return-to: try, retest: scrap}",
    ]) {
      const scrapping = lineOf(TEXT(test));
      const plain = loadsOf(lineOf(TEXT("")));
      const left = loadsOf(withoutScrapOf(scrapping, wheel));
      expect([left.frame, left.fit]).toEqual([plain.frame, plain.fit]);
      expect(loadsOf(scrapping).frame).toBeGreaterThan(60);
    }
  });

  it("change nothing where the bench builds what no test there scraps", () => {
    expect(withoutScrapOf(line, numbersOf(line, "lace"))).toBe(line);
  });

  it("still count where the line scraps units behind them", () => {
    const text = TEXT(SCRAP).replace("[frame, try]", "[frame, try], test: {scrap: 20 %}");
    expect(loadsOf(withoutScrapOf(lineOf(text), wheel))).toMatchObject({ frame: 75, lace: 30.556 });
  });

  it("count for the models alone that have the test", () => {
    const text = TEXT(SCRAP, "{small: 60, large: 40}")
      .replace("time: 20,", 'time: {small: 20, large: "-"},')
      .replace("tasks:", "models: {small: 50 %, large: 50 %}\ntasks:");
    const mixed = lineOf(text);
    // 60 s x 10/9 and 40 s, half of the units each; the bench takes the scrap of the small ones with it.
    expect(loadsOf(mixed).frame).toBe(53.333);
    expect(loadsOf(withoutScrapOf(mixed, wheel)).frame).toBe(50);
  });
});

describe("A line at 64.5 s whose frame of 60 s takes 66.7 s with the scrap of the wheels", () => {
  const line = lineOf(TEXT(SCRAP));
  const pace = paceOf(64.5);
  const plan = {
    stations: planFrom(line, ["S1: frame", "S2: fit"]).stations,
    benches: planFrom(line, ["B1: lace try"]).stations,
  };

  it("is flagged to have a balance with the wheels at a bench", async () => {
    const options = { method: "best", nodes: 10_000, level: false, strictLimit: false, explain: false };
    const { flags } = await flagBlocks(line, pace, null, { ...options, checkpoint: () => null });
    expect(flags.map(({ tasks, stationsAfter }) => [tasks, stationsAfter])).toEqual([[["lace", "try"], 2]]);
  });

  it("keeps its loads with the bench, by the verifier as well", () => {
    expect(verifyPlan(line, pace, plan, true)).toEqual([]);
    expect(verifyPlan(lineBeside(line, plan), pace, plan, true)).toEqual([]);
    const alone = planFrom(line, ["S1: frame", "S2: lace try", "S3: fit"]);
    expect(verifyPlan(line, pace, alone, false).map(({ rule, station }) => [rule, station])).toEqual([
      ["load", "S1"],
    ]);
    expect(benchesOfPlan(line, pace, plan).map(({ work }) => micros(work))).toEqual([46.667]);
  });

  it("is compared with the same loads", async () => {
    const tasks = numbersOf(line, "lace", "try");
    const search = { nodes: 1_000, checkpoint: () => null };
    const job = jobFor(line, { tasks, joinsAt: numbersOf(line, "fit") });
    const figures = await measureBench(line, pace, job, search);
    expect(loadsOf(restOfLine(line, [figures]).rest)).toEqual({
      frame: 60,
      fit: 33,
    });
  });

  it("is rebalanced with the loads that the bench leaves, and the time to take its parts over", () => {
    expect(loadsOf(keepBenches(line, plan).line)).toEqual({ frame: 60, fit: 33 });
    const taking = lineOf(
      `${TEXT(SCRAP)}benches: {wheels: {tasks: [lace, try], take-over: 4, share: 50 %}}\n`,
    );
    expect(loadsOf(keepBenches(taking, plan).line)).toEqual({ frame: 60, fit: 35 });
  });
});
