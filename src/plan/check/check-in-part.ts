import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import { asWritten, type PlanInPart } from "../file/plan-in-part.js";
import type { PlanReading } from "../file/read-plan.js";
import { crewOf, type Plan, type Station } from "../plan.js";
import { type PlanFinding, planFinding } from "./plan-finding.js";

/** Checks a reading as the plan that it is given. */
export type CheckReading = (
  reading: PlanReading & { readonly plan: Plan },
) => Promise<readonly PlanFinding[]>;

/**
 * Everything wrong with a file that is no plan: what it says wrong itself, and what is wrong with its stations whichever way that is
 * mended. Stations that have one id may be meant as one or as several: only what is wrong with both is told. What hangs on
 * something that could not be read is left out, and so are notes.
 */
export async function checkInPart(
  line: Line,
  reading: PlanReading,
  check: CheckReading,
): Promise<readonly PlanFinding[]> {
  const { inPart } = reading;
  if (inPart === null) return reading.findings.map(planFinding);
  const { plan, findings, written } = inPart;
  const checkAs = (asked: Plan) => check({ ...reading, plan: asked, benches: asked.benches ?? [], findings });
  const apart = await checkAs(plan);
  const keys = new Set(
    (written.size === 0 ? apart : await checkAs(mergeStations(line, inPart))).map((each) =>
      keyOf(each, written),
    ),
  );
  return apart
    .filter((each) => keys.has(keyOf(each, written)) && isCertain(each, inPart))
    .map((each) => asWritten(each, written));
}

/** How far a station is loaded is told under several rules. */
const OF_LOADS = ["slower-than-pace", "max-load", "over-limit"];

/** Of tasks at several stations, told at the first of them, which hangs on how stations are taken. */
const OF_TASKS_ANYWHERE = ["task-twice", "precedence", "together"];

/** The same for findings of one fault, whether stations of one id are taken as one or as several. */
function keyOf({ rule, station, task, message }: PlanFinding, written: PlanInPart["written"]): string {
  const isOfTasks = station === null || OF_TASKS_ANYWHERE.includes(rule);
  const id = isOfTasks ? null : idKey(written.get(station) ?? station);
  const said = rule === "precedence" ? message : "";
  return JSON.stringify([OF_LOADS.includes(rule) ? "load" : rule, id, task && idKey(task), said]);
}

/** Rules that ask for the tasks of a station alone: not for its id, its places or its sides. */
const OF_TASKS = ["missing-task", "task-twice", "precedence", "bench", "empty-station"];
/** Rules that ask how stations stand to one another. */
const OF_ALL_STATIONS = ["station-order", "wait", "equipment", "machine"];

/** Whether it holds whatever could not be read says. */
function isCertain(
  found: PlanFinding,
  { written, isWhole, unlisted, unsure, findings }: PlanInPart,
): boolean {
  const { rule, severity, station, message } = found;
  if (findings.some((own) => own.rule === rule && own.message === message)) return true;
  if (severity === "note") return false;
  if (rule === "missing-task") return isWhole;
  if (OF_ALL_STATIONS.includes(rule)) return isWhole && unsure.size === 0;
  if (station === null) return true;
  if (rule === "empty-station") return !unlisted.has(station);
  if (rule === "behind-floor" && written.has(station)) return false;
  return OF_TASKS.includes(rule) || !unsure.has(station);
}

/** The plan with stations that have one id as one station, where the first of them stands. */
function mergeStations(line: Line, { plan, written }: PlanInPart): Plan {
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
