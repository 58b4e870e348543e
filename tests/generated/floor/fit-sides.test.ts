import fc from "fast-check";
import { expect, it } from "vitest";
import type { Side } from "../../../src/line/line.js";
import { workOffSides } from "../../../src/plan/verify/side-times.js";
import { fitSides } from "../../../src/solve/station/sides/fit-sides.js";
import type { SideProblem, WorkSide } from "../../../src/solve/station/sides/side-problem.js";
import { everyModelOrder } from "./every-model-order.js";

const task = fc.record({
  load: fc.integer({ min: 0, max: 30 }),
  side: fc.constantFrom<Side>("left", "right", "either", "either"),
  people: fc.constantFrom(1, 1, 1, 2),
  /** How many tasks back the one stands that this one waits for; 0 where it waits for none. */
  back: fc.integer({ min: 0, max: 4 }),
});

it("fits the tasks of a station to two sides exactly where some order and some choice of sides does, by one person first", () => {
  const seen = { one: 0, two: 0, none: 0 };
  fc.assert(
    fc.property(
      fc.array(task, { minLength: 1, maxLength: 6 }),
      fc.integer({ min: 0, max: 120 }),
      (rows, limit) => {
        const loads = rows.map(({ load }) => load);
        const before = rows.map(({ back }, at) => (back > 0 && at - back >= 0 ? [at - back] : []));
        const sides = rows.map(({ side, people }): WorkSide => (people > 1 ? "both" : side));
        const tasks = [...rows.keys()];
        const ways = everyModelOrder({ before, tasks: rows }, tasks, [loads]);
        const endBy = (crew: number) =>
          Math.min(...ways.filter((way) => way.crew === crew).map(({ ends }) => ends[0]!));
        const ends = { one: endBy(1), two: endBy(2) };
        const schedule = fitSides(problemOf([loads], sides, before), tasks, {
          mean: limit,
          models: [ENDLESS],
        });
        if (schedule === null) {
          expect(Math.min(ends.one, ends.two)).toBeGreaterThan(limit);
          seen.none++;
          return;
        }
        const crew = ends.one <= limit ? 1 : 2;
        expect([schedule.crew, schedule.finish]).toEqual([crew, crew === 1 ? ends.one : ends.two]);
        seen[crew === 1 ? "one" : "two"]++;
        // Worked off in its order, the schedule ends as it says.
        const ordered = schedule.tasks.map((each) => BigInt(loads[each]!));
        const { finish } = workOffSides(schedule.tasks, schedule.sides, ordered, before);
        expect(Number(finish)).toBe(schedule.finish);
        expect([...schedule.tasks].sort((one, two) => one - two)).toEqual(tasks);
        expect(schedule.sides.every((side, at) => isFor(side, sides[schedule.tasks[at]!]!))).toBe(true);
      },
    ),
    { seed: 91, numRuns: 600 },
  );
  expect(Math.min(seen.one, seen.two, seen.none)).toBeGreaterThan(60);
});

const isFor = (side: WorkSide, wanted: WorkSide) =>
  side === wanted || (wanted === "either" && side !== "both");

const ENDLESS = Number.POSITIVE_INFINITY;

/** A row for each model, and nothing done again. */
const problemOf = (
  rows: readonly (readonly number[])[],
  sides: readonly WorkSide[],
  before: readonly (readonly number[])[],
): SideProblem => ({
  sides,
  rows,
  modelOf: [...rows.keys()],
  isBuilt: rows.map(() => true),
  again: rows.map((row) => row.map(() => 0)),
  before,
});

it("takes the mean of what the models take, each with times of its own under the order and the sides of all, and holds every one to its limit", () => {
  const seen = { one: 0, two: 0, none: 0, held: 0, later: 0 };
  const number = (most: number) => fc.integer({ min: 0, max: most });
  const rows = fc.array(fc.tuple(task, number(30), number(30)), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(rows, number(200), fc.option(number(100), { nil: ENDLESS }), (drawn, mean, most) => {
      const tasks = [...drawn.keys()];
      const models = [drawn.map(([, one]) => one), drawn.map(([, , two]) => two)];
      const loads = drawn.map(([, one, two]) => one + two);
      const before = drawn.map(([{ back }], at) => (back > 0 && at - back >= 0 ? [at - back] : []));
      const sides = drawn.map(([{ side, people }]): WorkSide => (people > 1 ? "both" : side));
      const ways = everyModelOrder({ before, tasks: drawn.map(([each]) => each) }, tasks, [
        loads,
        ...models,
      ]).map(({ crew, ends: [ofMeanTimes, ...ends] }) => ({
        crew,
        ends,
        finish: ends[0]! + ends[1]!,
        ofMeanTimes: ofMeanTimes!,
      }));
      const inMean = ways.filter(({ finish }) => finish <= mean);
      const held = inMean.filter(({ ends }) => Math.max(...ends) <= most);
      const schedule = fitSides(problemOf(models, sides, before), tasks, { mean, models: [most, most] });
      if (inMean.length > 0 && held.length === 0) seen.held++;
      if (schedule === null) {
        expect(held).toEqual([]);
        seen.none++;
        return;
      }
      const crew = Math.min(...held.map((each) => each.crew));
      const ofCrew = held.filter((each) => each.crew === crew);
      const least = Math.min(...ofCrew.map(({ finish }) => finish));
      // Mean times end sooner: no bound of them is too high, and no station time either.
      if (least > Math.min(...ofCrew.map(({ ofMeanTimes }) => ofMeanTimes))) seen.later++;
      expect([schedule.crew, schedule.finish]).toEqual([crew, least]);
      seen[crew === 1 ? "one" : "two"]++;
      // Worked off in its order, each model ends as the schedule says.
      const ends = models.map((own) => {
        const ordered = schedule.tasks.map((each) => BigInt(own[each]!));
        return Number(workOffSides(schedule.tasks, schedule.sides, ordered, before).finish);
      });
      expect(schedule.ends).toEqual(ends);
      expect(schedule.finish).toBe(ends[0]! + ends[1]!);
      expect(Math.max(...ends)).toBeLessThanOrEqual(most);
    }),
    { seed: 92, numRuns: 600 },
  );
  expect(Math.min(seen.one, seen.two, seen.none, seen.held, seen.later)).toBeGreaterThan(30);
});
