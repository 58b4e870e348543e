import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  planSeveralDemands,
  type SeveralDemandsAnswer,
} from "../../../src/answer/rebalance/several-demands.js";
import { type Line, withoutPlanTo } from "../../../src/line/line.js";
import type { Plan } from "../../../src/plan/plan.js";
import { stationIds } from "../../../src/plan/station-numbers.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import type { Demand } from "../../../src/time/demand.js";
import { type Pace, paceFromDemand } from "../../../src/time/pace.js";
import { ONE, ratio } from "../../../src/time/ratio.js";
import { CYCLE, type FloorCase, floorCases } from "../../tools/floor-random-line.js";
import { costOf, EveryFloorPlan } from "../floor/every-floor-plan.js";

/*
 * Small lines with rules of every kind, against every way to put their tasks at stations at each of two demands. On a floor a task moves
 * when its station has another id.
 */

/** Milliseconds after which a test counts as hung. */
const LONGEST_TEST = 240_000;
const MOST_TASKS = 4;

interface Swinging {
  readonly line: Line;
  readonly strictLimit: boolean;
  readonly today: readonly number[];
  /** Ascending. */
  readonly demands: readonly Demand[];
  readonly nearest: number;
  readonly above: number;
}

const cases = (isSided: boolean): fc.Arbitrary<Swinging> =>
  fc
    .record({
      given: floorCases({ fewest: 2, most: MOST_TASKS, isSided }),
      at: fc.array(fc.nat(3), { minLength: MOST_TASKS, maxLength: MOST_TASKS }),
      slower: fc.integer({ min: 3, max: 25 }),
      nearest: fc.nat(1),
      above: fc.constantFrom(0, 0, 1),
    })
    .map(({ given, at, slower, nearest, above }): Swinging => {
      const { line, pace, strictLimit } = given;
      const demands = [CYCLE + slower, CYCLE].map(
        (cycle): Demand => ({ units: ratio(3600, cycle), period: "hour" }),
      );
      const today: number[] = [];
      for (const [task, before] of line.before.entries())
        today[task] = Math.max(at[task]!, ...before.map((each) => today[each]!));
      const { handling, planTo } = pace;
      return {
        line: { ...line, handling, planTo, demand: demands[nearest]! },
        strictLimit,
        today,
        demands,
        nearest,
        above,
      };
    });

function planAt(line: Line, positionOf: readonly number[]): Plan {
  const used = [...new Set(positionOf)].sort((one, two) => one - two);
  const ids = stationIds(line, used);
  return {
    stations: used.map((position, at) => {
      const tasks = [...line.tasks.keys()].filter((task) => positionOf[task] === position);
      const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
      return { id: ids[at]!, tasks, sides: null, persons: null, places: 1, crew };
    }),
  };
}

function paceAt(line: Line, demand: Demand): Pace {
  const pace = paceFromDemand({ ...line, demand });
  if (!pace.ok) throw new Error(pace.problem);
  return pace.value;
}

/** The fewest people at a demand, and the positions of every plan with at most so many more. */
function everyPlan({ line, strictLimit, above }: Swinging, demand: Demand) {
  const given: FloorCase = { line, pace: paceAt(line, demand), strictLimit };
  const every = new EveryFloorPlan(given);
  const people: { readonly at: number[]; readonly people: number }[] = [];
  const positionOf: number[] = [];
  const go = (task: number) => {
    if (task < line.tasks.length) {
      for (let at = 0; at < every.positions; at++) {
        positionOf[task] = at;
        go(task + 1);
      }
      positionOf.length = task;
      return;
    }
    const staffed = every.staff(positionOf).map((plan) => costOf(plan).people);
    if (staffed.length > 0) people.push({ at: [...positionOf], people: Math.min(...staffed) });
  };
  go(0);
  const fewest = Math.min(...people.map((each) => each.people));
  return { fewest, plans: people.filter((each) => each.people <= fewest + above).map(({ at }) => at) };
}

const movesOf = (one: readonly number[], two: readonly number[]) =>
  one.filter((position, task) => position !== two[task]).length;

