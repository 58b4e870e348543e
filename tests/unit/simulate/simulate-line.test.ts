import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { State } from "../../../src/simulate/watched-line.js";
import { ratio, toNumber } from "../../../src/time/ratio.js";
import { lineOf, runsOf, simulated } from "./simulated.js";

describe("Where nothing varies, a simulation is arithmetic:", () => {
  it("stations of 50, 60 and 55 s make the first unit after 165 s and then one a minute", async () => {
    const { answer } = await simulated(lineOf([50, 60, 55]), { hours: 7.5 });
    expect(runsOf(lineOf([50, 60, 55]), { hours: 7.5 })[0]!.left).toBe(448);
    expect(answer.perHour).toEqual({ mean: ratio(4480, 75), halfWidth: ratio(0) });
    expect(answer.bottleneck).toBe("S2");
  });

  it("five stations of 60 s fill first", () => {
    expect(runsOf(lineOf([60, 60, 60, 60, 60]), { hours: 7.5 })[0]!.left).toBe(446);
  });

  it("the slowest station alone sets the rate of any line once it is full", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 0, max: 3 }),
        fc.constantFrom("unpaced", "indexing"),
        (times, buffer, pacing) => {
          const slowest = Math.max(...times);
          const line = lineOf(times, pacing === "unpaced" ? `buffer: ${buffer}` : "pacing: indexing");
          const { left } = runsOf(line, { hours: slowest, warmUp: 1 })[0]!;
          expect(left).toBe(3600);
        },
      ),
      { numRuns: 30, seed: 1 },
    );
  });

  it("parallel workplaces take units in turn", () => {
    const { line, plan } = lineOf([60, 110]);
    const doubled = { stations: [plan.stations[0]!, { ...plan.stations[1]!, places: 2 }] };
    const [run] = runsOf({ line, plan: doubled }, { hours: 100, warmUp: 1 });
    expect(run!.left).toBe(6000);
    expect(run!.stations[1]!.times.busy / (2 * 100 * 3.6e9)).toBeCloseTo(110 / 120, 12);
  });

  it("a moving line makes a unit a line cycle, and stops for a station that takes longer", () => {
    const moving = lineOf([50, 60, 55], "pacing: moving");
    expect(runsOf(moving, { hours: 10, warmUp: 1, lineCycle: 72 })[0]!.left).toBe(500);
    expect(runsOf(moving, { hours: 10, warmUp: 1, lineCycle: 50 })[0]!.left).toBe(600);
  });
});

const STATES: readonly State[] = ["busy", "starved", "blocked", "down"];

