import type { Line } from "../line/line.js";
import type { Plan } from "../plan/plan.js";
import { matchStations, movesBetween } from "../rebalance/match-stations.js";

/**
 * Tasks of both plans that change their station or bench, or go from one to the other. Stations are matched as `rebalance` matches
 * them, benches by what is built there.
 */
export function movesToPlan(line: Line, from: Plan, to: Plan): number {
  const [before, after] = [benchesOf(from), benchesOf(to)];
  const atLine = (plan: Plan) => new Set(plan.stations.flatMap(({ tasks }) => tasks));
  const [onBefore, onAfter] = [atLine(from), atLine(to)];
  const off = after.stations.flatMap(({ tasks }) => tasks).filter((task) => onBefore.has(task));
  const on = before.stations.flatMap(({ tasks }) => tasks).filter((task) => onAfter.has(task));
  const matched = matchStations({ ...line, floor: [] }, before, after);
  const benchBefore = new Map(
    before.stations.flatMap(({ tasks }, at) => tasks.map((task) => [task, at] as const)),
  );
  const between = after.stations.flatMap(({ tasks }, at) =>
    tasks.filter((task) => benchBefore.has(task) && benchBefore.get(task) !== matched[at]),
  );
  return movesBetween(line, from, to).length + off.length + on.length + between.length;
}

const benchesOf = ({ benches }: Plan): Plan => ({ stations: benches ?? [] });