function leastSum({ today, nearest }: Swinging, plans: readonly (readonly number[][])[]): number {
  const [own, other] = [plans[nearest]!, plans[1 - nearest]!];
  return Math.min(
    ...own.map((plan) => movesOf(today, plan) + Math.min(...other.map((each) => movesOf(plan, each)))),
  );
}

/** What `check` holds against a plan: stations may use the reserve that is kept of their working time. */
const faultsOfCheck = (
  { line, strictLimit }: Swinging,
  plan: Plan,
  { lineCycle, handling, workingTime }: Pace,
) => {
  const pace: Pace = { takt: null, lineCycle, handling, planTo: ONE, workingTime, stationLimit: workingTime };
  return verifyPlan(withoutPlanTo(line), pace, plan, strictLimit);
};

/** Today's plan takes what is kept in reserve, and stays as `check` passes it: no plan within the limit is to be held against it. */
function standsByCheckAlone(given: Swinging, demand: Demand): boolean {
  const { line, strictLimit, today } = given;
  const [pace, plan] = [paceAt(line, demand), planAt(line, today)];
  return (
    verifyPlan(line, pace, plan, strictLimit).length > 0 && faultsOfCheck(given, plan, pace).length === 0
  );
}

/** How an answer compares with every plan; without a floor the ids of stations tell of no moves, and nothing is said of those. */
function holdAgainst(
  given: Swinging,
  answer: SeveralDemandsAnswer,
): "kept" | "no plan" | "no floor" | "least" | "proved" | "more" {
  const { line, strictLimit, demands } = given;
  if (demands.some((demand) => standsByCheckAlone(given, demand))) {
    for (const { balance, takt } of answer.demands)
      if (balance?.plan != null) expect(faultsOfCheck(given, balance.plan, takt!.pace)).toEqual([]);
    return "kept";
  }
  const all = demands.map((demand) => everyPlan(given, demand));
  for (const [at, { fewest, plans }] of all.entries()) {
    const { balance, fewestPeople, people, takt } = answer.demands[at]!;
    if (plans.length === 0) expect([people, balance!.plan]).toEqual([null, null]);
    else {
      expect(fewestPeople).toBe(fewest);
      expect(verifyPlan(line, takt!.pace, balance!.plan!, strictLimit)).toEqual([]);
      expect(people! - fewest).toBeLessThanOrEqual(given.above);
    }
  }
  if (all.some(({ plans }) => plans.length === 0)) {
    expect(["infeasible", "stopped"]).toContain(answer.outcome);
    return "no plan";
  }
  if (line.floor.length === 0) return "no floor";
  const least = leastSum(
    given,
    all.map(({ plans }) => plans),
  );
  expect(answer.leastCost).toBeLessThanOrEqual(least);
  expect(answer.cost).toBeGreaterThanOrEqual(least);
  if (answer.outcome === "proved") expect(answer.cost).toBe(least);
  return answer.outcome === "proved" ? "proved" : answer.cost === least ? "least" : "more";
}

describe.each([
  ["", false],
  [" worked from its sides", true],
] as const)("plans for two demands of a line with rules%s", { timeout: LONGEST_TEST }, (_, isSided) => {
  it("keep every rule, have the fewest people, and are proved only where no plans need fewer moves", async () => {
    const seen = { kept: 0, "no plan": 0, "no floor": 0, least: 0, proved: 0, more: 0 };
    await fc.assert(
      fc.asyncProperty(cases(isSided), async (given) => {
        const { line, strictLimit, above, demands, today } = given;
        const checkpoint = () => Promise.resolve(null);
        const options = { nodes: 20_000, strictLimit, peopleAbove: above, checkpoint };
        seen[holdAgainst(given, await planSeveralDemands(line, demands, planAt(line, today), options))]++;
      }),
      { seed: 77, numRuns: 120 },
    );
    expect(seen.more).toBeLessThan((seen.least + seen.proved) / 10);
    expect(Math.min(seen.proved, seen["no floor"], seen["no plan"])).toBeGreaterThan(6);
  });
});
