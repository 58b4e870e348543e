import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLine } from "../../../src/line/read-line.js";
import { findSlowingWaits } from "../../../src/plan/check/check-waits.js";
import { heldCycle } from "../../../src/plan/figures/held-cycle.js";
import { unitsPerHour } from "../../../src/plan/figures/output.js";
import { slowingWaits } from "../../../src/plan/figures/waits-in-line.js";
import { measurePlan } from "../../../src/plan/measure.js";
import { ONE_PERSON, planOf } from "../../../src/plan/plan.js";
import type { Run } from "../../../src/simulate/watched-line.js";
import { paceFromCycle } from "../../../src/time/pace.js";
import { compare, ratio, toNumber, ZERO } from "../../../src/time/ratio.js";
import { runsOf, simulated } from "./simulated.js";

interface Station {
  readonly time: number;
  /** Stations without work before it. */
  readonly empty: number;
  readonly places: number;
}

interface WaitBetween {
  readonly from: number;
  readonly to: number;
  readonly minutes: number;
}

/** A line that moves together, a task at each station, and how its units wait. */
function pacedLine(
  stations: readonly Station[],
  waits: readonly WaitBetween[],
  flow: string,
  more = "",
  times = stations.map(({ time }) => `, time: ${time}`),
) {
  const tasks = stations.map((_, at) => {
    const after = waits
      .filter(({ to }) => to === at)
      .map(({ from, minutes }) => `{task: t${from}, wait: ${minutes} min}`);
    const before = at === 0 ? [] : [`t${at - 1}`];
    return `  t${at}: {after: [${[...before, ...after].join(", ")}]${times[at]}}`;
  });
  const text = `unit: s\nmax-places: 9\n${flow}\n${more}\ntasks:\n${tasks.join("\n")}\n`;
  const { line, findings } = readLine("line.yaml", text);
  if (line === null) throw new Error(JSON.stringify(findings));
  let number = 0;
  const plan = {
    stations: stations.map(({ empty, places }, at) => {
      number += at === 0 ? 1 : empty + 1;
      return { ...ONE_PERSON, id: `S${number}`, tasks: [at], places };
    }),
  };
  return { line, plan };
}

const HOURS = 200;
const unitsAt = (of: ReturnType<typeof pacedLine>, lineCycle: number) =>
  runsOf(of, { hours: HOURS, warmUp: 20, lineCycle })[0]!.left;

/** What the line may make in that time by steady moves; the window cuts a few units off. */
const isMade = (units: number, cycle: number, off: number) => Math.abs(units - (HOURS * 3600) / cycle) <= off;

const FLOWS = ["pacing: indexing", "pacing: moving", "pacing: moving\ndrift-room: 25 s"];
const CYCLE = 60;

