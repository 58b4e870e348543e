import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type StationSlack, slackOf } from "../../../src/answer/rebalance/slack.js";
import type { Limit, Line } from "../../../src/line/line.js";
import { withoutPlanTo } from "../../../src/line/line.js";
import { checkPlan } from "../../../src/plan/check/check-plan.js";
import { readPlan } from "../../../src/plan/file/read-plan.js";
import type { Plan, Station } from "../../../src/plan/plan.js";
import { stationIds } from "../../../src/plan/station-numbers.js";
import { verifyPlan } from "../../../src/plan/verify-plan.js";
import { type Pace, paceFromCycle, paceFromDemand } from "../../../src/time/pace.js";
import { add, multiply, ONE, type Ratio, ratio, ZERO } from "../../../src/time/ratio.js";
import { CYCLE, floorCases } from "../../tools/floor-random-line.js";
import { lineOf } from "../../tools/line-of.js";

/*
 * Each figure is held against its meaning: at the highest demand `check` finds no station overloaded, one unit more and it does; and so
 * for the time of a task and one microsecond more.
 */

/** Milliseconds after which a test counts as hung; a limit for slow machines, not a measure. */
const LONGEST_TEST = 240_000;

interface SlackCase {
  readonly line: Line;
  readonly plan: Plan;
  readonly strictLimit: boolean;
  /** Line cycle in microseconds in place of the demand. */
  readonly cycle: number | null;
}

const { calendar } = lineOf(
  "unit: s\ncalendar: {shifts: {early: {length: 8 h}, late: {length: 4 h}}}\ntasks: {a: 1}\n",
);

const limits: fc.Arbitrary<Limit[]> = fc.array(
  fc
    .record({
      name: fc.constant("lifted"),
      per: fc.constantFrom("station", "person", "station-and-shift", "person-and-shift"),
      most: fc.integer({ min: 2, max: 10 }),
      unit: fc.constant("kg"),
    })
    .map(({ most, ...limit }) => ({
      ...limit,
      most: ratio(limit.per.endsWith("shift") ? most * 400 : most),
    })),
  { maxLength: 1 },
);

/** Plans that keep the arrows and some other rules, at demands near and far from what their stations keep. */
const cases = (isSided: boolean): fc.Arbitrary<SlackCase> =>
  fc
    .record({
      given: floorCases({ fewest: 1, most: 6, isSided }),
      at: fc.array(fc.nat(2), { minLength: 6, maxLength: 6 }),
      places: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 3, maxLength: 3 }),
      sides: fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
      demand: fc.integer({ min: 40, max: 200 }),
      tenths: fc.constantFrom(1, 1, 10),
      maxLoad: fc.constantFrom(ONE, ONE, ratio(9, 10)),
      limits,
      lifted: fc.array(fc.nat(40), { minLength: 6, maxLength: 6 }),
      isCycle: fc.boolean(),
      isIdle: fc.nat(11).map((each) => each === 0),
    })
    .map((drawn): SlackCase => {
      const { line: plain, pace, strictLimit } = drawn.given;
      const hasLimits = drawn.limits.length > 0 && !drawn.isCycle;
      const line: Line = {
        ...plain,
        calendar,
        demand: drawn.isCycle ? null : { units: ratio(drawn.demand, drawn.tenths), period: "hour" },
        handling: pace.handling,
        planTo: pace.planTo,
        policy: { ...plain.policy, maxLoad: drawn.maxLoad },
        limits: hasLimits ? drawn.limits : [],
        tasks: plain.tasks.map((task, at) => ({
          ...task,
          ...(drawn.isIdle ? { times: task.times.map((own) => own && 0), walking: 0, load: ZERO } : {}),
          uses: hasLimits ? [{ limit: "lifted", amount: ratio(drawn.lifted[at]!, 10) }] : [],
        })),
      };
      const cycle = drawn.isCycle ? CYCLE * 1_000_000 : null;
      return { line, plan: planAt(line, isSided, drawn), strictLimit, cycle };
    });

