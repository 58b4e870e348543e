import { describe, expect, it } from "vitest";
import { movesBetween } from "../../../src/answer/rebalance/match-stations.js";
import { planSeveralDemands } from "../../../src/answer/rebalance/several-demands.js";
import type { Line } from "../../../src/line/line.js";
import { peopleOf } from "../../../src/plan/figures/people.js";
import { type Plan, planOf } from "../../../src/plan/plan.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import type { Demand } from "../../../src/time/demand.js";
import { ratio } from "../../../src/time/ratio.js";
import { shortLine } from "../../tools/line-of.js";
import { drawFrom, type MoveCase, moveCase } from "../../tools/move-cases.js";

/*
 * Small lines with one person a station, against every way to put their tasks at stations at each demand, and every way to go from one to
 * the next.
 */

/** Milliseconds after which a test counts as hung. */
const LONGEST_TEST = 240_000;

/** The station of each task, in order of flow. */
type Assignment = readonly number[];

/** Every plan with at most so many stations, none of them empty, in which stations take no more than the cycle. */
function everyPlan({ line, seconds }: MoveCase, cycle: number, most: number): Assignment[] {
  const all: number[][] = [];
  const at: number[] = [];
  const loads = Array<number>(most).fill(0);
  const go = (task: number) => {
    if (task === seconds.length) {
      const used = Math.max(...at) + 1;
      if (loads.slice(0, used).every((load) => load > 0)) all.push([...at]);
      return;
    }
    const first = Math.max(0, ...line.before[task]!.map((each) => at[each]!));
    for (let station = first; station < most; station++) {
      if (loads[station]! + seconds[task]! > cycle) continue;
      at[task] = station;
      loads[station]! += seconds[task]!;
      go(task + 1);
      loads[station]! -= seconds[task]!;
    }
    at.length = task;
  };
  go(0);
  return all;
}

/** What the moves between two plans cost at the least: stations matched in order of flow so that most is kept. */
function distance(one: Assignment, two: Assignment, costs: readonly number[]): number {
  const [rows, columns] = [Math.max(...one) + 1, Math.max(...two) + 1];
  const shared = Array.from({ length: rows }, () => Array<number>(columns).fill(0));
  for (const [task, station] of one.entries()) shared[station]![two[task]!]! += costs[task]!;
  let above = Array<number>(columns + 1).fill(0);
  for (const own of shared) {
    const now = [0];
    for (let column = 0; column < columns; column++)
      now.push(Math.max(now[column]!, above[column + 1]!, above[column]! + own[column]!));
    above = now;
  }
  return costs.reduce((sum, each) => sum + each, 0) - above[columns]!;
}

/** The least sum over plans of every demand: from today to that of the demand nearest to today's, and from each to the next. */
function leastSum(
  today: Assignment,
  plans: readonly Assignment[][],
  nearest: number,
  costs: readonly number[],
): number {
  const steps = (next: readonly Assignment[], values: readonly number[], own: readonly Assignment[]) =>
    own.map((plan) => Math.min(...next.map((each, at) => values[at]! + distance(plan, each, costs))));
  const fold = (outwards: readonly Assignment[][]) =>
    outwards.reduceRight<{ plans: readonly Assignment[]; values: readonly number[] } | null>(
      (next, own) => ({
        plans: own,
        values: next === null ? own.map(() => 0) : steps(next.plans, next.values, own),
      }),
      null,
    )!.values;
  const up = fold(plans.slice(nearest));
  const down = fold(plans.slice(0, nearest + 1).toReversed());
  return Math.min(...plans[nearest]!.map((plan, at) => distance(today, plan, costs) + up[at]! + down[at]!));
}

/** So many units an hour that the line cycle has so many seconds. */
const demandAt = (cycle: number): Demand => ({ units: ratio(3600, cycle), period: "hour" });

interface Case extends MoveCase {
  /** Descending, so that demands ascend. */
  readonly cycles: readonly number[];
  readonly nearest: number;
}

const smallCase = (seed: number, count: number): Case =>
  withCycles(moveCase(seed, 4, count === 2 ? 7 : 6, seed % 3 === 0 ? 3 : 1), seed, count);

/** Tasks in a row, of which there are few plans though they are many. */
const rowCase = (seed: number, count: number): Case => {
  const draw = drawFrom(seed);
  const seconds = Array.from({ length: 14 }, () => 4 + draw(22));
  const line = shortLine(seconds.map((each, at) => `t${at + 1} ${each} ${at === 0 ? "" : `t${at}`}`.trim()));
  const cycle = 45 + draw(15);
  const today: number[] = [];
  let [label, load] = [0, 0];
  for (const own of seconds) {
    if (load + own > cycle) [label, load] = [label + 1, 0];
    load += own;
    today.push(label);
  }
  const given = { line, seconds, cycle, labels: label + 1, today, costs: today.map(() => 1) };
  return withCycles(given, seed, count);
};

