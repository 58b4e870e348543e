import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import { crewOf } from "../crew.js";
import type { PlanInPart } from "../file/plan-in-part.js";
import type { Plan, Station } from "../plan.js";

/** The plan with stations that have one id as one station, where the first of them stands. */
export function mergeStations(line: Line, { plan, written }: PlanInPart): Plan {
  const merge = (stations: readonly Station[]): Station[] => {
    const merged: Station[] = [];
    for (const station of stations) {
      const id = written.get(station.id);
      const at = merged.findIndex((each) => id !== undefined && idKey(each.id) === idKey(id));
      if (at < 0) merged.push(station);
      else merged[at] = joined(line, merged[at]!, station);
    }
    return merged;
  };
  const stations = merge(plan.stations);
  return plan.benches === undefined ? { stations } : { stations, benches: merge(plan.benches) };
}

function joined(line: Line, one: Station, other: Station): Station {
  const tasks = [...one.tasks, ...other.tasks];
  const sides = one.sides === null || other.sides === null ? null : [...one.sides, ...other.sides];
  const places = Math.max(one.places, other.places);
  return { id: one.id, tasks, sides, places, crew: crewOf(line, { tasks, sides }) };
}