function planAt(
  line: Line,
  isSided: boolean,
  drawn: {
    readonly at: readonly number[];
    readonly places: readonly number[];
    readonly sides: readonly boolean[];
  },
): Plan {
  const at: number[] = [];
  for (const [task, before] of line.before.entries())
    at[task] = Math.max(drawn.at[task]!, ...before.map((each) => at[each]!));
  const used = [...new Set(at)].sort((one, two) => one - two);
  const ids = stationIds(line, used);
  const sideOf = (task: number) => {
    const { people, side } = line.tasks[task]!;
    if (people > 1) return "both" as const;
    return side === "either" || side === null ? (drawn.sides[task] ? "left" : "right") : side;
  };
  const stations = used.map((position, index): Station => {
    const tasks = [...line.tasks.keys()].filter((task) => at[task] === position);
    const sides = isSided ? tasks.map(sideOf) : null;
    const hands = new Set(sides?.flatMap((each) => (each === "both" ? ["left", "right"] : [each])));
    const crew = Math.max(1, hands.size, ...tasks.map((task) => line.tasks[task]!.people));
    const most = line.floor[position]?.maxPlaces ?? line.maxPlaces;
    const places = Math.min(most, drawn.places[index]!);
    return { id: ids[index]!, tasks, sides, persons: null, places, crew };
  });
  return { stations };
}

const paceOfCase = (line: Line, cycle: number | null): Pace | null => {
  if (cycle !== null) return paceFromCycle(cycle);
  const pace = paceFromDemand({ ...line, demand: line.demand! });
  return pace.ok ? pace.value : null;
};

const OVERFLOWS = ["slower-than-pace", "max-load", "load", "dwell", "sides", "limit", "model-overload"];

/** Whether the station overflows, by one of the two judges; null where there is no such pace. */
function overflows(
  { line, plan, strictLimit, cycle }: SlackCase,
  { id }: Pick<StationSlack, "id">,
  isChecked: boolean,
): boolean {
  const pace = paceOfCase(line, cycle);
  if (pace === null) return true;
  const own = cycle === null ? line : withoutPlanTo(line);
  const holds = plan.stations
    .find((station) => station.id === id)!
    .tasks.some((task) => line.tasks[task]!.equipment.length > 0);
  const found = isChecked ? checked(own, pace, plan) : verifyPlan(own, pace, plan, strictLimit);
  return found.some(
    ({ rule, station, severity }) =>
      severity === "error" &&
      ((rule === "equipment-hold" && holds) || (station === id && OVERFLOWS.includes(rule))),
  );
}

function checked(line: Line, pace: Pace, plan: Plan) {
  const stations = plan.stations.map(({ id, tasks, places, crew, sides }) => ({
    id,
    tasks: tasks.map((task) => line.tasks[task]!.id),
    places,
    crew,
    ...(sides === null
      ? {}
      : { sides: Object.fromEntries(tasks.map((task, at) => [line.tasks[task]!.id, sides[at]])) }),
  }));
  const text = JSON.stringify({ format: "linepoise-plan/1", stations });
  const reading = readings.get(plan) ?? readPlan("plan.yaml", text, line);
  readings.set(plan, reading);
  const given = { line, pace, plan, reading, benches: [], least: null, fingerprints: [], lineFile: null };
  return checkPlan(given).findings;
}

/** A plan is read once, whatever the demand. */
const readings = new WeakMap<Plan, ReturnType<typeof readPlan>>();

const withDemand = (given: SlackCase, units: Ratio): SlackCase => ({
  ...given,
  line: { ...given.line, demand: { ...given.line.demand!, units } },
});

/** The line with a longer task; its load is worked out anew from times, shares and visits. */
function withLonger(given: SlackCase, task: number, more: number): SlackCase {
  const { line } = given;
  const tasks = line.tasks.map((each, at) => {
    if (at !== task) return each;
    const times = each.times.map((own) => (own === null ? null : own + more));
    const load = times
      .map((own, model): Ratio => {
        const share = times.length === 1 ? ONE : line.models[model]!.share;
        return own === null
          ? ZERO
          : multiply(multiply(share, each.visits[model]!), ratio(own + each.walking));
      })
      .reduce(add, ZERO);
    return { ...each, times, load };
  });
  return { ...given, line: { ...line, tasks } };
}

