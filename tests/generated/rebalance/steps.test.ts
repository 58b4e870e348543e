import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { matchStations, movesBetween } from "../../../src/answer/rebalance/match-stations.js";
import { type Steps, spreadSteps, stepsOf } from "../../../src/answer/rebalance/steps.js";
import type { Line } from "../../../src/line/line.js";
import { cycleOfPlan } from "../../../src/plan/figures/cycle.js";
import type { Plan } from "../../../src/plan/plan.js";
import { postsOf } from "../../../src/plan/post.js";
import { stationIds } from "../../../src/plan/station-numbers.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { balance } from "../../../src/solve/balance.js";
import type { Pace } from "../../../src/time/pace.js";
import { compare, larger, multiply, ratio, subtract } from "../../../src/time/ratio.js";
import {
  CYCLE,
  type FloorCase,
  type FloorCaseTerms,
  floorCases,
  paceWith,
} from "../../tools/floor-random-line.js";

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

/** A change from one plan of a line to another at a pace. */
interface Change {
  readonly line: Line;
  readonly pace: Pace;
  readonly from: Plan;
  readonly to: Plan;
}

/** The plan that a search finds at a pace; null where it finds none. */
async function planFor({ line, strictLimit }: FloorCase, pace: Pace): Promise<Plan | null> {
  const options = { method: "best", nodes: 500, strictLimit, level: false, explain: false, from: null };
  return (await balance(line, pace, { ...options, checkpoint: () => null })).plan;
}

/** Tasks at stations by number, worked in the order of their numbers; arrows lead to larger numbers. */
function planAt(line: Line, stationOf: readonly number[]): Plan {
  const used = [...new Set(stationOf)].sort((one, two) => one - two);
  const ids = stationIds(line, used);
  return {
    stations: used.map((number, at) => {
      const tasks = [...line.tasks.keys()].filter((task) => stationOf[task] === number);
      const crew = Math.max(...tasks.map((task) => line.tasks[task]!.people));
      return { id: ids[at]!, tasks, sides: null, persons: null, places: 1, crew };
    }),
  };
}

/** What the verifier says beside loads of a plan at a line cycle of so many microseconds. */
function rulesBroken({ line, pace }: Change, keeps: Pace["lineCycle"], plan: Plan): string[] {
  const workingTime = subtract(keeps, ratio(pace.handling));
  const slow = { ...pace, lineCycle: keeps, workingTime, stationLimit: multiply(workingTime, pace.planTo) };
  return verifyPlan(line, slow, plan, false)
    .filter(({ rule, message }) => rule !== "load" && !(rule === "sides" && message.includes(" ends after ")))
    .map(({ message }) => message);
}

const cycleOf = ({ line, pace }: Change, plan: Plan) => cycleOfPlan(postsOf(line, pace, plan));

const keptBy = (change: Change) => larger(change.pace.lineCycle, cycleOf(change, change.from));

/** A plan may be in force on the way: no station is slower than the pace kept, and no rule is broken that today's plan keeps. */
function mayBe(change: Change, plan: Plan): boolean {
  const keeps = keptBy(change);
  const known = new Set(rulesBroken(change, keeps, change.from));
  return (
    compare(cycleOf(change, plan), keeps) <= 0 &&
    rulesBroken(change, keeps, plan).every((message) => known.has(message))
  );
}

const stepsFor = ({ line, pace, from, to }: Change): Promise<Steps | null> =>
  stepsOf(line, pace, from, to, matchStations(line, from, to));

const stationsById = ({ stations }: Plan) =>
  new Map(stations.map(({ id, tasks }) => [id, tasks.toSorted((one, two) => one - two).join()]));

function holds(change: Change, found: Steps): void {
  const { line, from, to, pace } = change;
  const { steps } = found;
  const moves = steps.flatMap((step) => step.moves.map(({ task }) => task));
  const placed = new Set(from.stations.flatMap(({ tasks }) => tasks));
  const fresh = [...line.tasks.keys()].filter((task) => !placed.has(task));
  const due = movesBetween(line, from, to).map(({ task }) => task);
  expect(moves.toSorted()).toEqual([...due, ...fresh].toSorted());
  expect(steps.at(-1)!.plan).toEqual(to);
  expect(compare(found.keeps, keptBy(change))).toBe(0);
  let before = from;
  for (const { moves: own, setUps, plan, cycle, keepsPace, keepsNewPace } of steps) {
    expect(own.length + setUps.length).toBeGreaterThan(0);
    expect(mayBe(change, plan)).toBe(true);
    expect(keepsPace).toBe(true);
    expect(compare(cycle, cycleOf(change, plan))).toBe(0);
    expect(keepsNewPace).toBe(compare(cycle, pace.lineCycle) <= 0);
    if (found.renamed.length === 0) {
      const moved = new Map(own.map((move) => [move.task, move]));
      for (const { id, tasks } of plan.stations)
        for (const task of tasks) {
          const was = before.stations.find((station) => station.tasks.includes(task))?.id ?? null;
          expect([was, id]).toEqual(
            moved.has(task) ? [moved.get(task)!.from, moved.get(task)!.to] : [id, id],
          );
        }
    }
    before = plan;
  }
  // From there on, and not one step earlier, every plan keeps the new pace.
  const slow = [from, ...steps.map(({ plan }) => plan)].findLastIndex(
    (plan) => compare(cycleOf(change, plan), pace.lineCycle) > 0,
  );
  expect(found.newPaceFrom).toBe(slow + 1);
  for (const days of [1, 2, 3, steps.length + 1]) {
    const spread = spreadSteps(steps, days).days;
    expect(spread.map(({ first }) => first)).toEqual([1, ...spread.slice(0, -1).map(({ last }) => last + 1)]);
    expect([spread.at(-1)!.last, spread.length]).toEqual([steps.length, Math.min(days, steps.length)]);
    expect(stationsById(spread.at(-1)!.plan)).toEqual(stationsById(to));
  }
}

