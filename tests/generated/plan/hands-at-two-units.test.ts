import fc from "fast-check";
import { expect, it } from "vitest";
import { findHands } from "../../../src/plan/check/check-hands.js";
import { cycleOfPost } from "../../../src/plan/figures/cycle.js";
import type { Plan } from "../../../src/plan/plan.js";
import { postOf, postsOf } from "../../../src/plan/post.js";
import { paceFromCycle } from "../../../src/time/pace.js";
import { add, ceiling, compare, floor, multiply, type Ratio, ratio } from "../../../src/time/ratio.js";
import { floorLine, planFrom, s } from "../../tools/floor-line.js";

/** Times in half seconds. */
interface GridTask {
  readonly time: number;
  readonly machine: number;
  /** Whether it needs the task before it with what its machine runs. */
  readonly follows: boolean;
  readonly person: number;
}

const anyTask = fc.record({
  time: fc.constantFrom(0, 1, 2, 3, 3, 3, 3),
  machine: fc.constantFrom(0, 2, 3, 5, 6),
  follows: fc.constantFrom(true, true, true, true, true, false),
  person: fc.constantFrom(1, 1, 2),
});

const anyCase = fc.record({
  tasks: fc.array(anyTask, { minLength: 2, maxLength: 3 }),
  holds: fc.constantFrom(2, 2, 2, 3),
  isShared: fc.constantFrom(false, false, false, true),
  places: fc.constantFrom(1, 1, 1, 2),
  slack: fc.constantFrom(0, 0, 0, 0, 1),
});

/**
 * Whether so many units can be worked again and again in a period: every start of every task on the grid is tried. With times on the grid a
 * schedule that exists anywhere exists on it, as only whole differences are asked of the starts.
 */
function existsOnGrid(tasks: readonly GridTask[], units: number, period: number): boolean {
  const taken = { 1: new Set<number>(), 2: new Set<number>() } as Record<number, Set<number>>;
  const place = (unit: number, at: number, begin: number, starts: readonly number[]): boolean => {
    if (unit === units) return true;
    const task = tasks[at];
    if (task === undefined) {
      const first = Math.min(...starts);
      const last = Math.max(...starts.map((start, each) => start + tasks[each]!.time + tasks[each]!.machine));
      return last - first <= period && fromAny(unit + 1, begin);
    }
    let earliest = begin;
    for (const [each, start] of starts.entries()) {
      const before = tasks[each]!;
      if (before.person === task.person) earliest = Math.max(earliest, start + before.time);
      if (task.follows && each === at - 1)
        earliest = Math.max(earliest, start + before.time + before.machine);
    }
    // Tasks of the other person may begin before the first one; begin is the arrival.
    for (let start = earliest; start + task.time + task.machine <= begin + period; start++) {
      const slots = Array.from({ length: task.time }, (_, slot) => (start + slot) % period);
      const own = taken[task.person]!;
      if (new Set(slots).size < slots.length || slots.some((slot) => own.has(slot))) continue;
      for (const slot of slots) own.add(slot);
      const isFound = place(unit, at + 1, begin, [...starts, start]);
      for (const slot of slots) own.delete(slot);
      if (isFound) return true;
    }
    return false;
  };
  const fromAny = (unit: number, from = 0): boolean => {
    if (unit === units) return true;
    // The first unit may arrive at 0: all others move with it, and come in the order of their arrival.
    for (let begin = from; begin < (unit === 0 ? 1 : period); begin++)
      if (place(unit, 0, begin, [])) return true;
    return false;
  };
  return fromAny(0);
}

