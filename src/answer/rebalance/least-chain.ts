import { type Line, mayDouble } from "../../line/line.js";
import { topologicalOrder } from "../../line/precedence.js";
import { peopleOf } from "../../plan/figures/people.js";
import { crewOf, ONE_PERSON, type Plan, type Station } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import { layOutWork } from "../../solve/lay-out-work.js";
import type { Pace } from "../../time/pace.js";
import { ceiling, floor } from "../../time/ratio.js";
import { keepOrder, orderOfWork } from "./trade-offs.js";

/** One of several demands between which a line changes. */
export interface ChainLink {
  readonly line: Line;
  readonly pace: Pace;
  readonly mostPeople: number;
  /** Today's plan may stay as it is, be it over a station limit. */
  readonly todayStands: boolean;
}

/** The plans with the least sum of changes of all, whatever was found before. */
export interface LeastChain {
  readonly cost: number;
  /** Null where no plans have a lower sum than the one known. */
  readonly plans: readonly Plan[] | null;
}

/** The station of each task, in order of flow; -1 for one at no station. */
type Assignment = readonly number[];

/** Lines of more tasks have too many plans. */
const MOST_TASKS = 12;
/** So many stations of tasks are tried, so many plans verified and so many pairs of them compared before it is given up. */
const MOST_STEPS = 200_000;
const MOST_VERIFIED = 3_000;
const MOST_PAIRS = 400_000;

/**
 * The least sum of changes on a small line: every plan of each demand that is near enough to today's for a lower sum (no chain of
 * changes is shorter than the change from one end to the other) is listed, and the shortest way through them found. Null where there
 * are too many, and where tasks alone do not say which plan it is: with sides, machines, parallel places, or ids that tell how far apart stations
 * stand.
 *
 * @param nearest the demand whose plan today's plan changes to
 * @param known a sum that plans are known for
 */
export function leastChain(
  links: readonly ChainLink[],
  nearest: number,
  from: Plan,
  costs: readonly number[],
  known: number,
  strictLimit: boolean,
): LeastChain | null {
  const today = assignmentOf(links[0]!.line, from);
  const listed: Assignment[][] = [];
  for (const link of links) {
    const plans = everyPlanNear(link, today, costs, known - 1, strictLimit);
    if (plans === null) return null;
    listed.push(plans);
  }
  const pairs = listed.slice(1).reduce((sum, plans, at) => sum + plans.length * listed[at]!.length, 0);
  if (pairs > MOST_PAIRS) return null;
  const found = shortest(listed, nearest, today, costs);
  if (found === null || found.cost >= known) return { cost: known, plans: null };
  const plans = found.way.map((assignment, at) =>
    assignment === today ? from : planAt(links[at]!.line, from, assignment),
  );
  return { cost: found.cost, plans };
}

function assignmentOf(line: Line, { stations }: Plan): Assignment {
  return line.tasks.map((_, task) => stations.findIndex(({ tasks }) => tasks.includes(task)));
}

/** Every plan of one place a station to which the change from today's costs no more than that; null where there are too many. */
function everyPlanNear(
  { line, pace, mostPeople, todayStands }: ChainLink,
  today: Assignment,
  costs: readonly number[],
  mostCost: number,
  strictLimit: boolean,
): Assignment[] | null {
  const isSided = line.tasks.some(({ side }) => side !== null);
  if (line.tasks.length > MOST_TASKS || mayDouble(line) || isSided) return null;
  const work = layOutWork(line, { pace, strictLimit, slowest: null, free: false });
  if (work.isPositional || work.schedule !== null) return null;
  const order = topologicalOrder(line.before);
  // Whole microseconds, rounded so that nothing is left out; the verifier decides.
  const least = line.tasks.map(({ load }) => Number(floor(load)));
  const most = Number(ceiling(pace.workingTime));
  const loads = Array<number>(Math.min(mostPeople, line.tasks.length)).fill(0);
  const held = loads.map(() => 0);
  const at: number[] = line.tasks.map(() => -1);
  const found: Assignment[] = [];
  let [steps, verified] = [0, 0];
  const place = (turn: number, used: number): boolean => {
    if (++steps > MOST_STEPS) return false;
    if (turn === order.length) {
      // Without its empty stations it is another of these plans.
      if (held.slice(0, used).includes(0) || distance(today, at, costs) > mostCost) return true;
      if (++verified > MOST_VERIFIED) return false;
      const plan = stationsOf(line, at);
      if (peopleOf(plan) <= mostPeople && verifyPlan(line, pace, plan, strictLimit).length === 0)
        found.push([...at]);
      return true;
    }
    const task = order[turn]!;
    const first = Math.max(0, ...line.before[task]!.map((each) => at[each]!));
    for (let station = first; station < loads.length; station++) {
      if (loads[station]! + least[task]! > most) continue;
      at[task] = station;
      loads[station]! += least[task]!;
      held[station]!++;
      const goesOn = place(turn + 1, Math.max(used, station + 1));
      loads[station]! -= least[task]!;
      held[station]!--;
      if (!goesOn) return false;
    }
    return true;
  };
  if (!place(0, 0)) return null;
  if (todayStands) found.push(today);
  return found;
}

