import type { Line } from "../../line/line.js";
import { add, compare, divide, larger, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { inPlans } from "../explain-bound.js";
import { fromParts, partsOf } from "../parts.js";
import type { Checkpoint } from "../search/fewest-stations.js";
import { arrangeFloor, positionsOf } from "./arrange-floor.js";
import type { FilledStation, FloorPlan, FloorProblem } from "./floor-problem.js";
import { type Aim, type Cost, costOf, isCheaper } from "./floor-search.js";
import { type FloorSearchAnswer, MOST_FLOOR_STATES, runFloorSearch } from "./run-floor-search.js";
import { scheduleSides } from "./schedule-sides.js";
import { type FloorLimits, toFloorProblem } from "./to-floor-problem.js";

/** A plan whose slowest station is as fast as could be found, with as many people and stations. */
export interface LevelFloor {
  readonly plan: FloorPlan;
  /** The cycle of the plan, handling included, in microseconds. */
  readonly slowest: Ratio;
  /** No plan with as many people and stations has a shorter one. */
  readonly bound: Ratio;
  /** Why, in words. */
  readonly reason: string;
  readonly outcome: "proved" | "found";
  readonly nodes: number;
  readonly ended: FloorSearchAnswer["ended"];
}

/** What a levelled plan must keep: it stays cheaper than the ceiling, and has no more than so many people. */
export interface LevelAim {
  readonly aim: Aim;
  readonly ceiling: Cost;
  readonly mostPeople: number;
}

/** (Station time + handling) / places of one station, in microseconds. */
function cycleOf(line: Line, problem: FloorProblem, limits: FloorLimits, station: FilledStation): Ratio {
  const { blocks, places } = station;
  const load =
    scheduleSides(problem, station)?.finish ?? blocks.reduce((sum, block) => sum + problem.loads[block]!, 0);
  return divide(add(fromParts(line, load), ratio(limits.pace.handling)), ratio(places));
}

/**
 * Evens out a plan of a line with shop-floor rules: the shortest cycle that as many people and stations can keep, by halving
 * the interval between what is proved impossible and what is found; then moves and swaps of blocks that bring the stations closer
 * to the slowest.
 */
export async function levelFloor(
  line: Line,
  limits: FloorLimits,
  first: FloorPlan,
  { aim, ceiling, mostPeople }: LevelAim,
  nodes: number,
  checkpoint: Checkpoint,
): Promise<LevelFloor> {
  const problem = toFloorProblem(line, limits);
  // A crew is one for the limits that the plan was made under: at longer ones fewer people might do, in more time.
  const slowestOf = (made: FloorPlan, under: FloorProblem) =>
    made.map((station) => cycleOf(line, under, limits, station)).reduce(larger, ZERO);
  // Cycles are whole numbers of these steps, whatever the places of the slowest station.
  const step = ratio(
    1n,
    partsOf(line) * commonMultiple(Math.max(...problem.kinds.map(({ limits: all }) => all.length))),
  );
  let plan = first;
  let slowest = slowestOf(plan, problem);
  let bound = leastCycle(line, problem, limits, mostPeople);
  let open = bound;
  let [used, ended]: [number, FloorSearchAnswer["ended"]] = [0, "proved"];
  while (compare(open, slowest) < 0 && used < nodes) {
    const isLast = compare(subtract(slowest, open), step) <= 0;
    const middle = isLast ? subtract(slowest, step) : halfWay(open, slowest, step);
    const tried = toFloorProblem(line, { ...limits, slowest: middle });
    const budget = {
      nodes: Math.max(1, Math.min(nodes - used, Math.ceil(nodes / SHARES))),
      memory: MOST_FLOOR_STATES,
    };
    const answer = await runFloorSearch(tried, ceiling, aim, budget, (looked) =>
      checkpoint({ nodes: used + looked, best: toParts(line, slowest), bound: toParts(line, bound) }),
    );
    used += answer.nodes;
    ended = answer.ended;
    if (answer.plan !== null) {
      plan = answer.plan;
      slowest = slowestOf(plan, tried);
    } else {
      if (answer.ended === "proved") bound = larger(bound, add(middle, step));
      open = add(middle, step);
    }
    if (answer.ended === "time" || answer.ended === "interrupted") break;
  }
  const proved = compare(bound, slowest) >= 0;
  const reason =
    compare(bound, leastCycle(line, problem, limits, mostPeople)) > 0
      ? `every way to keep anything shorter was ruled out under the rules of the line, ${inPlans(used)}`
      : "the work content shared among as many people, and the longest task, allow nothing shorter";
  const smooth = smoothFloor(line, { ...limits, slowest }, plan, { aim, ceiling });
  return {
    plan: smooth,
    slowest,
    bound: proved ? slowest : bound,
    reason,
    outcome: proved ? "proved" : "found",
    nodes: used,
    ended: proved ? "proved" : ended,
  };
}

const toParts = (line: Line, cycle: Ratio): number => Number((cycle.num * partsOf(line)) / cycle.den);

/** A multiple of the step between the two, rounded down. */
function halfWay(one: Ratio, two: Ratio, step: Ratio): Ratio {
  const half = divide(add(one, two), ratio(2));
  const steps = divide(half, step);
  return ratio((steps.num / steps.den) * step.num, step.den);
}

function commonMultiple(most: number): bigint {
  let common = 1n;
  for (let each = 2n; each <= BigInt(most); each++) common *= ratio(each, common).num;
  return common;
}

/** By the work content shared among the people, and by the longest block. */
function leastCycle(line: Line, problem: FloorProblem, limits: FloorLimits, people: number): Ratio {
  const most = Math.max(...problem.kinds.map(({ limits: all }) => all.length));
  const handling = divide(ratio(limits.pace.handling), ratio(most));
  const work = problem.work.reduce((sum, each) => sum + each, 0);
  const longest = Math.max(...problem.loads);
  const shared = add(divide(fromParts(line, work), ratio(people)), handling);
  // People at both sides of a station work a block of it at the same time.
  const both = problem.sides === null ? 1 : 2;
  return larger(shared, add(divide(fromParts(line, longest), ratio(most * both)), handling));
}

/** Moves and swaps that lower the sum of squared gaps to the slowest station, until none does. */
function smoothFloor(
  line: Line,
  limits: FloorLimits,
  plan: FloorPlan,
  { aim, ceiling }: Pick<LevelAim, "aim" | "ceiling">,
): FloorPlan {
  const problem = toFloorProblem(line, limits);
  const slowest = Number(toParts(line, limits.slowest!));
  const gapsOf = (each: FloorPlan) =>
    each.reduce((sum, station) => {
      const gap = slowest - toParts(line, cycleOf(line, problem, limits, station));
      return sum + gap * gap;
    }, 0);
  let [best, gaps, tries] = [plan, gapsOf(plan), 0];
  const tryOut = (positionOf: readonly number[]): boolean => {
    if (tries++ >= MOST_TRIES) return false;
    const other = arrangeFloor(problem, positionOf);
    if (other === null) return false;
    if (!isCheaper(costOf(other), ceiling, aim)) return false;
    const theirs = gapsOf(other);
    if (theirs >= gaps) return false;
    [best, gaps] = [other, theirs];
    return true;
  };
  for (let isBetter = true; isBetter && tries < MOST_TRIES; ) {
    isBetter = false;
    const now = positionsOf(problem, best);
    const used = best.map(({ position }) => position);
    search: for (let one = 0; one < problem.size; one++) {
      for (const position of used) {
        if (position !== now[one] && tryOut(now.with(one, position))) {
          isBetter = true;
          break search;
        }
      }
      for (let two = one + 1; two < problem.size; two++) {
        if (now[one] !== now[two] && tryOut(now.with(one, now[two]!).with(two, now[one]!))) {
          isBetter = true;
          break search;
        }
      }
    }
  }
  return best;
}

const MOST_TRIES = 20_000;
/** No probe takes more than this part of all partial plans. */
const SHARES = 6;