describe("Of any line that varies", () => {
  const anyLine = fc.record({
    times: fc.array(fc.integer({ min: 10, max: 60 }), { minLength: 1, maxLength: 5 }),
    places: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 5, maxLength: 5 }),
    variation: fc.constantFrom(
      "{shape: exponential}",
      "{shape: normal, cv: 30 %}",
      "{shape: lognormal, cv: 120 %}",
      "{shape: triangular, cv: 40 %}",
    ),
    flow: fc.constantFrom("buffer: 0", "buffer: 2", "pacing: indexing", "pacing: moving"),
    breaks: fc.boolean(),
    seed: fc.integer({ min: 0, max: 1000 }),
  });

  it("every moment of every place is busy, starved, blocked or down, and units in the line x hours are what they spend there", () => {
    fc.assert(
      fc.property(anyLine, ({ times, places, variation, flow, breaks, seed }) => {
        const { line, plan } = lineOf(
          times,
          `variation: ${variation}\n${flow}${breaks ? "\nbreakdowns: {S1: {every: 20 min, lasts: 5 min}}" : ""}`,
        );
        const stations = plan.stations.map((station, at) => ({ ...station, places: places[at]! }));
        const [run] = runsOf({ line, plan: { stations } }, { seed, hours: 5, lineCycle: 40 });
        for (const [at, station] of run!.stations.entries())
          expect(STATES.reduce((sum, state) => sum + station.times[state], 0)).toBe(places[at]! * 5 * 3.6e9);
        // Little's law, exact over a run that starts empty: J. D. C. Little, Operations Research 9 (1961).
        expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
      }),
      { numRuns: 60, seed: 2 },
    );
  });

  it("the same seed gives the same answer, another seed another", async () => {
    const line = lineOf([30, 30, 30], "variation: {shape: lognormal, cv: 50 %}");
    const [one, same, other] = [3, 3, 4].map((seed) => runsOf(line, { seed, hours: 20, replications: 3 }));
    expect(same).toEqual(one);
    expect(other).not.toEqual(one);
  });

  it("random numbers are the same on every machine", () => {
    const line = lineOf(
      [30, 40],
      "variation: {shape: lognormal, cv: 50 %}\nbreakdowns: {S2: {every: 1 h, lasts: 5 min}}",
    );
    const [run] = runsOf(line, { seed: 7, hours: 20 });
    expect(run).toMatchInlineSnapshot(`
      {
        "left": 1495,
        "passThrough": 136235170703,
        "stations": [
          {
            "overruns": 0,
            "times": {
              "blocked": 27208911668,
              "busy": 44791088332,
              "down": 0,
              "starved": 0,
            },
            "units": 1497,
          },
          {
            "overruns": 0,
            "times": {
              "blocked": 0,
              "busy": 58986554547,
              "down": 5310536153,
              "starved": 7702909300,
            },
            "units": 1496,
          },
        ],
        "unfinished": 61919997,
        "unitTime": 136297090700,
      }
    `);
  });
});

describe("A station that breaks down", () => {
  it("is down for what a breakdown lasts, as often as its working time says", async () => {
    const line = lineOf([60], "breakdowns: {S1: {every: 50 min, lasts: 10 min}}");
    const { answer, mean, halfWidth } = await simulated(line, { hours: 400, replications: 10 });
    expect(toNumber(answer.stations[0]!.shares.down)).toBeCloseTo(1 / 6, 2);
    expect(Math.abs(mean - 50)).toBeLessThan(2 * halfWidth!);
  });

  it("stops a line without buffers as often as all its stations together", async () => {
    const line = lineOf(
      [60, 60, 60],
      "pacing: indexing\nbreakdowns: {S1: {every: 200 h, lasts: 3 min}, S2: {every: 200 h, lasts: 3 min}, S3: {every: 200 h, lasts: 3 min}}",
    );
    const { mean, halfWidth } = await simulated(line, { hours: 2000, replications: 10 });
    // Breakdowns hardly meet: 1 / (1 + 3 x lasts / every).
    expect(Math.abs(mean - 60 / (1 + (3 * 3) / 12000))).toBeLessThan(2 * halfWidth! + 0.002);
  });
});

it("The same line the other way round makes as much", async () => {
  const length = { hours: 100, warmUp: 4, replications: 20 };
  const also = "variation: {shape: exponential}";
  const one = await simulated(lineOf([40, 60, 50], `${also}\nbuffers: {after S1: 2}`), length);
  const other = await simulated(lineOf([50, 60, 40], `${also}\nbuffers: {after S2: 2}`), {
    ...length,
    seed: 2,
  });
  // Reversibility of serial lines: G. Yamazaki and H. Sakasegawa, Management Science 21 (1975), from memory.
  expect(Math.abs(one.mean - other.mean)).toBeLessThan(1.5 * (one.halfWidth! + other.halfWidth!));
});

it("Units that take longer than the line cycle are overruns", async () => {
  const line = lineOf([60], "variation: {shape: exponential}");
  const { answer } = await simulated(line, { hours: 400, replications: 5, lineCycle: 120 });
  expect(toNumber(answer.stations[0]!.overrun!)).toBeCloseTo(Math.exp(-2), 2);
});
