import { countOf } from "../../findings/count-of.js";
import type { Finding } from "../../findings/finding.js";
import { type Check, fault } from "./fault.js";
import type { PlanView, StationView } from "./plan-view.js";
import { isWholeCount } from "./whole-times.js";

/** Every station has a whole number of places from 1 to what it may have. */
export const checkPlaces: Check = ({ line, stations }) =>
  stations.flatMap(({ id, station: { places }, floor }) => {
    const most = floor?.maxPlaces ?? line.maxPlaces;
    if (isWholeCount(places) && places <= most) return [];
    const range = most === 1 ? "1 is allowed" : `1 to ${most} are allowed`;
    return [fault("places", `${id} has ${countOf(places, "place")}; ${range}`, id, null)];
  });

/**
 * The crew of a station is the largest number of people that a task needs together, one for each side in use, and as many as the plan
 * numbers where it says who does which task.
 */
export const checkCrew: Check = (view) => [
  ...view.stations.flatMap((station) => checkCrewOf(view, station)),
  ...view.benches.flatMap((bench) => checkCrewOf({ ...view, isSided: false }, bench)),
];

function checkCrewOf(
  { line, isSided }: PlanView,
  { id, tasks, sides, persons, station: { crew } }: StationView,
): Finding[] {
  if (isSided && sides === null) return [];
  let [wanted, why] = [1, "one person at a time works there"];
  for (const task of tasks) {
    const { people, id: name } = line.tasks[task]!;
    if (people > wanted) [wanted, why] = [people, `${name} needs ${people} people together`];
  }
  for (const [at, who] of (persons ?? []).entries()) {
    const last = who.reduce((largest, each) => Math.max(largest, each), 0);
    if (last > wanted) [wanted, why] = [last, `${line.tasks[tasks[at]!]!.id} is done by person ${last}`];
  }
  const isUsed = (side: "left" | "right") => sides?.some((each) => each === side || each === "both") ?? false;
  if (isSided && wanted < 2 && isUsed("left") && isUsed("right"))
    [wanted, why] = [2, "both sides are worked"];
  if (crew === wanted) return [];
  const message = `${id} has a crew of ${crew}; ${wanted} is expected, as ${why}`;
  return [fault("crew", message, id, null, { kind: "crew" })];
}
