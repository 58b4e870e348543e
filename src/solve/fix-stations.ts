import type { Line } from "../line/line.js";
import { type Plan, planOf } from "../plan/plan.js";
import type { Watch } from "./balance.js";
import { type LevelAnswer, levelStations } from "./level/level-stations.js";
import { type LeastLimitAnswer, leastLimit } from "./search/least-limit.js";
import { verifyLimitBound } from "./verify-limit-bound.js";

/** The best that a fixed number of stations can do. */
export interface FixedStations {
  readonly count: number;
  readonly plan: Plan;
  /** The shortest longest station and its bound, in microseconds. */
  readonly least: LeastLimitAnswer;
  readonly proved: boolean;
}

/**
 * The plan with at most `count` stations whose longest station is shortest, its loads evened out. No limit of the line counts:
 * the plan sets its own pace.
 */
export async function fixStations(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations> {
  const times = line.tasks.map((task) => task.time);
  const least = await leastLimit(times, line.before, count, { nodes }, checkpoint);
  const wrong = verifyLimitBound(times, line.before, least.certificate);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  const problem = { times, limit: Math.max(1, least.limit), before: line.before };
  // The longest station is as short as it gets already; one more partial plan is enough to even out the others.
  const even: LevelAnswer = await levelStations(problem, least.stations, { nodes: 1 }, checkpoint);
  return { count, plan: planOf(even.stations), least, proved: least.limit === least.bound };
}
