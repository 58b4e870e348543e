import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { planOf } from "../../../src/plan/plan.js";
import { lengthOf, visitsIn, withWarmUp } from "../../../src/simulate/choose-length.js";
import { collectRuns } from "../../../src/simulate/run-again-and-again.js";
import { simulateLine } from "../../../src/simulate/simulate-line.js";
import { settlesAfter } from "../../../src/simulate/warm-up.js";
import { divide, ratio, toNumber } from "../../../src/time/ratio.js";
import { runLinepoise } from "../../tools/run-linepoise.js";
import { GIVEN, lineOf, runsOf } from "./simulated.js";

describe("MSER-5 (White 1997) leaves out", () => {
  /** The rule as it is defined, in floating point: d of least variance over count among means of five, at most half of them. */
  function asDefined(series: readonly number[]): number {
    const means = Array.from({ length: Math.floor(series.length / 5) }, (_, at) =>
      series.slice(5 * at, 5 * at + 5).reduce((sum, each) => sum + each / 5, 0),
    );
    const errors = Array.from({ length: Math.floor(means.length / 2) + 1 }, (_, left) => {
      const rest = means.slice(left);
      const mean = rest.reduce((sum, each) => sum + each, 0) / rest.length;
      return rest.reduce((sum, each) => sum + (each - mean) ** 2, 0) / rest.length ** 2;
    });
    return 5 * errors.indexOf(Math.min(...errors));
  }

  /** A wave around 100 that comes up from 0. */
  const rising = (length: number, until: number) =>
    Array.from({ length }, (_, at) => Math.round(100 * Math.min(1, at / until) + ((at * 7919) % 13)));

  it.each([
    [200, 30],
    [200, 55],
    [403, 17],
  ])("of %d values that rise until the %dth what its definition leaves out", (length, until) => {
    const series = rising(length, until);
    expect(settlesAfter(series)).toBe(asDefined(series));
    expect(Math.abs(settlesAfter(series)! - until)).toBeLessThanOrEqual(10);
  });

  it("nothing of a series that is even, and does not tell of one that still rises", () => {
    expect(settlesAfter(new Array(100).fill(3))).toBe(0);
    expect(settlesAfter(rising(100, 100))).toBeNull();
  });
});

const HOUR = 3.6e9;
const always = async () => true;
const chosen = (of: ReturnType<typeof lineOf>) =>
  withWarmUp(lengthOf(of.line, of.plan, {}), { ...of, lineCycle: null }, always);

describe("The warm-up of a line that starts empty", () => {
  it("is as long as its room takes to fill: 200 units at 6 s a unit more than are taken away", async () => {
    const { warmUp, chosen: why } = await chosen(lineOf([54, 60], "buffer: 200"));
    // (200 places + 1) x 54 x 60 / 6 s = 30.15 h until the first station is blocked.
    expect(why.settled!.isSettled).toBe(true);
    expect(Math.abs(why.settled!.after / HOUR - 30.15)).toBeLessThan(0.5);
    expect([30, 31]).toContain(warmUp / HOUR);
  });

  it("is told where no trial shows an end of it", async () => {
    const { chosen: why } = await chosen(lineOf([59.99, 60], "buffer: 4000"));
    expect(why.settled).toMatchObject({ isSettled: false, units: 8000 });
  });

  it("is an hour where nothing varies or stands between the stations", async () => {
    const { warmUp } = await chosen(lineOf([50, 60, 55]));
    expect(warmUp).toBe(HOUR);
  });
});

