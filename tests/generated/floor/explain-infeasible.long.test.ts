import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import { type TimeLimit, timeLimitsOf } from "../../../src/solve/explain/binding-times.js";
import { explainInfeasible, type Infeasibility } from "../../../src/solve/explain/explain-infeasible.js";
import { requirementsOf } from "../../../src/solve/explain/line-rules.js";
import { ZERO } from "../../../src/time/ratio.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { scheduleCases } from "../../tools/schedule-cases.js";
import { EveryFloorPlan } from "./every-floor-plan.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const hasPlan = (given: FloorCase, line: Line, left: readonly TimeLimit[] = []) =>
  new EveryFloorPlan({ ...given, line: withoutEmptyWaits(line) }, left).cheapest() !== null;

/** A requirement taken out leaves a wait of no station behind, which is none. */
const withoutEmptyWaits = (line: Line): Line => ({
  ...line,
  waits: line.waits.filter(({ stations }) => stations > 0),
});

function withoutTime(line: Line, task: number): Line {
  return {
    ...line,
    tasks: line.tasks.map((each, at) =>
      at === task
        ? {
            ...each,
            load: ZERO,
            machineTime: 0,
            times: each.times.map((own) => (own === null ? null : 0)),
          }
        : each,
    ),
  };
}

const isIn = (all: readonly unknown[], one: unknown) => all.some((each) => isDeepStrictEqual(each, one));

/** The line with nothing to keep but what the reasons name. */
function reduceTo(line: Line, { reasons, timed: kept }: Infeasibility): Line {
  const freed = requirementsOf(line)
    .filter(({ rule }) => !isIn(reasons, rule))
    .reduce((now, each) => each.without(now), line);
  return [...line.tasks.keys()]
    .filter((task) => !kept.includes(task))
    .reduce((now, task) => withoutTime(now, task), freed);
}

it.each([
  ["", 100, floorCases({ fewest: 2, most: 5 })],
  [", at two sides", 100, floorCases({ fewest: 2, most: 4, isSided: true })],
  [", with machines and rigs", 70, scheduleCases({ fewest: 2, most: 5 })],
  [", with machines and rigs at two sides", 70, scheduleCases({ fewest: 2, most: 4, isSided: true })],
  [", with crews that share a unit", 70, scheduleCases({ fewest: 2, most: 4, isShared: true })],
])(
  "gives reasons that leave no plan together, and one without any one of them%s",
  { timeout: LONGEST_TEST },
  async (_, numRuns, cases) => {
    let [explained, short] = [0, 0];
    await fc.assert(
      fc.asyncProperty(cases, async (given) => {
        const { line, pace, strictLimit } = given;
        const found = await explainInfeasible(line, pace, strictLimit);
        expect(found === null).toBe(hasPlan(given, line));
        if (found === null) return;
        const { reasons, timed, binding } = found;
        expect(found.isSmallest).toBe(true);
        // Tasks that crowd a station by their times and groups have their arrows told as a chain.
        if (reasons.some(({ kind }) => kind === "crowd")) return;
        if (found.shortage !== null) {
          short++;
          return;
        }
        explained++;
        const reduced = reduceTo(line, found);
        const left = timeLimitsOf(line).filter((limit) => !isIn(binding, limit));
        expect([reasons, hasPlan(given, reduced, left)]).toEqual([reasons, false]);
        for (const { rule, without } of requirementsOf(line).filter((each) => isIn(reasons, each.rule)))
          expect([reasons, rule, hasPlan(given, without(reduced), left)]).toEqual([reasons, rule, true]);
        for (const task of timed) {
          const freed = withoutTime(reduced, task);
          expect([reasons, task, hasPlan(given, freed, left)]).toEqual([reasons, task, true]);
        }
        for (const limit of binding) {
          const fewer = [...left, limit];
          expect([reasons, limit, hasPlan(given, reduced, fewer)]).toEqual([reasons, limit, true]);
        }
      }),
      { seed: 111, numRuns },
    );
    expect(explained).toBeGreaterThan(numRuns / 8);
    // Few of so few tasks are short of several stations.
    expect(short).toBeLessThan(explained);
  },
);

it("names the groups of a crowd, and says whether there is a plan without any one of them", {
  timeout: LONGEST_TEST,
}, async () => {
  let [crowds, smallest] = [0, 0];
  const pairs = fc.uniqueArray(fc.tuple(fc.nat(4), fc.nat(4)), { maxLength: 4, selector: String });
  await fc.assert(
    fc.asyncProperty(floorCases({ fewest: 5, most: 5 }), pairs, async (given, groups) => {
      const together = groups.filter(([one, two]) => one < two);
      const line = { ...given.line, together };
      const found = await explainInfeasible(line, given.pace, given.strictLimit);
      if (!found?.reasons.some(({ kind }) => kind === "crowd")) return;
      crowds++;
      const isNamed = (group: readonly number[]) =>
        isIn(found.reasons, { kind: "together", tasks: group.map((task) => line.tasks[task]!.id) });
      const named = together.filter(isNamed);
      const bare = withGroupsOnly(line);
      expect(hasPlan(given, { ...bare, together: named })).toBe(false);
      const without = named.map((group) => named.filter((each) => each !== group));
      expect(found.isSmallest).toBe(without.every((together) => hasPlan(given, { ...bare, together })));
      if (found.isSmallest) smallest++;
    }),
    { seed: 112, numRuns: 300 },
  );
  expect(crowds).toBeGreaterThan(30);
  expect(smallest).toBeGreaterThan(crowds * 0.8);
});

/** Arrows, times and groups of tasks that share a station, and nothing else that a plan must keep. */
function withGroupsOnly(line: Line): Line {
  return requirementsOf(line)
    .filter(({ rule }) => rule.kind !== "order" && rule.kind !== "together")
    .reduce((now, each) => each.without(now), line);
}