/** Demands per hour so low, and so high, that what fails there or holds there does so at any. */
const [SLOWEST, FASTEST] = [ratio(1, 10), ratio(1_000_000_000)];

type Kept = StationSlack["kept"];

/** What each figure says of the steps around it, by the demand. */
function tellDemand(given: SlackCase, kept: Kept, step: Ratio, fails: (at: SlackCase) => boolean): string {
  if (kept.demand === null) {
    const isNever = kept.givesWay !== null;
    expect(fails(withDemand(given, isNever ? SLOWEST : FASTEST))).toBe(isNever);
    return isNever ? "never" : "always";
  }
  expect(fails(withDemand(given, kept.demand))).toBe(false);
  expect(fails(withDemand(given, add(kept.demand, step)))).toBe(true);
  return "kept";
}

/** The same by the line cycle, in microseconds. */
function tellCycle(given: SlackCase, kept: Kept, fails: (at: SlackCase) => boolean): string {
  if (kept.lineCycle === null) {
    expect(fails({ ...given, cycle: kept.givesWay === null ? 1 : 1e12 })).toBe(kept.givesWay !== null);
    return "any cycle";
  }
  const least = Number(kept.lineCycle.num);
  expect(fails({ ...given, cycle: least })).toBe(false);
  expect(fails({ ...given, cycle: least - 1 })).toBe(true);
  return "cycle";
}

/** The same by the time of a task. */
function tellTask(given: SlackCase, task: number, more: number | null, fails: (at: SlackCase) => boolean) {
  const times = given.line.tasks[task]!.times.flatMap((own) => own ?? []);
  if (more === null) {
    expect(times.length === 0 || fails(withLonger(given, task, -Math.min(...times)))).toBe(true);
    return "no time";
  }
  expect(fails(withLonger(given, task, more))).toBe(false);
  expect(fails(withLonger(given, task, more + 1))).toBe(true);
  return more < 0 ? "shorter" : "longer";
}

function tellAll(given: SlackCase): string[] {
  const { line, plan, strictLimit, cycle } = given;
  const pace = paceOfCase(line, cycle);
  if (pace === null) return [];
  const slack = slackOf(cycle === null ? line : withoutPlanTo(line), pace, plan, strictLimit);
  expect(slack.stations.map(({ id }) => id)).toEqual(plan.stations.map(({ id }) => id));
  return slack.stations.flatMap((station) => {
    const byCheck = (at: SlackCase) => overflows(at, station, true);
    // Within its limit a station keeps nothing that check refuses for a policy.
    const byLimit = (at: SlackCase) => byCheck(at) || overflows(at, station, !slack.hasReserve);
    const tell = (kept: Kept, fails: typeof byCheck) =>
      cycle === null ? tellDemand(given, kept, slack.step!, fails) : tellCycle(given, kept, fails);
    return [
      tell(station.kept, byCheck),
      tell(station.keptWithinLimit, byLimit),
      ...station.tasks.map(({ task, growth }) => tellTask(given, task, growth, byCheck)),
      ...station.tasks.map(({ task, growthWithinLimit: more }) => tellTask(given, task, more, byLimit)),
    ];
  });
}

const TOLD = ["kept", "never", "always", "cycle", "any cycle", "shorter", "longer", "no time"];

describe.each([
  ["", false, 80],
  [" worked from its sides", true, 80],
] as const)("the slack of a plan%s", { timeout: LONGEST_TEST }, (_, isSided, numRuns) => {
  it("is the last demand and the last task time that check and the verifier pass", () => {
    const told = new Map(TOLD.map((each) => [each, 0]));
    fc.assert(
      fc.property(cases(isSided), (given) => {
        for (const each of tellAll(given)) told.set(each, told.get(each)! + 1);
      }),
      { seed: 513, numRuns },
    );
    expect([...told].filter(([, count]) => count === 0)).toEqual([]);
  });
});