/** Changes from the plan of a slower pace, or from one with tasks at random stations, to the plan of a pace. */
function changes(terms: FloorCaseTerms) {
  return fc.tuple(
    floorCases(terms),
    fc.boolean(),
    fc.array(fc.nat(3), { minLength: terms.most, maxLength: terms.most }),
    fc.nat(8),
  );
}

type Drawn = [FloorCase, boolean, number[], number];

async function changeFrom([given, isDrawn, at, left]: Drawn): Promise<Change | null> {
  const { line, pace } = given;
  const to = await planFor(given, pace);
  if (to === null) return null;
  const isSided = line.tasks.some(({ side }) => side !== null);
  if (!isDrawn || isSided) {
    const slower = paceWith(CYCLE + 8 * (1 + (left % 3)), Number(pace.handling) / 1e6, pace.planTo);
    const from = await planFor(given, slower);
    return from && { line, pace, from, to };
  }
  const stationOf: number[] = [];
  for (const [task, before] of line.before.entries())
    stationOf[task] = Math.max(at[task]!, 0, ...before.map((each) => stationOf[each]!));
  const from = planAt(line, stationOf);
  // One task may be new to the line.
  const stations = from.stations.flatMap((station) => {
    const tasks = station.tasks.filter((task) => task !== left);
    return tasks.length === 0
      ? []
      : [{ ...station, tasks, crew: Math.max(...tasks.map((task) => line.tasks[task]!.people)) }];
  });
  return { line, pace, from: { stations }, to };
}

describe("the steps of a change", { timeout: LONGEST_TEST }, () => {
  it.each([
    ["with rules of the floor", { fewest: 3, most: 8 }, 70, 31],
    ["without a floor", { fewest: 3, most: 9, isWithoutFloor: true }, 60, 32],
    ["worked from two sides", { fewest: 3, most: 6, isSided: true }, 45, 33],
    ["of more tasks than are looked through whole", { fewest: 20, most: 28, ruledTasks: 6 }, 20, 34],
  ] as const)("of lines %s add up to it, and each keeps what it claims", async (_, terms, numRuns, seed) => {
    let [told, together] = [0, 0];
    await fc.assert(
      fc.asyncProperty(changes(terms), async (drawn) => {
        const change = await changeFrom(drawn);
        const found = change && (await stepsFor(change));
        if (change === null || found === null) return;
        holds(change, found);
        told++;
        if (found.steps.some(({ moves }) => moves.length > 1)) together++;
      }),
      { seed, numRuns },
    );
    expect(told).toBeGreaterThan(numRuns / 5);
    expect(together).toBeGreaterThan(0);
  });
});

/** The most steps of any order in which sets of moves may be done, by trying all of them. */
function mostSteps(change: Change, stationOf: readonly number[], becomes: readonly number[]): number {
  const moved = stationOf.flatMap((at, task) => (at === becomes[task] ? [] : [task]));
  const all = 2 ** moved.length - 1;
  const after = (set: number) =>
    planAt(
      change.line,
      stationOf.map((at, task) =>
        ((set >> moved.indexOf(task)) & 1) === 1 && moved.includes(task) ? becomes[task]! : at,
      ),
    );
  const allowed = Array.from(
    { length: all + 1 },
    (_, set) => set === 0 || set === all || mayBe(change, after(set)),
  );
  const from = (set: number): number => {
    if (set === all) return 0;
    let most = 0;
    for (let next = set + 1; next <= all; next++)
      if (allowed[next] && (set & next) === set) most = Math.max(most, 1 + from(next));
    return most;
  };
  return from(0);
}

/** Numbers along the floor of the station of each task. */
const numbersOn = (line: Line, { stations }: Plan): number[] => {
  const numberOf = new Map(
    stationIds(
      line,
      Array.from({ length: 30 }, (_, at) => at),
    ).map((id, at) => [id, at]),
  );
  return line.tasks.map((_, task) => numberOf.get(stations.find(({ tasks }) => tasks.includes(task))!.id)!);
};

describe("the steps of up to six moves on a floor", { timeout: LONGEST_TEST }, () => {
  it("are as many as in the best of all orders: one move each wherever that is possible", async () => {
    const counts = { single: 0, together: 0 };
    await fc.assert(
      fc.asyncProperty(
        floorCases({ fewest: 4, most: 6, hasOnePlace: true }).filter(({ line }) => line.floor.length > 0),
        fc.array(fc.nat(3), { minLength: 6, maxLength: 6 }),
        async (given, at) => {
          const change = await changeFrom([given, true, at, -1]);
          if (change === null) return;
          const found = await stepsFor(change);
          const [stationOf, becomes] = [
            numbersOn(change.line, change.from),
            numbersOn(change.line, change.to),
          ];
          if (found === null) {
            expect(stationOf).toEqual(becomes);
            return;
          }
          const most = mostSteps(change, stationOf, becomes);
          expect([found.steps.length, found.isProved]).toEqual([most, true]);
          const moves = found.steps.flatMap((step) => step.moves).length;
          counts[most === moves ? "single" : "together"]++;
        },
      ),
      { seed: 35, numRuns: 160 },
    );
    expect(counts.single).toBeGreaterThan(15);
    expect(counts.together).toBeGreaterThan(7);
  });
});
