import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Line, Side } from "../../../src/line/line.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { fixStations } from "../../../src/solve/fix-stations.js";
import { compare, ONE, ratio, subtract } from "../../../src/time/ratio.js";
import { floorLine, s } from "../../tools/floor-line.js";
import { leastFixedCycle } from "./every-fixed-plan.js";

const number = (min: number, max: number) => fc.integer({ min, max });

interface Terms {
  readonly hasModels: boolean;
  readonly hasMachines: boolean;
  readonly isSided?: boolean;
  /** Failures have tasks done again, and units lose time to handling at each pass. */
  readonly isHandledAgain?: boolean;
  /** Models are held on average only. */
  readonly isFree?: boolean;
  readonly most: number;
}

const taskDraw = fc.record({
  seconds: number(0, 30),
  other: fc.option(number(0, 40), { freq: 3 }),
  earlier: fc.array(number(1, 4), { maxLength: 2 }),
  press: fc.boolean(),
  rig: fc.boolean(),
  machine: fc.oneof(fc.constant(0), number(5, 60)),
  every: fc.constantFrom(1, 1, 1, 2, 3),
  side: fc.constantFrom<Side>("left", "right", "either", "either"),
  people: fc.constantFrom(1, 1, 1, 2),
  visits: fc.constantFrom(ONE, ONE, ratio(11, 10), ratio(5, 4)),
});

function casesOf(terms: Terms): fc.Arbitrary<{ line: Line; count: number }> {
  const drawn = fc.record({
    rows: fc.array(taskDraw, { minLength: 2, maxLength: terms.most }),
    overload: fc.constantFrom(ratio(0), ratio(1, 10), ratio(1, 3), ratio(1, 2)),
    presses: number(1, 3),
    rigs: number(1, 2),
    handling: fc.constantFrom(0, 2),
    count: number(1, 3),
  });
  return drawn.map(({ rows, overload, presses, rigs, handling, count }) => {
    const ids = rows.map((_, at) => `t${at + 1}`);
    const text = rows.map(({ seconds, earlier }, at) => {
      const before = earlier.flatMap((back) => (at - back >= 0 ? [ids[at - back]!] : []));
      return [ids[at], seconds, ...new Set(before)].join(" ");
    });
    const tasks = rows.map((row, at) => {
      const names = [...(row.press ? ["press"] : []), ...(row.rig ? ["rig"] : [])];
      const equipment = terms.hasMachines ? names : [];
      const own = {
        every: row.every,
        equipment,
        machineTime: equipment.length === 0 ? 0 : s(row.machine),
        ...(terms.isHandledAgain ? { visits: row.visits } : {}),
        ...(terms.isSided ? { side: row.side, people: row.people } : {}),
        ...(terms.hasModels ? { times: [s(row.seconds), row.other === null ? null : s(row.other)] } : {}),
      };
      return [ids[at]!, own] as const;
    });
    const line = floorLine(text, {
      tasks: Object.fromEntries(tasks),
      equipment: terms.hasMachines ? { press: presses, rig: rigs } : {},
      ...(terms.hasModels
        ? {
            modelOverload: terms.isFree ? null : overload,
            models: [
              { id: "city", share: ratio(3, 5) },
              { id: "cargo", share: ratio(2, 5) },
            ],
          }
        : {}),
    });
    return { line: { ...line, handling: s(terms.isHandledAgain ? handling + 2 : handling) }, count };
  });
}

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

describe("a fixed number of stations", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["where each model may take a share more", { hasModels: true, hasMachines: false, most: 6 }, 50],
    [
      "where machines that are counted run by themselves",
      { hasModels: false, hasMachines: true, most: 6 },
      50,
    ],
    ["where both hold", { hasModels: true, hasMachines: true, most: 6 }, 50],
    [
      "where models are worked from two sides",
      { hasModels: true, hasMachines: false, isSided: true, most: 5 },
      40,
    ],
    [
      "where models are worked from two sides and held on average only",
      { hasModels: true, hasMachines: false, isSided: true, isFree: true, most: 5 },
      40,
    ],
    ["where all of it holds", { hasModels: true, hasMachines: true, isSided: true, most: 4 }, 40],
    [
      "where units are handled at each pass",
      { hasModels: true, hasMachines: true, isHandledAgain: true, most: 6 },
      50,
    ],
    [
      "where units are handled at each pass and worked from two sides",
      { hasModels: true, hasMachines: false, isSided: true, isHandledAgain: true, most: 5 },
      40,
    ],
  ])("keeps the shortest cycle of all assignments, and proves it, %s", async (_, terms: Terms, numRuns) => {
    const seen = { none: 0, slower: 0 };
    await fc.assert(
      fc.asyncProperty(casesOf(terms), async ({ line, count }) => {
        const least = leastFixedCycle(line, count);
        const found = await fixStations(line, count, 100_000, () => null);
        if (found.plan === null) {
          expect([least, found.isProved]).toEqual([null, true]);
          seen.none++;
          return;
        }
        const lineCycle = found.cycle;
        expect([found.proved, lineCycle, found.cycleBound]).toEqual([true, least, found.cycle]);
        const working = subtract(lineCycle, ratio(line.handling));
        const pace = { takt: null, lineCycle, handling: line.handling, planTo: ONE };
        const full = { ...pace, workingTime: working, stationLimit: working };
        expect(verifyPlan(line, full, found.plan, true)).toEqual([]);
        if (compare(lineCycle, handsCycle(line, count)) > 0) seen.slower++;
      }),
      { seed: 83, numRuns },
    );
    // Some cycles are those of models or machines, and would be shorter without them or with mean times.
    expect(seen.slower).toBeGreaterThan(numRuns / 10);
  });
});

/** The cycle of mean times by hand. */
const handsCycle = (line: Line, count: number) =>
  leastFixedCycle(
    { ...line, tasks: line.tasks.map(withMeanTime), models: [], modelOverload: null, equipment: new Map() },
    count,
  )!;

function withMeanTime(task: Line["tasks"][number]): Line["tasks"][number] {
  const { num, den } = task.load;
  return {
    ...task,
    machineTime: 0,
    equipment: [],
    times: [Number((num * BigInt(task.every)) / den)],
    visits: [ratio(1, task.every)],
  };
}
