import fc from "fast-check";
import { expect, it } from "vitest";
import type { Side } from "../../../src/line/line.js";
import { workOffSides } from "../../../src/plan/verify/side-times.js";
import { fitSides, type WorkSide } from "../../../src/solve/floor/fit-sides.js";
import { everySideOrder } from "./every-side-order.js";

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
        const ends = everySideOrder({ before, tasks: rows }, tasks, loads);
        const schedule = fitSides({ sides, loads, before }, tasks, limit);
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
