import fc from "fast-check";
import { expect, it } from "vitest";
import { allFollowers } from "../../../src/line/reach.js";
import { layOutWork, withoutPace } from "../../../src/solve/lay-out-work.js";
import { leastTimes } from "../../../src/solve/level/least-times.js";
import { fromParts } from "../../../src/solve/parts.js";
import { compare, ratio } from "../../../src/time/ratio.js";
import { scheduleCases } from "../../tools/schedule-cases.js";
import { everySchedule } from "./every-schedule.js";

/** Of a microsecond: shares, visits and units of every kind are whole in them. */
const PARTS = 3600;

it("No order of any station ends sooner than its tasks take at the least, waiting for machines among it", () => {
  let waiting = 0;
  fc.assert(
    fc.property(scheduleCases({ fewest: 3, most: 6 }), ({ line }) => {
      const { schedule } = layOutWork(line, withoutPace(line));
      if (schedule === null || line.tasks.some(({ side }) => side !== null)) return;
      const times = leastTimes(schedule);
      for (const tasks of stationsOf(line.before)) {
        const least = fromParts(
          line,
          tasks.reduce((sum, task) => sum + times[task]!, 0),
        );
        const soonest = Math.min(...everySchedule(line, tasks, 1, PARTS).map(({ dwell }) => dwell));
        expect(compare(least, ratio(Math.round(soonest), PARTS))).toBeLessThanOrEqual(0);
      }
      if (times.some((time, task) => compare(fromParts(line, time), line.tasks[task]!.load) > 0)) waiting++;
    }),
    { seed: 5, numRuns: 60 },
  );
  expect(waiting).toBeGreaterThan(10);
});

/** Every set of tasks that may be a station: what lies between two of them is one of them. */
function stationsOf(before: readonly (readonly number[])[]): number[][] {
  const followers = allFollowers(before);
  const all = [...before.keys()];
  return Array.from({ length: 2 ** all.length - 1 }, (_, bits) =>
    all.filter((task) => (((bits + 1) >> task) & 1) === 1),
  ).filter((tasks) =>
    all.every(
      (task) =>
        tasks.includes(task) ||
        !tasks.some((one) => followers.has(one, task)) ||
        !tasks.some((two) => followers.has(task, two)),
    ),
  );
}
