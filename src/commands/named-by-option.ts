import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import type { Plan, Station } from "../plan/plan.js";
import { quoted } from "../time/quoted.js";
import { UsageError } from "./context.js";

/** The station or bench of that id. Throws a UsageError that names what is near. */
export function stationNamed({ stations, benches = [] }: Plan, id: string): Station {
  const all = [...stations, ...benches];
  const found = all.find((each) => idKey(each.id) === idKey(id));
  if (found !== undefined && found.tasks.length > 0) return found;
  if (found !== undefined) throw new UsageError(`--station: ${found.id} has no tasks`);
  const ids = all.map((each) => each.id);
  const near = nearestWordsAmong(ids)(id) || `; the plan has ${ids.join(", ")}`;
  throw new UsageError(`--station: no station of the plan is called ${quoted(id)}${near}`);
}

/** The number of the model; null where none is asked for. Throws a UsageError for one that the line does not have. */
export function modelNamed({ models }: Line, id: string | undefined): number | null {
  if (id === undefined) return null;
  const found = models.findIndex((each) => idKey(each.id) === idKey(id));
  if (found >= 0) return found;
  const ids = models.map((each) => each.id);
  const known = ids.length === 0 ? "; the line has no models" : `; known: ${ids.join(", ")}`;
  throw new UsageError(`--model: no model is called ${quoted(id)}${nearestWordsAmong(ids)(id) || known}`);
}