describe("Where nothing varies, on a line that moves together", () => {
  const anyStation = fc.record({
    time: fc.integer({ min: 1, max: CYCLE }),
    empty: fc.integer({ min: 0, max: 3 }),
    places: fc.constantFrom(1, 1, 2),
  });
  const anyWaits = (count: number) =>
    fc.array(
      fc
        .record({
          from: fc.integer({ min: 0, max: count - 2 }),
          far: fc.integer({ min: 1, max: count - 1 }),
          minutes: fc.integer({ min: 1, max: 6 }),
        })
        .map(({ from, far, minutes }) => ({ from, to: Math.min(count - 1, from + far), minutes })),
      { minLength: 1, maxLength: 3 },
    );
  const anyLine = fc
    .array(anyStation, { minLength: 2, maxLength: 5 })
    .chain((stations) => fc.record({ stations: fc.constant(stations), waits: anyWaits(stations.length) }));

  it("a wait is told of exactly where the simulated line falls short of its cycle, and it then makes what is told", () => {
    let [short, kept] = [0, 0];
    fc.assert(
      fc.property(anyLine, fc.constantFrom(...FLOWS), ({ stations, waits }, flow) => {
        const of = pacedLine(stations, waits, flow);
        const units = unitsAt(of, CYCLE);
        const told = slowingWaits(of.line, { lineCycle: ratio(CYCLE * 1e6) }, of.plan);
        if (told.length === 0) {
          kept++;
          expect(units).toBe((HOURS * 3600) / CYCLE);
        } else {
          short++;
          const cycle = toNumber(told[0]!.cycle!) / 1e6;
          expect(cycle).toBeGreaterThan(CYCLE);
          expect(units).toBeLessThan((HOURS * 3600) / CYCLE);
          expect([units, cycle, isMade(units, cycle, 30)]).toEqual([units, cycle, true]);
        }
      }),
      { numRuns: 150, seed: 1 },
    );
    // Both happen often enough to tell something.
    expect(Math.min(short, kept)).toBeGreaterThan(30);
  });

  it("a plan makes as many as it says are possible where nothing else gives the pace", () => {
    let held = 0;
    fc.assert(
      fc.property(anyLine, fc.constantFrom(...FLOWS), ({ stations, waits }, flow) => {
        const of = pacedLine(stations, waits, flow);
        const { cycleOfPlan, outputCycle } = measurePlan(of.line, paceFromCycle(CYCLE * 1e6), of.plan);
        const [units] = runsOf(of, { hours: 20, warmUp: 10 });
        const possible = toNumber(unitsPerHour(of.line, outputCycle)!) * 20;
        if (compare(outputCycle, cycleOfPlan) > 0) held++;
        expect([units!.left, possible, Math.abs(units!.left - possible) <= 30]).toEqual([
          units!.left,
          possible,
          true,
        ]);
      }),
      { numRuns: 60, seed: 4 },
    );
    expect(held).toBeGreaterThan(10);
  });

  it("a unit is in the line, and units are in a wait, as the figures of the plan say", () => {
    let held = 0;
    fc.assert(
      fc.property(anyLine, fc.constantFrom(...FLOWS), ({ stations, waits }, flow) => {
        const of = pacedLine(stations, waits, flow);
        const measures = measurePlan(of.line, paceFromCycle(CYCLE * 1e6), of.plan);
        const [run] = runsOf(of, { hours: 100, warmUp: 20, lineCycle: CYCLE });
        const through = run!.passThrough / run!.left;
        expect(Math.abs(through / toNumber(measures.leadTime) - 1)).toBeLessThan(0.003);
        const isHeld = compare(measures.leadTimeOfWaits ?? ZERO, ZERO) > 0;
        if (isHeld) held++;
        expect(isHeld).toBe(slowingWaits(of.line, { lineCycle: ratio(CYCLE * 1e6) }, of.plan).length > 0);
        // Little (1961): units in a wait are its time x how many come.
        for (const { wait, units, fixtures } of measures.waiting ?? []) {
          expect(fixtures).toBe(0);
          expect(Math.abs(((wait.wait / 100) * run!.left) / 3.6e9 / toNumber(units) - 1)).toBeLessThan(0.01);
        }
      }),
      { numRuns: 60, seed: 6 },
    );
    expect(held).toBeGreaterThan(10);
  });

  const anyMix = anyLine.chain((plain) =>
    fc.record({
      plain: fc.constant(plain),
      // Of the second model at each station: its time as a share of the first one's, or no such task.
      other: fc.array(fc.constantFrom("-", 0.2, 0.5, 1), { minLength: 5, maxLength: 5 }),
      everies: fc.array(fc.constantFrom(1, 1, 1, 2, 3), { minLength: 5, maxLength: 5 }),
      sequence: fc.array(fc.constantFrom("city", "cargo"), { minLength: 2, maxLength: 5 }),
    }),
  );

  it("units of several models, and with work of every so many, make what is told of them on average", () => {
    let short = 0;
    fc.assert(
      fc.property(anyMix, fc.constantFrom(...FLOWS), ({ plain, other, everies, sequence }, flow) => {
        const models = ["city", "cargo", ...sequence];
        const tasks = plain.stations.map(({ time }, at) => {
          const also = other[at] === "-" ? "-" : Math.max(1, Math.round(time * (other[at] as number)));
          return `, every: ${everies[at]}, time: {city: ${time}, cargo: ${also === "-" ? '"-"' : also}}`;
        });
        const share = (model: string) => models.filter((each) => each === model).length;
        const more = `models: {city: ${share("city")}, cargo: ${share("cargo")}}\nsequence: [${models.join(", ")}]`;
        const of = pacedLine(plain.stations, plain.waits, flow, more, tasks);
        const cycle = toNumber(heldCycle(of.line, of.plan, ratio(CYCLE * 1e6))) / 1e6;
        const [{ left: units, passThrough }] = runsOf(of, { hours: HOURS, warmUp: 20, lineCycle: CYCLE }) as [
          Run,
        ];
        const { leadTime } = measurePlan(of.line, paceFromCycle(CYCLE * 1e6), of.plan);
        expect(Math.abs(passThrough / units / toNumber(leadTime) - 1)).toBeLessThan(0.01);
        if (cycle > CYCLE) short++;
        expect([units, cycle, isMade(units, cycle, 30)]).toEqual([units, cycle, true]);
      }),
      { numRuns: 100, seed: 5 },
    );
    expect(short).toBeGreaterThan(30);
  });

  it("so many stations as are told keep the cycle, and one fewer do not", () => {
    const anyWait = fc.record({
      first: fc.integer({ min: 1, max: CYCLE }),
      second: fc.integer({ min: 1, max: CYCLE }),
      places: fc.constantFrom(1, 2),
      minutes: fc.integer({ min: 2, max: 9 }),
    });
    fc.assert(
      fc.property(anyWait, fc.constantFrom(...FLOWS), ({ first, second, places, minutes }, flow) => {
        const withEmpty = (empty: number) =>
          pacedLine(
            [
              { time: first, empty: 0, places },
              { time: second, empty, places: 1 },
            ],
            [{ from: 0, to: 1, minutes }],
            flow,
          );
        const [told] = slowingWaits(withEmpty(0).line, { lineCycle: ratio(CYCLE * 1e6) }, withEmpty(0).plan);
        const needs = told?.needs ?? 1;
        expect(unitsAt(withEmpty(needs - 1), CYCLE)).toBe((HOURS * 3600) / CYCLE);
        if (needs > 1) expect(unitsAt(withEmpty(needs - 2), CYCLE)).toBeLessThan((HOURS * 3600) / CYCLE);
      }),
      { numRuns: 60, seed: 2 },
    );
  });

  it("a unit stands at each station that the plan leaves empty", () => {
    const of = pacedLine(
      [
        { time: 50, empty: 0, places: 1 },
        { time: 50, empty: 3, places: 1 },
      ],
      [],
      "pacing: moving",
    );
    const [run] = runsOf(of, { hours: 1, lineCycle: 60 });
    // The first unit enters at 0 and leaves after five stations, at 300 s.
    expect([run!.left, run!.passThrough]).toEqual([56, 56 * 300e6]);
  });
});

