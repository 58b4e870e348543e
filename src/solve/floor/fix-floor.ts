import { countOf } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { ONE, ratio, subtract, ZERO } from "../../time/ratio.js";
import type { FixedStations } from "../fix-stations.js";
import { layOutWork, type WorkLimits } from "../lay-out-work.js";
import { toPlan } from "../to-plan.js";
import { type Watch, watchTimes } from "../watch-times.js";
import { levelFloor } from "./level-floor.js";
import { MOST_FLOOR_STATES, runFloorSearch } from "./run-floor-search.js";

/**
 * The shortest cycle that so many stations can keep on a line with shop-floor rules, one place each; fewer stations may be in use
 * where the rules want it so.
 */
export async function fixFloor(
  line: Line,
  count: number,
  nodes: number,
  checkpoint: Watch,
): Promise<FixedStations | NoFixedStations> {
  const limits: WorkLimits = { pace: withoutPace(line), strictLimit: true, slowest: null, free: true };
  const problem = layOutWork(line, limits);
  const ceiling = { people: 0, stations: count + 1 };
  const budget = { nodes, memory: MOST_FLOOR_STATES, firstOnly: true } as const;
  const first = await runFloorSearch(problem, ceiling, "stations", budget, () => null);
  if (first.plan === null) return { plan: null, isProved: first.ended === "proved" };
  const crew = Math.max(...problem.people, problem.sides === null ? 1 : 2);
  const aim = { aim: "stations", ceiling, mostPeople: count * crew } as const;
  const watch = watchTimes(line, checkpoint, countOf(count, "station"));
  const level = await levelFloor(line, limits, first.plan, aim, nodes, watch);
  const handling = ratio(line.handling);
  return {
    count,
    plan: toPlan(line, layOutWork(line, { ...limits, slowest: level.slowest }), level.plan),
    slowest: subtract(level.slowest, handling),
    slowestBound: subtract(level.bound, handling),
    kind: "search",
    reason: level.reason,
    proved: level.outcome === "proved",
    nodes: first.nodes + level.nodes,
    ended: level.ended === "first" ? "nodes" : level.ended,
  };
}

/** No plan with so many stations: proved that none keeps the rules, or none found before a limit. */
export interface NoFixedStations {
  readonly plan: null;
  readonly isProved: boolean;
}

/** Only handling counts: the plan sets its own pace. */
function withoutPace(line: Line): Pace {
  return {
    takt: null,
    lineCycle: ZERO,
    handling: line.handling,
    planTo: ONE,
    workingTime: ZERO,
    stationLimit: ZERO,
  };
}
