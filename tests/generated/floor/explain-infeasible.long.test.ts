import { isDeepStrictEqual } from "node:util";
import fc from "fast-check";
import { expect, it } from "vitest";
import type { Line } from "../../../src/line/line.js";
import {
  explainInfeasible,
  type Infeasibility,
  type Reason,
} from "../../../src/solve/explain/explain-infeasible.js";
import { type LineRule, requirementsOf } from "../../../src/solve/explain/line-rules.js";
import { ZERO } from "../../../src/time/ratio.js";
import { type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { EveryFloorPlan } from "./every-floor-plan.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 120_000;

const hasPlan = (given: FloorCase, line: Line) =>
  new EveryFloorPlan({ ...given, line: withoutEmptyWaits(line) }).cheapest() !== null;

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

const withoutMachines = (line: Line): Line => ({
  ...line,
  tasks: line.tasks.map((task) => ({ ...task, machineTime: 0 })),
});

const isOfEquipment = ({ kind }: Pick<Reason, "kind">) =>
  kind === "equipment" || kind === "counted-equipment";

const isAmong = (reasons: readonly Reason[], rule: LineRule) =>
  reasons.some((each) => isDeepStrictEqual(each, rule));

/** The line with nothing to keep but what the reasons name. */
function reduceTo(line: Line, { reasons, timed: kept, machinesBind }: Infeasibility): Line {
  const freed = requirementsOf(line)
    .filter(({ rule }) => !isAmong(reasons, rule))
    .reduce((now, each) => each.without(now), line);
  // A unit stands while machines run, and hands of two sides wait for them.
  const isSided = line.tasks.some(({ side }) => side !== null);
  const keepsMachines = machinesBind || isSided || reasons.some(({ kind }) => kind === "dwell");
  return [...line.tasks.keys()]
    .filter((task) => !kept.includes(task))
    .reduce((now, task) => withoutTime(now, task), keepsMachines ? freed : withoutMachines(freed));
}

it.each([{ isSided: false }, { isSided: true }])(
  "gives reasons that leave no plan together, and one without any one of them, sides: $isSided",
  { timeout: LONGEST_TEST },
  async ({ isSided }) => {
    let [explained, short] = [0, 0];
    await fc.assert(
      fc.asyncProperty(floorCases({ fewest: 2, most: isSided ? 4 : 5, isSided }), async (given) => {
        const { line, pace, strictLimit } = given;
        const found = await explainInfeasible(line, pace, strictLimit);
        expect(found === null).toBe(hasPlan(given, line));
        if (found === null) return;
        const { reasons, timed } = found;
        expect(found.isSmallest).toBe(true);
        // Tasks that crowd a station by their times and groups have their arrows told as a chain.
        if (reasons.some(({ kind }) => kind === "crowd")) return;
        if (found.shortage !== null) {
          short++;
          return;
        }
        explained++;
        const reduced = reduceTo(line, found);
        expect([reasons, hasPlan(given, reduced)]).toEqual([reasons, false]);
        // Equipment that places share may be named by one task more than it takes.
        const named = requirementsOf(line).filter(
          ({ rule }) => isAmong(reasons, rule) && !isOfEquipment(rule),
        );
        for (const { rule, without } of named)
          expect([reasons, rule, hasPlan(given, without(reduced))]).toEqual([reasons, rule, true]);
        // Nor does it take all of their times then.
        const isOfTimesOnly = !reasons.some((each) => isOfEquipment(each));
        for (const task of isOfTimesOnly ? timed : [])
          expect([reasons, task, hasPlan(given, withoutTime(reduced, task))]).toEqual([reasons, task, true]);
      }),
      { seed: 111, numRuns: 160 },
    );
    expect(explained).toBeGreaterThan(20);
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
        isAmong(found.reasons, { kind: "together", tasks: group.map((task) => line.tasks[task]!.id) });
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