describe("A wait is told of with what it needs", () => {
  const ofStations = (...times: number[]) => times.map((time) => ({ time, empty: 0, places: 1 }));

  /*
   * By hand: work of 100 s, a wait of 300 s and work of 100 s are 500 s, and places at 120 s each are wanted from the first station to the second:
   * 500 / 120 = 4.17, so 5 places, 4 stations from the one to the other. Two places give 250 s a unit, 14.4 units an hour in place of 30.
   */
  it("at the place of the wait, with how many stations and what the line makes", () => {
    const { line, plan } = pacedLine(
      ofStations(100, 100),
      [{ from: 0, to: 1, minutes: 5 }],
      "pacing: moving",
      "demand: 30 per hour",
    );
    const [told] = findSlowingWaits(line, { lineCycle: ratio(120e6) }, plan);
    expect(told).toMatchObject({
      rule: "wait-in-line",
      severity: "warning",
      task: "t1",
      station: "S2",
      place: { line: 7 },
      amount: ratio(3),
      message:
        "t1 waits 5 min for t0, and units that move together wait in the line; S2 stands 1 station after S1, and 4 are needed at a line cycle of 120 s; the line then makes at most 14.4 good units an hour instead of 30: give the wait `stations: 4`, or put 3 more between S1 and S2, empty or with work",
    });
  });

  it("of the units that have it only, and of those with work of every so many units", () => {
    const { line } = readLine(
      "line.yaml",
      `unit: s
pacing: moving
models: {city: 50 %, cargo: 50 %}
sequence: [city, cargo]
tasks:
  glue: {time: {city: 50, cargo: "-"}}
  press: {time: {city: 50, cargo: "-"}, after: [{task: glue, wait: 5 min}]}
  seal: {time: 10, every: 4, after: press}
  cure: {time: 10, every: 4, after: [{task: seal, wait: 5 min}]}
`,
    );
    const inOrder = ["glue", "press", "seal", "cure"].map((id) =>
      line!.tasks.findIndex((task) => task.id === id),
    );
    const plan = planOf(inOrder.map((task) => [task]));
    const told = findSlowingWaits(line!, { lineCycle: ratio(60e6) }, plan).map(({ message }) => message);
    expect(told).toHaveLength(2);
    expect(told[0]).toContain(
      "6 are needed for units of city at a line cycle of 60 s; the line then makes at most 18 good units an hour",
    );
    expect(told[1]).toContain(
      "are needed for units with the work of every so many units at a line cycle of 60 s",
    );
    // No unit waits for what it does not get: cargo passes at the pace.
    const cargo = runsOf(
      { line: { ...line!, sequence: [0] }, plan: { stations: plan.stations.slice(0, 2) } },
      { hours: 1, warmUp: 1, lineCycle: 60 },
    );
    expect(cargo[0]!.left).toBe(60);
  });

  it("and not where units wait in fixtures beside the line", () => {
    const { line, plan } = pacedLine(ofStations(50, 50), [{ from: 0, to: 1, minutes: 9 }], "pacing: unpaced");
    expect(findSlowingWaits(line, { lineCycle: ratio(60e6) }, plan)).toEqual([]);
    expect(runsOf({ line, plan }, { hours: 10, warmUp: 1 })[0]!.left).toBe(720);
  });
});

