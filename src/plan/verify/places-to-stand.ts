import type { Task } from "../../line/line.js";
import { stationIds } from "../station-numbers.js";
import { type Check, fault, listOf, taskFault } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";

/** Tasks stand where the line file lets them: at stations that it lists, not before one and not after another. */
export const checkFixedStations: Check = (view) =>
  [...view.stationOf].flatMap(([task, at]) => {
    const words = outOfPlace(view, at, view.line.tasks[task]!);
    return words === null
      ? []
      : [taskFault("fixed-station", view, at, task, `${words}; it stands at ${at.id}`)];
  });

function outOfPlace({ line }: PlanView, { number }: StationView, task: Task): string | null {
  const { stations, notBefore, notAfter } = task;
  const idOf = (at: number) => stationIds(line, [at])[0]!;
  if (stations !== null && !stations.includes(number))
    return `may stand at ${listOf(stations.map(idOf))} only`;
  if (notBefore !== null && number < notBefore) return `may not stand before ${idOf(notBefore)}`;
  if (notAfter !== null && number > notAfter) return `may not stand after ${idOf(notAfter)}`;
  return null;
}

/** Tasks of different zones never share a station; where the floor has zones, a task with a zone stands in that zone. */
export const checkZones: Check = (view) => {
  if (view.line.floor.some(({ zone }) => zone !== null)) return checkZonesOfFloor(view);
  return view.stations.flatMap(({ id, tasks }) => {
    const zones = new Map<string, string>();
    for (const task of tasks) {
      const { zone, id: name } = view.line.tasks[task]!;
      if (zone !== null && !zones.has(zone)) zones.set(zone, name);
    }
    if (zones.size < 2) return [];
    const found = [...zones].map(([zone, name]) => `${zone} (${name})`);
    return [fault("zone", `${id} holds tasks of ${zones.size} zones: ${listOf(found)}`, id, null)];
  });
};

const checkZonesOfFloor: Check = (view) =>
  [...view.stationOf].flatMap(([task, at]) => {
    const { zone } = view.line.tasks[task]!;
    const own = at.floor?.zone ?? null;
    if (zone === null || zone === own) return [];
    const where = own === null ? "is in no zone" : `is in zone ${own}`;
    return [
      taskFault("zone", view, at, task, `belongs to zone ${zone}; it stands at ${at.id}, which ${where}`),
    ];
  });
