import { countOf } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import { topologicalOrder } from "../line/precedence.js";
import { type Plan, planOf } from "../plan/plan.js";
import type { Ratio } from "../time/ratio.js";
import { explainLimitBound } from "./explain-limit.js";
import { levelStations } from "./level/level-stations.js";
import { fromParts, loadsInParts } from "./parts.js";
import type { LeastLimitAnswer } from "./search/least-limit.js";
import { verifyLimitBound } from "./verify-limit-bound.js";
import { type Watch, watchTimes } from "./watch-times.js";

/** The best that a fixed number of stations can do. */
export interface FixedStations {
  readonly count: number;
  readonly plan: Plan;
  /** The longest station time, in microseconds. */
  readonly slowest: Ratio;
  /** No plan with so many stations has a shorter longest station, and why. */
  readonly slowestBound: Ratio;
  readonly kind: string;
  readonly reason: string;
  readonly proved: boolean;
  readonly nodes: number;
  readonly ended: LeastLimitAnswer["ended"];
}

/**
 * The plan with `count` stations, from 1 to the number of tasks, whose longest station is shortest, and the smoothest of
 * those. No limit of the line counts: the plan sets its own pace.
 */
export async function fixStations(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations> {
  const times = loadsInParts(line);
  const everything = times.reduce((sum, each) => sum + each, 0);
  const problem = { times, limit: Math.max(1, everything), before: line.before };
  const empty = Array.from({ length: count - 1 }, () => []);
  const watch = watchTimes(line, checkpoint, countOf(count, "station"));
  const level = await levelStations(problem, [topologicalOrder(line.before), ...empty], { nodes }, watch);
  const wrong = verifyLimitBound(times, line.before, level.certificate);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  return {
    count,
    plan: planOf(level.stations),
    slowest: fromParts(line, level.slowest),
    slowestBound: fromParts(line, level.slowestBound),
    kind: level.certificate.kind,
    reason: explainLimitBound(line, level.certificate),
    proved: level.outcome === "proved",
    nodes: level.nodes,
    ended: level.ended,
  };
}
