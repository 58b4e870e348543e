import type { Line } from "../../line/line.js";
import { crewOf, type Plan, type Station } from "../plan.js";

/**
 * The plan with every task at its first place only, stations before benches: work that is listed twice is done once, so no figure
 * counts it twice. The doubling itself is for a finding to tell.
 */
export function eachTaskOnce(line: Line, plan: Plan): Plan {
  const known = new Set<number>();
  const once = (station: Station): Station => {
    const first = station.tasks.map((task) => !known.has(task) && known.add(task) !== null);
    if (first.every(Boolean)) return station;
    const tasks = station.tasks.filter((_, at) => first[at]);
    const sides = station.sides?.filter((_, at) => first[at]) ?? null;
    const persons = station.persons?.filter((_, at) => first[at]) ?? null;
    return { ...station, tasks, sides, persons, crew: crewOf(line, { tasks, sides, persons }) };
  };
  const stations = plan.stations.map(once);
  return plan.benches === undefined ? { stations } : { stations, benches: plan.benches.map(once) };
}
