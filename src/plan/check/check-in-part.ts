import { isSameFinding } from "../../findings/finding.js";
import { idKey } from "../../line/ids.js";
import type { Line } from "../../line/line.js";
import { asWritten, type PlanInPart } from "../file/plan-in-part.js";
import type { PlanReading } from "../file/read-plan.js";
import { crewOf, type Plan, type Station } from "../plan.js";
import { scopeOfRule } from "./check-rules.js";
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

/** The same for findings of one fault, whether stations of one id are taken as one or as several. */
function keyOf({ rule, station, task, fact }: PlanFinding, written: PlanInPart["written"]): string {
  const { isOfLoad, spans } = scopeOfRule(rule);
  const id = station === null || spans ? null : idKey(written.get(station) ?? station);
  const needs = fact?.kind === "out-of-order" ? fact.needs : "";
  return JSON.stringify([isOfLoad ? "load" : rule, id, task && idKey(task), needs]);
}

/** Whether it holds whatever could not be read says. */
function isCertain(
  found: PlanFinding,
  { written, isWhole, unlisted, unsure, findings }: PlanInPart,
): boolean {
  const { severity, station } = found;
  const { asks } = scopeOfRule(found.rule);
  if (findings.some((own) => isSameFinding(own, found))) return true;
  if (severity === "note") return false;
  if (asks === "all-tasks") return isWhole;
  if (asks === "all-stations") return isWhole && unsure.size === 0;
  if (station === null) return true;
  if (asks === "any-task") return !unlisted.has(station);
  if (asks === "id" && written.has(station)) return false;
  return asks === "tasks" || !unsure.has(station);
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
  const persons = one.persons === null || other.persons === null ? null : [...one.persons, ...other.persons];
  const places = Math.max(one.places, other.places);
  return { id: one.id, tasks, sides, persons, places, crew: crewOf(line, { tasks, sides, persons }) };
}
