import { countOf } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import { topologicalOrder } from "../line/precedence.js";
import { type Plan, planOf } from "../plan/plan.js";
import { type Ratio, ratio, subtract } from "../time/ratio.js";
import { type Cost, STATIONS_FIRST } from "./cost.js";
import { exactLevel } from "./exact-level.js";
import { type CycleReason, cycleReason } from "./explain/cycle-facts.js";
import { layOutWork, type WorkLimits, withoutPace } from "./lay-out-work.js";
import { levelStations } from "./level/level-stations.js";
import { levelWork } from "./level/level-work.js";
import { loadsInParts } from "./parts.js";
import { type Checkpoint, MOST_STATES } from "./search/fewest-stations.js";
import type { LeastLimitAnswer } from "./search/least-limit.js";
import { runSearch } from "./search/run-search.js";
import { asksTimeOnly } from "./search/task-rules.js";
import { toPlan } from "./to-plan.js";
import { verifyLimitBound } from "./verify-limit-bound.js";
import { type Watch, watchTimes } from "./watch-times.js";
import type { Work } from "./work.js";

/** The best that a fixed number of stations can do. */
export interface FixedStations {
  readonly count: number;
  readonly plan: Plan;
  /** The longest station time, in microseconds. */
  readonly slowest: Ratio;
  /** No plan with so many stations has a shorter longest station, and why. */
  readonly slowestBound: Ratio;
  readonly kind: LeastLimitAnswer["certificate"]["kind"];
  readonly reason: CycleReason;
  readonly proved: boolean;
  /** A shorter longest station is at most one part in so many shorter; null where that is not proved, or there is none at all. */
  readonly within: bigint | null;
  readonly nodes: number;
  readonly ended: LeastLimitAnswer["ended"];
}

/** No plan with so many stations: proved that none keeps what is asked of them, or none found before a limit. */
export interface NoFixedStations {
  readonly plan: null;
  readonly isProved: boolean;
}

/**
 * The plan with `count` stations of one place each, from 1 to the number of tasks, whose longest station is shortest, and the smoothest
 * of those; fewer stations may be in use where the floor wants it so. No limit of the line counts: the plan sets its own pace.
 */
export async function fixStations(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations | NoFixedStations> {
  const limits = withoutPace(line);
  const work = layOutWork(line, limits);
  if (asksTimeOnly(work)) return fixByTime(line, count, nodes, checkpoint);
  const watch = watchTimes(line, checkpoint, countOf(count, "station"));
  return fixUnder(line, limits, work, count, nodes, watch);
}

/** The same by time and precedence alone, whatever else is asked of stations: nothing of that is at a bench. */
export async function fixByTime(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations> {
  const watch = watchTimes(line, checkpoint, countOf(count, "station"));
  const times = loadsInParts(line);
  const everything = times.reduce((sum, each) => sum + each, 0);
  const problem = { times, limit: Math.max(1, everything), before: line.before };
  const empty = Array.from({ length: count - 1 }, () => []);
  const level = await levelStations(problem, [topologicalOrder(line.before), ...empty], { nodes }, watch);
  const wrong = verifyLimitBound(times, line.before, level.certificate);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  const { slowest, bound, outcome, within } = exactLevel(line, level);
  return {
    count,
    plan: planOf(level.stations),
    slowest,
    slowestBound: bound,
    kind: level.certificate.kind,
    reason: cycleReason(line, level.certificate),
    proved: outcome === "proved",
    within,
    nodes: level.nodes,
    ended: level.ended,
  };
}

/** Everything else that is asked of stations is kept. */
async function fixUnder(
  line: Line,
  limits: WorkLimits,
  work: Work,
  count: number,
  nodes: number,
  watch: Checkpoint,
): Promise<FixedStations | NoFixedStations> {
  const ceiling = { people: 0, stations: count + 1 };
  const budget = { nodes, memory: MOST_STATES, firstOnly: true } as const;
  const least = { people: 0, stations: 0 };
  const start = { ceiling, aim: STATIONS_FIRST, least, plan: null } as const;
  const asked = async ({ nodes: done, bound }: { nodes: number; bound: Cost }) =>
    watch({ nodes: done, best: 0, bound: bound.stations });
  const first = await runSearch(work, start, budget, asked);
  if (first.plan === null) return { plan: null, isProved: first.ended === "proved" };
  const crew = Math.max(...work.people, work.sides === null ? 1 : 2);
  const aim = { aim: STATIONS_FIRST, ceiling, mostPeople: count * crew } as const;
  const level = await levelWork(line, limits, first.plan, aim, nodes, watch);
  const handling = ratio(line.handling);
  return {
    count,
    plan: toPlan(line, layOutWork(line, { ...limits, slowest: level.slowest }), level.plan),
    slowest: subtract(level.slowest, handling),
    slowestBound: subtract(level.bound, handling),
    kind: "search",
    reason: level.reason,
    proved: level.outcome === "proved",
    within: level.within,
    nodes: first.nodes + level.nodes,
    ended: level.ended === "first" ? "nodes" : level.ended,
  };
}