it("A warning of hands at two units comes exactly where no start on a grid fits, and its least line cycle is where one does", () => {
  const seen = { fits: 0, warned: 0 };
  fc.assert(
    fc.property(anyCase, ({ tasks: drawn, holds: room, isShared, places: more, slack }) => {
      const holds = drawn.length < 3 ? room : 2;
      // Longer periods would be too much to try.
      const places = holds === 2 && drawn.length < 3 ? more : 1;
      const tasks = drawn.map((each) => (isShared ? each : { ...each, person: 1 }));
      const rows = tasks.map(({ time, follows }, at) =>
        [`t${at} ${time / 2}`, ...(follows && at > 0 ? [`t${at - 1}`] : [])].join(" "),
      );
      const line = floorLine(rows, {
        tasks: Object.fromEntries(
          tasks.map(({ machine }, at) => [`t${at}`, { machineTime: s(machine / 2) }]),
        ),
        holds,
        maxPlaces: 2,
        maxCrew: isShared ? 2 : 1,
      });
      const ids = tasks.map(({ person }, at) => (isShared ? `t${at}/${person}` : `t${at}`));
      const row = `S1${places === 1 ? "" : ` x${places}`}: ${ids.join(" ")}`;
      const plan: Plan = planFrom(line, [row], isShared ? { S1: 2 } : {});
      const least = cycleOfPost(postOf(line, paceFromCycle(s(1)), plan.stations[0]!));
      // The tightest line cycle of whole half seconds that people and room keep on average, and a little more.
      const halves = Number(ceiling(multiply(least, ratio(2, 1_000_000)))) + slack;
      if (halves === 0) return;
      const periodAt = (cycle: number) => cycle * holds * places;
      const found = findHands(line, paceFromCycle(halves * 500_000), plan);
      const exists = existsOnGrid(tasks, holds, periodAt(halves));
      expect(found.length).toBe(exists ? 0 : 1);
      if (exists) {
        seen.fits++;
        return;
      }
      seen.warned++;
      const period = periodOf(add(found[0]!.amount!, ratio(halves * 500_000)), holds * places);
      // A period of whole half seconds is on the grid of the starts, one between is not.
      const [below, above] = [Number(ceiling(period)) - 1, Number(floor(period)) + (isWhole(period) ? 0 : 1)];
      expect(existsOnGrid(tasks, holds, below)).toBe(false);
      expect(existsOnGrid(tasks, holds, above)).toBe(true);
    }),
    { seed: 4_217, numRuns: 300 },
  );
  expect(seen.warned).toBeGreaterThan(10);
  expect(seen.fits).toBeGreaterThan(10);
});

/** A task of two places that share one press, in seconds. */
interface PressTask {
  readonly time: number;
  readonly machine: number;
  readonly isOnPress: boolean;
}

/** Whether two units, one at each place, can be worked again and again in a period with one press between them: every start is tried. */
function existsWithPress(tasks: readonly PressTask[], period: number): boolean {
  const taken = new Set<number>();
  const place = (unit: number, at: number, begin: number, earliest: number, end: number): boolean => {
    if (at === tasks.length) return unit === 1 || fromAny(0, period);
    const { time, machine, isOnPress } = tasks[at]!;
    for (let start = earliest; start + time + machine <= begin + period; start++) {
      const slots = isOnPress
        ? Array.from({ length: time + machine }, (_, slot) => (start + slot) % period)
        : [];
      if (slots.some((slot) => taken.has(slot))) continue;
      for (const slot of slots) taken.add(slot);
      const isFound = place(unit, at + 1, begin, start + time, Math.max(end, start + time + machine));
      for (const slot of slots) taken.delete(slot);
      if (isFound) return true;
    }
    return false;
  };
  const fromAny = (from: number, until: number): boolean => {
    for (let begin = from; begin < until; begin++) if (place(1, 0, begin, begin, begin)) return true;
    return false;
  };
  return place(0, 0, 0, 0, 0);
}

it("Two places that share one press are told of exactly where no start on a grid keeps their units apart", () => {
  const seen = { fits: 0, told: 0 };
  const any = fc.record({
    times: fc.tuple(...Array.from({ length: 4 }, () => fc.integer({ min: 1, max: 4 }))),
    machines: fc.tuple(...Array.from({ length: 4 }, () => fc.constantFrom(0, 0, 0, 2))),
    first: fc.nat({ max: 1 }),
  });
  fc.assert(
    fc.property(any, ({ times, machines, first }) => {
      const tasks = times.map((time, at) => ({ time, machine: machines[at]!, isOnPress: at % 2 === first }));
      const line = floorLine(
        tasks.map(({ time }, at) => `t${at} ${time}`),
        {
          tasks: Object.fromEntries(
            tasks.map(({ machine, isOnPress }, at) => [
              `t${at}`,
              { machineTime: s(machine), equipment: isOnPress ? ["press"] : [] },
            ]),
          ),
          equipment: { press: 1 },
          maxPlaces: 2,
        },
      );
      const plan = planFrom(line, ["S1 x2: t0 t1 t2 t3"]);
      const least = cycleOfPost(postsOf(line, paceFromCycle(s(1)), plan)[0]!);
      const cycle = Number(ceiling(multiply(least, ratio(1, 1_000_000))));
      const found = findHands(line, paceFromCycle(s(cycle)), plan);
      const exists = existsWithPress(tasks, 2 * cycle);
      expect(found.length).toBe(exists ? 0 : 1);
      seen[exists ? "fits" : "told"]++;
    }),
    { seed: 4_217, numRuns: 80 },
  );
  expect(Math.min(seen.fits, seen.told)).toBeGreaterThan(3);
});

/** Half seconds of so many line cycles in microseconds. */
const periodOf = (cycle: Ratio, units: number): Ratio => multiply(cycle, ratio(units * 2, 1_000_000));

const isWhole = (period: Ratio): boolean => compare(period, ratio(floor(period))) === 0;