describe("Where tests send units back or scrap them behind the wait, on a line that moves together", () => {
  /*
   * By hand: 10 % are scrapped, so that 1 / 0.9 units wait for a good one. Work of 50 s, a wait of 5 min and work of 50 s fill two places: 200 s a unit,
   * 222.2 s a good one.
   */
  it.each([
    ["{scrap: 10 %}", 1 / 0.9],
    ["{fail: 20 %, repair: 1 min, return-to: t0, retest: once}", 1.2],
  ])("%s, each unit that comes waits", async (test, often) => {
    const stations = [50, 50, 50].map((time) => ({ time, empty: 0, places: 1 }));
    const times = stations.map(({ time }, at) => `, time: ${time}${at === 2 ? `, test: ${test}` : ""}`);
    const of = pacedLine(stations, [{ from: 0, to: 1, minutes: 5 }], "pacing: indexing", "", times);
    const { outputCycle } = measurePlan(of.line, paceFromCycle(CYCLE * 1e6), of.plan);
    expect(toNumber(outputCycle) / 1e6).toBeCloseTo(200 * often, 3);
    const { mean, halfWidth } = await simulated(of, {
      hours: 100,
      warmUp: 5,
      replications: 8,
      lineCycle: CYCLE,
    });
    expect(Math.abs(mean - 3600 / (200 * often))).toBeLessThan(2 * halfWidth!);
    const [told] = findSlowingWaits(of.line, { lineCycle: ratio(CYCLE * 1e6) }, of.plan);
    const carrier = (CYCLE / often).toFixed(3).replace(/\.?0+$/u, "");
    expect(told!.message).toContain(`at a line cycle of 60 s, and a carrier every ${carrier} s`);
  });

  it("a unit is in it as long as its plan says where no wait holds it up", async () => {
    const stations = [50, 50, 50].map((time) => ({ time, empty: 0, places: 1 }));
    const times = stations.map(({ time }, at) => `, time: ${time}${at === 2 ? ", test: {scrap: 10 %}" : ""}`);
    const of = pacedLine(stations, [], "pacing: indexing", "", times);
    const { leadTime } = measurePlan(of.line, paceFromCycle(CYCLE * 1e6), of.plan);
    // Three places, and a carrier every 54 s.
    expect(toNumber(leadTime) / 1e6).toBeCloseTo(162, 3);
    const { answer } = await simulated(of, { hours: 20, warmUp: 5, replications: 2, lineCycle: CYCLE });
    expect(toNumber(answer.passThrough!) / 1e6).toBeCloseTo(162, 0);
  });
});
