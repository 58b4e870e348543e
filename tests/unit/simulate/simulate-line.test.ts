import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { planOf } from "../../../src/plan/plan.js";
import { simulateLine } from "../../../src/simulate/simulate-line.js";
import type { State } from "../../../src/simulate/watched-line.js";
import { ratio, toNumber, ZERO } from "../../../src/time/ratio.js";
import { GIVEN, lineOf, runsOf, simulated } from "./simulated.js";

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

  it("the room before a slow station is full, and a unit waits there for as many services as it holds", async () => {
    const { answer } = await simulated(lineOf([50, 60, 55], "buffer: 2"), { hours: 10, warmUp: 1 });
    // Before S2 a unit comes as one leaves: two services of 60 s. Before S3, which is faster, none waits.
    expect(answer.buffers).toEqual([
      { after: "S1", before: "S2", size: 2, mean: ratio(2), most: 2, waiting: ratio(1), wait: ratio(120e6) },
      { after: "S2", before: "S3", size: 2, mean: ratio(0), most: 0, waiting: ratio(0), wait: ratio(0) },
    ]);
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

describe("Before a wait of 30 s and a station of 20 s there are three fixtures, and a station that is faster is held up:", () => {
  // 30 / 20 rounded up, and one: the second station never stands, and no unit more is in the line by the hour.
  it.each([0, 1, 10])("one of %d s", async (glue) => {
    const { line } = readLine(
      "line.yaml",
      `unit: s\ntasks:\n  glue: ${glue}\n  press: {time: 20, after: {task: glue, wait: 30 s}}\n`,
    );
    const of = { line: line!, plan: planOf([[0], [1]]) };
    const [run] = runsOf(of, { hours: 10, warmUp: 1 });
    expect(run!.stations[1]!.times).toMatchObject({ busy: 36_000e6, starved: 0 });
    expect(run!.stations[0]!.times).toMatchObject({
      busy: 1800 * glue * 1e6,
      blocked: (36_000 - 1800 * glue) * 1e6,
    });
    const { answer } = await simulated(of, { hours: 10, warmUp: 1 });
    // One is pressed, three are in fixtures, one is being glued or held: each is in the line for five times 20 s.
    expect([answer.workInProcess, answer.passThrough]).toEqual([ratio(5), ratio(100e6)]);
  });
});

it("A wait between two stations holds up a line that moves together", async () => {
  const { line, findings } = readLine(
    "line.yaml",
    "unit: s\npacing: indexing\ntasks:\n  glue: 60\n  press: {time: 60, after: {task: glue, wait: 5 min}}\n",
  );
  expect(line, JSON.stringify(findings)).not.toBeNull();
  const of = { line: line!, plan: planOf([[0], [1]]) };
  const [run] = runsOf(of, { hours: 7, warmUp: 7, lineCycle: 60 });
  /*
   * A unit that is glued by 60 s is pressed from 360 to 420 s. The next one is glued meanwhile, stands until 420 s, and is pressed at once then: two
   * units in 420 s, of which the first stands 300 s at the press before it is worked.
   */
  expect(run!.left).toBe(120);
  expect(run!.stations[1]!.times).toMatchObject({ waiting: 60 * 300e6, busy: 120 * 60e6 });
  const { answer } = await simulated(of, { hours: 7, warmUp: 7, lineCycle: 60 });
  expect([answer.canWait, answer.leftOut]).toEqual([true, []]);
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
    breaks: fc.constantFrom(null, "work", "clock"),
    seed: fc.integer({ min: 0, max: 1000 }),
  });

  it("every moment of every place is busy, starved, blocked or down, and units in the line x hours are what they spend there", () => {
    fc.assert(
      fc.property(anyLine, ({ times, places, variation, flow, breaks, seed }) => {
        const { line, plan } = lineOf(
          times,
          `variation: ${variation}\n${flow}${breaks === null ? "" : `\nbreakdowns: {S1: {every: 20 min, lasts: 5 min, of: ${breaks}}}`}`,
        );
        const stations = plan.stations.map((station, at) => ({ ...station, places: places[at]! }));
        const [run] = runsOf({ line, plan: { stations } }, { seed, hours: 5, lineCycle: 40 });
        for (const [at, station] of run!.stations.entries())
          expect(STATES.reduce((sum, state) => sum + station.times[state], 0)).toBe(places[at]! * 5 * 3.6e9);
        // Little's law, exact over a run that starts empty: J. D. C. Little, Operations Research 9 (1961).
        expect(run!.unitTime).toBe(run!.passThrough + run!.unfinished);
        if (flow !== "buffer: 2" || breaks === "clock") return;
        // Units are at a place, where it is busy, down or blocked, or in the room before the next station.
        const atPlaces = run!.stations.reduce(
          (sum, { times: { busy, down, blocked } }) => sum + busy + down + blocked,
          0,
        );
        const { rooms = [] } = run!;
        expect(run!.unitTime).toBe(rooms.reduce((sum, { unitTime }) => sum + unitTime, atPlaces));
        for (const { most, units, came, unitTime } of rooms) {
          expect(most).toBeLessThanOrEqual(2);
          expect(most).toBeGreaterThanOrEqual(unitTime / (5 * 3.6e9));
          expect(units).toBeLessThanOrEqual(came);
        }
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
        "lost": 0,
        "passThrough": 136235170703,
        "repairTime": 0,
        "repairs": 0,
        "scrapped": 0,
        "slices": [
          {
            "left": 157,
            "unitTime": 13520371579,
          },
          {
            "left": 144,
            "unitTime": 13431998327,
          },
          {
            "left": 144,
            "unitTime": 13863253048,
          },
          {
            "left": 157,
            "unitTime": 13553372661,
          },
          {
            "left": 135,
            "unitTime": 13567750225,
          },
          {
            "left": 152,
            "unitTime": 13704654190,
          },
          {
            "left": 163,
            "unitTime": 13588224005,
          },
          {
            "left": 137,
            "unitTime": 13645323865,
          },
          {
            "left": 145,
            "unitTime": 13761547424,
          },
          {
            "left": 161,
            "unitTime": 13660595376,
          },
        ],
        "stations": [
          {
            "overruns": 0,
            "times": {
              "blocked": 27208911668,
              "busy": 44791088332,
              "down": 0,
              "starved": 0,
              "waiting": 0,
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
              "waiting": 0,
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

describe("What would help a line,", () => {
  const asked = async (
    times: readonly number[],
    also: string,
    lineCycle: number | null = null,
    replications = 12,
  ) => {
    const { line, plan } = lineOf(times, also);
    const answer = await simulateLine(line, plan, {
      ...GIVEN,
      seed: 1,
      replications,
      hours: 40 * 3.6e9,
      warmUp: 2 * 3.6e9,
      lineCycle: lineCycle && lineCycle * 1e6,
      confidence: ratio(95, 100),
      asksWhatHelps: true,
      goesOn: async () => true,
    });
    return answer!.whatHelps!;
  };

  it("is ranked by reruns whose gains are those of exact rates: 2/3 without room, 3/4 with room for one", async () => {
    const { helps, planTo } = await asked([60, 60], "variation: {shape: exponential}");
    const buffer = helps.find(({ kind }) => kind === "buffer")!;
    // (B + 2) / (B + 3) of 60 an hour: 5 more.
    expect(Math.abs(toNumber(buffer.more.mean) - 5)).toBeLessThan(2 * toNumber(buffer.more.halfWidth!));
    expect(buffer.isShown).toBe(true);
    expect(helps.map(({ more }) => toNumber(more.mean))).toEqual(
      helps.map(({ more }) => toNumber(more.mean)).sort((one, two) => two - one),
    );
    expect(planTo).toBeNull();
  });

  it("shows no difference where nothing waits for room", async () => {
    const { helps } = await asked([20, 60], "variation: {shape: normal, cv: 5 %}\nbuffer: 3");
    expect(helps.map(({ kind, station, isShown }) => [kind, station, isShown])).toEqual([
      ["workplace", "S2", true],
      ["buffer", "S1", false],
    ]);
  });

  it("names what makes no difference in the order of the line, whatever the noise", async () => {
    const { helps } = await asked([20, 20, 20, 60], "variation: {shape: normal, cv: 5 %}\nbuffer: 1");
    expect(helps.map(({ kind, station }) => `${kind} ${station}`)).toEqual([
      "workplace S4",
      "buffer S1",
      "buffer S2",
      "buffer S3",
    ]);
  });

  it("is kept as far as it was run when the work is ended", async () => {
    const { line, plan } = lineOf([50, 60, 40], "variation: {shape: exponential}");
    const answer = await simulateLine(line, plan, {
      ...GIVEN,
      seed: 1,
      replications: 2,
      hours: 3.6e9,
      warmUp: 0,
      lineCycle: null,
      confidence: ratio(95, 100),
      asksWhatHelps: true,
      goesOn: async (_, rerun) => rerun < 2,
    });
    expect(answer!.whatHelps).toMatchObject({ changes: 5, isEnded: true, planTo: null });
    expect(answer!.whatHelps!.helps).toHaveLength(1);
  });

  it("is exact where nothing varies, and told by no single replication", async () => {
    // 60 an hour at S2; with two places there S1 sets the pace: 72 an hour.
    const sure = await asked([50, 60], "", null, 1);
    expect(sure.helps.map(({ kind, isShown, more }) => [kind, isShown, more.halfWidth])).toEqual([
      ["workplace", true, ZERO],
      ["buffer", false, ZERO],
    ]);
    expect(toNumber(sure.helps[0]!.more.mean)).toBe(12);
    const { helps } = await asked([50, 60], "variation: {shape: normal, cv: 5 %}", null, 1);
    expect(helps.map(({ isShown, more }) => [isShown, more.halfWidth])).toEqual([
      [false, null],
      [false, null],
    ]);
  });

  it("counts handling as no work: 48 s of 60 s less 4 s may grow to all of the 56 s", async () => {
    const { planTo } = await asked([48, 20], "handling: 4 s", 60);
    expect(planTo).toMatchObject({ now: ratio(6, 7), planTo: ratio(1), wanted: ratio(60) });
  });

  it("finds the share of the working time that meets the demand: all of it where nothing varies, 2/3 of it where two stations vary most", async () => {
    expect((await asked([50, 50], "", 60)).planTo).toMatchObject({ now: ratio(5, 6), planTo: ratio(1) });
    // Two exponential stations make 2/3 of a unit in the time of one, so 66 % leaves a unit in 0.99 of the line cycle.
    const { planTo } = (await asked([50, 50], "variation: {shape: exponential}", 60)).planTo!;
    expect([64, 65, 66]).toContain(Number(planTo!.num * 100n) / Number(planTo!.den));
  });
});

it("The station that limits is not named where several may be it", async () => {
  const alike = await simulated(lineOf([60, 60], "variation: {shape: exponential}\nbuffer: 20"), {
    hours: 50,
    replications: 5,
  });
  expect(alike.answer.bottleneck).toBeNull();
  expect(alike.answer.bottlenecks).toEqual(["S1", "S2"]);
  const one = await simulated(lineOf([40, 60], "variation: {shape: exponential}"), {
    hours: 50,
    replications: 5,
  });
  expect([one.answer.bottleneck, one.answer.bottlenecks]).toEqual(["S2", ["S2"]]);
});
