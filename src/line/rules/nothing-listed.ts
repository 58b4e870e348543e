import type { Place } from "../../findings/finding.js";
import { found, type LineRule } from "./line-rule.js";

const name = "nothing-listed";

/** Keys of the line whose lists and maps say nothing when they are empty. */
const KEYS = [
  "stations",
  "equipment",
  "people",
  "together",
  "apart",
  "models",
  "sequence",
  "benches",
  "options",
] as const;

export const nothingListed: LineRule = {
  name,
  purpose: "No list is empty that says something only when it is not.",
  check(draft) {
    const refuse = (key: string, place: Place, task: string | null = null) => {
      const where = task === null ? key : `task ${task}, ${key}`;
      const message = `${where}: nothing is listed here; list something, or leave the key out`;
      return found(name, draft, { severity: "error", message, place, task });
    };
    const ofLine = KEYS.flatMap((key) =>
      draft.keys[key]?.count === 0 ? [refuse(key, draft.keys[key].place)] : [],
    );
    const ofTasks = draft.tasks.flatMap(({ id, keys: { station } }) =>
      station?.kind === "list" && station.count === 0 ? [refuse("station", station.place, id)] : [],
    );
    const ofBenches = draft.benches.flatMap(({ id, keys: { tasks } }) =>
      tasks?.kind === "list" && tasks.count === 0 ? [refuse(`bench ${id}, tasks`, tasks.place)] : [],
    );
    return [...ofLine, ...ofTasks, ...ofBenches];
  },
};
