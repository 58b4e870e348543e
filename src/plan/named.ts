import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import type { Plan, Station } from "./plan.js";

/** The station or bench of that id which has tasks; or what is near. */
export function stationNamed({ stations, benches = [] }: Plan, id: string): Reading<Station> {
  const all = [...stations, ...benches];
  const found = all.find((each) => idKey(each.id) === idKey(id));
  if (found !== undefined) return found.tasks.length > 0 ? accept(found) : refuse(`${found.id} has no tasks`);
  const ids = all.map((each) => each.id);
  const near = nearestWordsAmong(ids)(id) || `; the plan has ${ids.join(", ")}`;
  return refuse(`no station of the plan is called ${quoted(id)}${near}`);
}

/** The number of the model of that id; or what is near. */
export function modelNamed({ models }: Line, id: string): Reading<number> {
  const found = models.findIndex((each) => idKey(each.id) === idKey(id));
  if (found >= 0) return accept(found);
  const ids = models.map((each) => each.id);
  const known = ids.length === 0 ? "; the line has no models" : `; known: ${ids.join(", ")}`;
  return refuse(`no model is called ${quoted(id)}${nearestWordsAmong(ids)(id) || known}`);
}

/** The tasks of these ids, by number; or what is near each that there is none of. */
export function tasksNamed({ tasks }: Line, ids: readonly string[]): Reading<number[]> {
  const numbers = new Map(tasks.map(({ id }, at) => [idKey(id), at]));
  const unknown = [...new Set(ids)].filter((id) => !numbers.has(idKey(id)));
  if (unknown.length === 0) return accept(ids.map((id) => numbers.get(idKey(id))!));
  const near = nearestWordsAmong(tasks.map(({ id }) => id));
  return refuse(unknown.map((id) => `no task of the line is called "${id}"${near(id)}`).join("; "));
}
