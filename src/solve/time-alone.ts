import type { Line } from "../line/line.js";
import type { Pace } from "../time/pace.js";
import { type Bound, staticBounds } from "./bounds/bound.js";
import { PeopleBound } from "./bounds/people-bound.js";
import type { Cost } from "./cost.js";
import { fillByTime } from "./fill-stations.js";
import { layOutWork } from "./lay-out-work.js";
import { loadsInParts } from "./parts.js";
import type { StationProblem } from "./problem.js";
import { fewestStations } from "./search/fewest-stations.js";
import { arrangeBlocks } from "./station/arrange-blocks.js";
import { blocksWithoutStation, rulesOf } from "./station/task-rules.js";
import { verifyBound } from "./verify-bound.js";
import type { Watch } from "./watch-times.js";
import type { BlockPlan, Work } from "./work.js";

/** What a line needs by time and precedence alone, whatever else is asked of its stations; tasks by their numbers. */
export interface TimeAlone {
  readonly problem: StationProblem;
  /** Bounds known before any search, best first. */
  readonly bounds: readonly Bound[];
  /** More is asked of stations, so that what is needed may be more. */
  readonly leavesOut: boolean;
}

/** With loads rounded down, so that what is needed is needed of true ones; null where stations may have several places, sides or crews that share a unit. */
export function timeAlone(line: Line, low: Work): TimeAlone | null {
  if (low.kinds.some(({ limits, atOnce }) => limits.length > 1 || atOnce > 1)) return null;
  const limit = Math.max(...low.kinds.map(({ limits }) => limits[0]!));
  if (limit < 1) return null;
  const times = loadsInParts(line, "down").map((load) => Math.min(load, limit));
  const problem = { times, limit, before: line.before };
  return { problem, bounds: staticBounds(problem), leavesOut: rulesOf(low) !== null };
}

/** A bound that holds whatever else is asked of stations, and a plan that may keep all of it. */
export interface FoundByTime {
  readonly bound: Bound | null;
  readonly plan: BlockPlan | null;
  readonly nodes: number;
}

/** The best bound without a search. */
export function boundByTime(alone: TimeAlone | null): FoundByTime {
  if (alone === null) return { bound: null, plan: null, nodes: 0 };
  return { bound: checked(alone.problem, alone.bounds[0]!), plan: null, nodes: 0 };
}

function checked(problem: StationProblem, bound: Bound): Bound {
  const wrong = verifyBound(problem, bound);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  return bound;
}

/**
 * The same with a search, in a part of the partial plans. It says nothing new where nothing is left out, as the search of the work then is
 * the same.
 */
export async function searchByTime(
  work: Work,
  { problem }: TimeAlone,
  nodes: number,
  checkpoint: Watch,
): Promise<FoundByTime> {
  const first = fillByTime(problem, [...problem.times.keys()]);
  const answer = await fewestStations(problem, first, { nodes }, checkpoint);
  const positionOf = work.loads.map(() => 0);
  const stationOf = new Map(answer.stations.flatMap((tasks, at) => tasks.map((task) => [task, at] as const)));
  // Of tasks that stand together the last one says where.
  for (const [block, tasks] of work.members.entries())
    positionOf[block] = Math.max(...tasks.map((task) => stationOf.get(task)!));
  return {
    bound: checked(problem, answer.bound),
    plan: arrangeBlocks(work, positionOf),
    nodes: answer.nodes,
  };
}

/** No plan has fewer people or fewer stations, by bounds alone. */
export function rootCost(work: Work, bound: Bound | null, byZone = 0): Cost {
  const root = new PeopleBound(work).of([...work.loads.keys()]);
  const stations = Math.max(root.stations, bound?.stations ?? 0, byZone);
  return { people: Math.max(root.people, stations), stations };
}

/** The same of a line; null where some task fits no station. */
export function leastCost(line: Line, pace: Pace, strictLimit: boolean): Cost | null {
  const work = layOutWork(line, { pace, strictLimit, slowest: null, free: false }, "down");
  if (blocksWithoutStation(work).length > 0) return null;
  return rootCost(work, timeAlone(line, work)?.bounds[0] ?? null);
}
