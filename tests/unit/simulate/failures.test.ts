import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { readLine } from "../../../src/line/read-line.js";
import { visitsOfLine } from "../../../src/line/visits.js";
import { type Plan, planOf } from "../../../src/plan/plan.js";
import { toNumber } from "../../../src/time/ratio.js";
import { runsOf, simulated } from "./simulated.js";

/** A station that is never late, and one of 6 min with a test of which a quarter fails and does the step again. */
function twoSteps(retest: string, repair = "1 s"): { line: Line; plan: Plan } {
  const { line } = readLine(
    "line.yaml",
    [
      "unit: min",
      "tasks:",
      "  one: 1",
      `  two: {time: 6, after: one, test: {fail: 25 %, repair: ${repair}, return-to: two, retest: ${retest}}}`,
      "",
    ].join("\n"),
  );
  return { line: line!, plan: planOf([[0], [1]]) };
}

describe("Of a step of 6 min of which a quarter is done again after repair,", () => {
  const length = { hours: 500, warmUp: 5, replications: 10 };

  // A homework problem in process analysis: 7.5 min a unit started, 8 min a good one where a second failure is scrapped or repeated.
  it.each([
    ["once", 8],
    ["scrap", 7.5],
    ["until-good", 7.5],
  ])("retested %s, the line makes %d good units an hour", async (retest, rate) => {
    const { mean, halfWidth, answer } = await simulated(twoSteps(retest), length);
    expect(Math.abs(mean - rate)).toBeLessThan(2 * halfWidth! + 0.01);
    expect(answer.bottleneck).toBe("S2");
  });

  it("people who repair too slowly hold the units, not the line: what they cannot repair waits beside it", async () => {
    const [run] = runsOf(twoSteps("once", "20 min"), { hours: 100 });
    // One person repairs 3 an hour; 2.5 an hour fail at 10 tested.
    expect(run!.repairTime).toBeLessThanOrEqual(100 * 3.6e9);
    expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished + run!.lost);
  });
});

describe("Lines with tests that send units back anywhere", () => {
  const anyLine = fc.record({
    times: fc.array(fc.integer({ min: 5, max: 30 }), { minLength: 4, maxLength: 5 }),
    fail: fc.integer({ min: 5, max: 40 }),
    inner: fc.integer({ min: 0, max: 30 }),
    back: fc.integer({ min: 0, max: 3 }),
    retest: fc.constantFrom("once", "scrap", "until-good"),
    buffer: fc.integer({ min: 0, max: 3 }),
    seed: fc.integer({ min: 0, max: 1000 }),
  });

  it("lose no unit and no moment, and do each task as often as the chain of their visits says", () => {
    fc.assert(
      fc.property(anyLine, ({ times, fail, inner, back, retest, buffer, seed }) => {
        const tasks = times.map((time, at) => {
          const after = at === 0 ? "" : `, after: t${at - 1}`;
          const last = `{fail: ${fail} %, repair: 5 s, return-to: t${Math.min(back, times.length - 1)}, retest: ${retest}}`;
          const own = at === times.length - 1 ? last : at === 1 && inner > 0 ? `{scrap: ${inner} %}` : null;
          return `  t${at}: {time: ${time}${after}${own === null ? "" : `, test: ${own}`}}`;
        });
        const { line, findings } = readLine(
          "line.yaml",
          `unit: s\nbuffer: ${buffer}\ntasks:\n${tasks.join("\n")}\n`,
        );
        expect(line, JSON.stringify(findings)).not.toBeNull();
        const plan = planOf(times.map((_, at) => [at]));
        const [run] = runsOf({ line: line!, plan }, { seed, hours: 60 });
        for (const { times: of } of run!.stations)
          expect(of.busy + of.starved + of.blocked + of.down).toBe(60 * 3.6e9);
        expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished + run!.lost);
        const { visits } = visitsOfLine(line!);
        for (const [at, { times: of }] of run!.stations.entries()) {
          const done = of.busy / (times[at]! * 1e6) / run!.left;
          expect(Math.abs(done / toNumber(visits[at]![0]!) - 1)).toBeLessThan(0.08);
        }
      }),
      { numRuns: 25, seed: 7 },
    );
  });
});

it("A wait between two stations holds a unit off the line, and no station", () => {
  const { line } = readLine(
    "line.yaml",
    "unit: s\ntasks: {glue: 60, press: {time: 50, after: [{task: glue, wait: 10 min}]}}\n",
  );
  const [run] = runsOf({ line: line!, plan: planOf([[0], [1]]) }, { hours: 7.5 });
  // The first is done after 60 + 600 + 50 = 710 s, then one a minute: (27,000 - 710) / 60 = 438.2 more.
  expect(run!.left).toBe(439);
  expect(run!.stations[0]!.times.blocked).toBe(0);
  // Each is in the line for those 710 s.
  expect(run!.passThrough).toBe(439 * 710e6);
});