describe("A half-width of so much of the output that is asked for", () => {
  const { line, plan } = lineOf([60, 60], "variation: {shape: exponential}");
  const asked = (share: number, most: number, seed = 1) =>
    simulateLine(line, plan, {
      ...GIVEN,
      within: { share: ratio(share, 1000), most },
      ...{
        seed,
        replications: 10,
        hours: 10 * HOUR,
        warmUp: HOUR,
        lineCycle: null,
        confidence: ratio(95, 100),
      },
      goesOn: always,
    });

  it("is reached by replications until then, the same ones as if as many had been asked for", async () => {
    const answer = (await asked(15, 400))!;
    const { mean, halfWidth } = answer.perHour;
    expect(answer.within!.isReached).toBe(true);
    expect(toNumber(divide(halfWidth!, mean))).toBeLessThanOrEqual(0.015);
    expect(answer.replications).toBeGreaterThan(10);
    const plain = await collectRuns({ ...answer, benches: null, models: [0], lineCycle: null }, null, always);
    const left = plain.reduce((sum, run) => sum + run.left, 0);
    expect(toNumber(mean)).toBeCloseTo(left / answer.replications / 10, 5);
  });

  it("is told where as many replications as there may be are not enough", async () => {
    expect(await asked(1, 24)).toMatchObject({ replications: 24, within: { isReached: false, most: 24 } });
  });

  it("covers the exact 40 an hour in about 95 of 100 seeds", async () => {
    let covered = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const { mean, halfWidth } = (await asked(20, 200, seed))!.perHour;
      if (Math.abs(toNumber(mean) - 40) <= toNumber(halfWidth!)) covered++;
    }
    // Of 1,000 such hundreds, binomial ones of 95 %, one is below 87.
    expect(covered).toBeGreaterThanOrEqual(87);
  });
});

describe("The visits that a run is judged by", () => {
  const HOURS = 20;
  const any = fc.record({
    times: fc.array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 400 })), {
      minLength: 1,
      maxLength: 4,
    }),
    everies: fc.array(fc.constantFrom(1, 1, 2, 3, 4), { minLength: 4, maxLength: 4 }),
    order: fc.array(fc.constantFrom("x", "y"), { minLength: 1, maxLength: 6 }),
    pacing: fc.constantFrom("unpaced", "indexing", "moving"),
  });

  it("are at least those of the order of the models, whatever their shares are", () => {
    let unlike = 0;
    fc.assert(
      fc.property(any, ({ times, everies, order, pacing }) => {
        // The first task is on every unit, so that no unit passes in no time.
        const tasks = times.map(
          ([x, y], at) => `  t${at}: {time: {x: ${x}, y: ${y}}, every: ${at === 0 ? 1 : everies[at]}}`,
        );
        const models = `models: {x: 99 %, y: 1 %}\nsequence: [${order.join(", ")}]`;
        const { line } = readLine(
          "l.yaml",
          `unit: s\npacing: ${pacing}\n${models}\ntasks:\n${tasks.join("\n")}\n`,
        );
        const plan = planOf(times.map((_, at) => [at]));
        const [run] = runsOf({ line: line!, plan }, { hours: HOURS });
        const asked = { line: line!, plan, lineCycle: null, hours: HOURS * HOUR, warmUp: 0 };
        const units = visitsIn(asked) / times.length;
        if (order.includes("y")) unlike++;
        // One station more or less of its work is left over at the end.
        expect(run!.left).toBeLessThanOrEqual(units + 1);
        if (times.length === 1) expect(run!.left).toBeGreaterThanOrEqual(units - order.length);
      }),
      { numRuns: 100, seed: 1 },
    );
    expect(unlike).toBeGreaterThan(50);
  });

  it("refuse a run that takes too long in the order of its models, though not on average", async () => {
    const line = `unit: s
models: {x: 99 %, y: 1 %}
sequence: [y]
tasks: {a: {time: {x: 3600, y: 0.001}}}
`;
    const plan = "format: linepoise-plan/1\nstations: [{id: S1, tasks: [a]}]\n";
    const args = ["simulate", "l.yaml", "p.yaml", "--hours", "1000", "--warm-up", "0"];
    const { status, stderr } = await runLinepoise({ args, files: { "l.yaml": line, "p.yaml": plan } });
    expect([status, stderr]).toEqual([2, expect.stringContaining("3,600,000,000")]);
  });
});
