import { addTo } from "../../findings/add-to.js";
import { isAmong } from "../../findings/finding.js";
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
  const isOfFile = isAmong(findings);
  return apart
    .filter((each) => keys.has(keyOf(each, written)) && (isOfFile(each) || isCertain(each, inPart)))
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
function isCertain(found: PlanFinding, { written, isWhole, unlisted, unsure }: PlanInPart): boolean {
  const { severity, station } = found;
  const { asks } = scopeOfRule(found.rule);
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
    const alike = new Map<string, Station[]>();
    for (const station of stations) addTo(alike, idKey(written.get(station.id) ?? station.id), station);
    return [...alike.values()].map((each) => joined(line, each));
  };
  const stations = merge(plan.stations);
  return plan.benches === undefined ? { stations } : { stations, benches: merge(plan.benches) };
}

function joined(line: Line, stations: readonly Station[]): Station {
  const [first] = stations;
  if (stations.length === 1) return first!;
  const tasks = stations.flatMap((each) => each.tasks);
  const all = <T>(lists: readonly (readonly T[] | null)[]): T[] | null =>
    lists.some((each) => each === null) ? null : lists.flatMap((each) => each!);
  const sides = all(stations.map((each) => each.sides));
  const persons = all(stations.map((each) => each.persons));
  const places = stations.reduce((most, each) => Math.max(most, each.places), 1);
  return { id: first!.id, tasks, sides, persons, places, crew: crewOf(line, { tasks, sides, persons }) };
}
