import fc from "fast-check";
import { expect, test } from "vitest";
import { rampLine } from "../../../src/answer/ramp/ramp-line.js";
import { LearningCurve } from "../../../src/line/learning-curve.js";
import { measurePlan } from "../../../src/plan/measure.js";
import { planOf } from "../../../src/plan/plan.js";
import { paceFromCycle } from "../../../src/time/pace.js";
import { add, compare, multiply, ONE, ratio, ZERO } from "../../../src/time/ratio.js";
import { lineOf } from "../../tools/line-of.js";

const percent = fc.integer({ min: 51, max: 100 });
const learning = fc.record({
  share: percent,
  by: fc.constantFrom("unit", "average"),
  timeAt: fc.integer({ min: 2, max: 60 }),
  least: fc.integer({ min: 0, max: 100 }),
  built: fc.integer({ min: 0, max: 40 }),
});

/** Tasks one after another in stations of a few, each learned in its own way; seconds. */
const stations = fc.array(
  fc.array(fc.record({ time: fc.integer({ min: 1, max: 90 }), learning: fc.option(learning) }), {
    minLength: 1,
    maxLength: 3,
  }),
  { minLength: 1, maxLength: 4 },
);

type Stations = ReturnType<typeof stations.generate>["value"];

function lineAndPlan(given: Stations) {
  const rows: string[] = [];
  const tasks = given.map((station) =>
    station.map(({ time, learning: how }) => {
      const said =
        how === null
          ? ""
          : `, learning: {share: ${how.share} %, by: ${how.by}, time-at: ${how.timeAt}, least: ${how.least} %, built: ${how.built}}`;
      const after = rows.length === 0 ? "" : `, after: t${rows.length - 1}`;
      return rows.push(`  t${rows.length}: {time: ${time}${after}${said}}`) - 1;
    }),
  );
  return { line: lineOf(`unit: s\ntasks:\n${rows.join("\n")}\n`), plan: planOf(tasks) };
}

const pace = paceFromCycle(100_000_000);
const terms = { each: true, goesOn: async () => true };

test("A station takes the sum of its tasks' times at each unit, the batch the sum of its units, and no unit more than the one before", async () => {
  await fc.assert(
    fc.asyncProperty(stations, fc.integer({ min: 1, max: 80 }), async (given, units) => {
      const { line, plan } = lineAndPlan(given);
      const { rows, batch, paceFrom } = await rampLine(line, pace, null, plan, { ...terms, units });
      expect(rows.length).toBe(units);
      for (const { unit, times, cycle } of rows) {
        const timesOf = plan.stations.map(({ tasks }) =>
          tasks
            .map((task) => {
              const { times, learning: how } = line.tasks[task]!;
              return how === null ? times[0]! : new LearningCurve(how).timeOf(times[0]!, how.built + unit);
            })
            .reduce((sum, each) => sum + each, 0),
        );
        expect(times).toEqual(timesOf.map((each) => ratio(each)));
        expect(cycle).toEqual(ratio(Math.max(...timesOf)));
      }
      expect(batch.work).toEqual(rows.flatMap(({ cycles }) => cycles).reduce(add, ZERO));
      expect(batch.line).toEqual(rows.map(({ cycle }) => cycle).reduce(add, ZERO));
      for (const [at, { cycle }] of rows.entries())
        if (at > 0) expect(compare(cycle, rows[at - 1]!.cycle)).toBeLessThanOrEqual(0);
      const first = rows.find(({ cycle }) => compare(cycle, pace.lineCycle) <= 0);
      expect(paceFrom?.unit).toBe(first?.unit);
    }),
    { numRuns: 60, seed: 20 },
  );
});

test("Where all of the time remains, every unit takes what the plan takes", async () => {
  await fc.assert(
    fc.asyncProperty(stations, async (given) => {
      const same = given.map((station) =>
        station.map(({ time, learning: how }) => ({ time, learning: how && { ...how, share: 100 } })),
      );
      const { line, plan } = lineAndPlan(same);
      const { rows } = await rampLine(line, pace, null, plan, { ...terms, units: 4 });
      const { cycleOfPlan } = measurePlan(line, pace, plan);
      expect(rows.map(({ cycle }) => cycle)).toEqual([cycleOfPlan, cycleOfPlan, cycleOfPlan, cycleOfPlan]);
    }),
    { numRuns: 30, seed: 21 },
  );
});

test("By average, the first n units take n times their mean, first x n^log2(share), but for half a microsecond each", () => {
  fc.assert(
    fc.property(
      percent,
      fc.integer({ min: 1, max: 600_000_000 }),
      fc.integer({ min: 0, max: 11 }),
      (share, first, power) => {
        const said = { share: ratio(share, 100), timeAt: 1, least: ZERO };
        const wright = new LearningCurve({ ...said, by: "average" });
        const n = 2 ** power;
        let total = 0;
        for (let unit = 1; unit <= n; unit++) total += wright.timeOf(first, unit);
        const mean = Array.from({ length: power }, () => ratio(share, 100)).reduce(multiply, ONE);
        const exact = multiply(multiply(mean, ratio(first)), ratio(n));
        expect(compare(ratio(2 * total - n, 2), exact)).toBeLessThanOrEqual(0);
        expect(compare(ratio(2 * total + n, 2), exact)).toBeGreaterThanOrEqual(0);
      },
    ),
    { numRuns: 100, seed: 22 },
  );
});