/** What the moves between two plans cost at the least: stations matched in order of flow so that most is kept. */
function distance(one: Assignment, two: Assignment, costs: readonly number[]): number {
  const [rows, columns] = [Math.max(...one) + 1, Math.max(...two) + 1];
  const shared = new Float64Array(rows * columns);
  let all = 0;
  for (const [task, row] of one.entries()) {
    const column = two[task]!;
    if (row < 0 || column < 0) continue;
    shared[row * columns + column]! += costs[task]!;
    all += costs[task]!;
  }
  // Longest common parts, row by row.
  let above = new Float64Array(columns + 1);
  for (let row = 0; row < rows; row++) {
    const now = new Float64Array(columns + 1);
    for (let column = 0; column < columns; column++) {
      const kept = above[column]! + shared[row * columns + column]!;
      now[column + 1] = Math.max(now[column]!, above[column + 1]!, kept);
    }
    above = now;
  }
  return all - above[columns]!;
}

/** From today's plan to one of the nearest demand and on to both ends; null where some demand has none. */
function shortest(
  listed: readonly (readonly Assignment[])[],
  nearest: number,
  today: Assignment,
  costs: readonly number[],
): { readonly cost: number; readonly way: readonly Assignment[] } | null {
  if (listed.some((plans) => plans.length === 0)) return null;
  const up = waysOut(listed.slice(nearest), costs);
  const down = waysOut(listed.slice(0, nearest + 1).toReversed(), costs);
  let best: { readonly cost: number; readonly at: number } | null = null;
  for (const [at, plan] of listed[nearest]!.entries()) {
    const cost = distance(today, plan, costs) + up[at]!.cost + down[at]!.cost;
    if (best === null || cost < best.cost) best = { cost, at };
  }
  const [ahead, behind] = [up[best!.at]!, down[best!.at]!];
  return { cost: best!.cost, way: [...behind.way.toReversed(), ...ahead.way.slice(1)] };
}

interface WayOut {
  readonly cost: number;
  readonly way: readonly Assignment[];
}

/** For each plan of the first demand the least sum of changes to the last one, and the plans on that way. */
function waysOut(listed: readonly (readonly Assignment[])[], costs: readonly number[]): WayOut[] {
  let ways: WayOut[] | null = null;
  for (const plans of listed.toReversed()) {
    const next = ways;
    ways = plans.map((plan): WayOut => {
      if (next === null) return { cost: 0, way: [plan] };
      let best: WayOut | null = null;
      for (const way of next) {
        const cost = way.cost + distance(plan, way.way[0]!, costs);
        if (best === null || cost < best.cost) best = { cost, way: way.way };
      }
      return { cost: best!.cost, way: [plan, ...best!.way] };
    });
  }
  return ways ?? [];
}

function stationsOf(line: Line, at: Assignment): Plan {
  const order = topologicalOrder(line.before);
  const stations = Array.from({ length: Math.max(...at) + 1 }, (_, station): Station => {
    const tasks = order.filter((task) => at[task] === station);
    const crew = crewOf(line, { ...ONE_PERSON, tasks });
    return { ...ONE_PERSON, id: `S${station + 1}`, tasks, crew };
  });
  return { stations };
}

const planAt = (line: Line, from: Plan, at: Assignment): Plan => ({
  stations: stationsOf(line, at).stations.map((station) => keepOrder(line, orderOfWork(from), station)),
});