function withCycles(given: MoveCase, seed: number, count: number): Case {
  const draw = drawFrom(seed + 7);
  for (let warm = 0; warm < 5; warm++) draw(10);
  const least = Math.max(...given.seconds);
  const cycles = new Set([given.cycle]);
  while (cycles.size < count)
    cycles.add(Math.max(least, given.cycle - 12 + draw(30)) + (cycles.size === 5 ? 1 : 0));
  return { ...given, cycles: [...cycles].sort((one, two) => two - one), nearest: draw(count) };
}

function todayOf({ today, labels }: MoveCase): Plan {
  return planOf(
    Array.from({ length: labels }, (_, label) => [...today.keys()].filter((task) => today[task] === label)),
  );
}

const withCosts = ({ line, costs, cycles, nearest }: Case): Line => ({
  ...line,
  demand: demandAt(cycles[nearest]!),
  tasks: line.tasks.map((task, at) => ({ ...task, moveCost: costs[at]! })),
});

async function compareSums(seeds: number, count: number, above: number, caseOf = smallCase) {
  const seen = { least: 0, proved: 0, together: 0 };
  for (let seed = 1; seed <= seeds; seed++) {
    const given = caseOf(seed, count);
    const line = withCosts(given);
    const answer = await planSeveralDemands(line, given.cycles.map(demandAt), todayOf(given), {
      nodes: 20_000,
      strictLimit: false,
      peopleAbove: above,
      checkpoint: () => Promise.resolve(null),
    });
    const all = given.cycles.map((cycle) => {
      for (let most = 1; ; most++) {
        const plans = everyPlan(given, cycle, most);
        if (plans.length > 0) return { fewest: most, plans: everyPlan(given, cycle, most + above) };
      }
    });
    expect(answer.demands.map(({ fewestPeople }) => fewestPeople)).toEqual(all.map(({ fewest }) => fewest));
    for (const { balance, people, fewestPeople, takt } of answer.demands) {
      expect(verifyPlan({ ...line, demand: null }, takt!.pace, balance!.plan!, false)).toEqual([]);
      expect(people).toBe(peopleOf(balance!.plan!));
      expect(people! - fewestPeople!).toBeLessThanOrEqual(above);
    }
    const plans = answer.demands.map(({ balance }) => balance!.plan!);
    const changes = [
      movesBetween(line, todayOf(given), plans[given.nearest]!, given.costs),
      ...plans.slice(1).map((plan, at) => movesBetween(line, plans[at]!, plan, given.costs)),
    ];
    const cost = changes.flat().reduce((sum, { task }) => sum + given.costs[task]!, 0);
    expect(answer.cost).toBe(cost);
    const least = leastSum(
      given.today,
      all.map((each) => each.plans),
      given.nearest,
      given.costs,
    );
    expect(answer.leastCost).toBeLessThanOrEqual(least);
    expect(answer.cost).toBeGreaterThanOrEqual(least);
    const isProved = answer.outcome === "proved";
    if (isProved) expect(answer.cost).toBe(least);
    const changesApart = answer.demands.reduce((sum, { change }) => sum + (change?.leastCost ?? 0), 0);
    if (changesApart + answer.fromToday!.leastCost < answer.leastCost) seen.together++;
    if (answer.cost === least) seen.least++;
    if (isProved) seen.proved++;
  }
  return seen;
}

describe("plans for several demands", { timeout: LONGEST_TEST }, () => {
  it.each([
    [2, 0, 40],
    [2, 1, 25],
    [3, 0, 40],
    [4, 0, 15],
  ])(
    "%i demands with %i people above: on small lines the fewest moves that any plans have, and proved",
    async (count, above, seeds) => {
      const { least, proved, together } = await compareSums(seeds, count, above);
      expect([least, proved]).toEqual([seeds, seeds]);
      // What each change takes by itself is often less than they take together.
      expect(together).toBeGreaterThan(seeds / 10);
    },
  );

  it("claim no more than the least sum of all plans where these are too many to list: 14 tasks in a row", async () => {
    const { least, together } = await compareSums(12, 3, 0, rowCase);
    expect(least).toBeGreaterThan(8);
    // A change at once to either end is no shorter than all changes on the way to it.
    expect(together).toBeGreaterThan(0);
  });
});
