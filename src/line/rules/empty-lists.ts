import type { Place } from "../../findings/finding.js";
import { idKey } from "../ids.js";
import { GROUP_KEYS } from "../parts/groups.js";
import { found, type LineRule } from "./line-rule.js";

export const noTasks: LineRule = {
  name: "no-tasks",
  purpose: "A line has at least one task.",
  check(draft) {
    const { tasks } = draft.keys;
    if (tasks === undefined || tasks.count > 0 || draft.places.tasks === undefined) return [];
    const message = "tasks: no task stands here; a line needs at least one, such as `fit-fork: 40 s`";
    return [found("no-tasks", draft, { severity: "error", message, place: draft.places.tasks })];
  },
};

/** Keys of the line whose lists and maps say nothing when they are empty. */
const KEYS = [
  "stations",
  "equipment",
  "people",
  "together",
  "apart",
  "limits",
  "models",
  "sequence",
  "spacing",
  "benches",
  "options",
  "buffers",
  "breakdowns",
] as const;

export const nothingListed: LineRule = {
  name: "nothing-listed",
  purpose: "No list is empty that says something only when it is not.",
  check(draft) {
    const refuse = (key: string, place: Place, task: string | null = null) => {
      const where = task === null ? key : `task ${task}, ${key}`;
      const message = `${where}: nothing is listed here; list something, or leave the key out`;
      return found("nothing-listed", draft, { severity: "error", message, place, task });
    };
    const ofLine = KEYS.flatMap((key) =>
      draft.keys[key]?.count === 0 ? [refuse(key, draft.keys[key].place)] : [],
    );
    const ofTasks = draft.tasks.flatMap(({ id, keys: { station } }) =>
      station?.kind === "list" && station.count === 0 ? [refuse("station", station.place, id)] : [],
    );
    const ofUses = draft.tasks.flatMap(({ id, keys: { uses } }) =>
      uses?.count === 0 ? [refuse("uses", uses.place, id)] : [],
    );
    const ofStations = draft.floor.stations.flatMap(({ id, keys: { limits } }) =>
      limits?.count === 0 ? [refuse(`station ${id}, limits`, limits.place)] : [],
    );
    const ofBenches = draft.benches.flatMap(({ id, keys: { tasks } }) =>
      tasks?.kind === "list" && tasks.count === 0 ? [refuse(`bench ${id}, tasks`, tasks.place)] : [],
    );
    return [...ofLine, ...ofTasks, ...ofUses, ...ofStations, ...ofBenches];
  },
};

export const noShifts: LineRule = {
  name: "no-shifts",
  purpose: "A calendar has at least one shift.",
  check(draft) {
    const shifts = draft.keys.calendar?.at.shifts;
    const place = draft.keys.calendar?.keys.shifts;
    if (shifts === undefined || shifts.count > 0 || place === undefined) return [];
    const message =
      "shifts: no shift stands here; a calendar needs at least one, such as `day: {length: 8 h}`";
    return [found("no-shifts", draft, { severity: "error", message, place })];
  },
};

export const shortChain: LineRule = {
  name: "short-chain",
  purpose: "A chain names two tasks or more.",
  check(draft) {
    return (draft.keys.chains?.items ?? [])
      .filter((chain) => chain.count < 2)
      .map(({ count, place }) => {
        const has = count === 0 ? "no task" : "one task";
        const message = `chains: this chain names ${has}; it takes two to make a precedence`;
        return found("short-chain", draft, { severity: "error", message, place });
      });
  },
};

export const shortGroup: LineRule = {
  name: "short-group",
  purpose: "What is kept together or apart is two different tasks or more.",
  check(draft) {
    return GROUP_KEYS.flatMap((key) =>
      draft.groups[key].flatMap(({ named, count, place }) => {
        const different = new Set(named.map((each) => idKey(each.value))).size;
        if (count > named.length || different > 1) return [];
        const has = count === 0 ? "no task" : count === 1 ? "one task" : `${named[0]!.value} only`;
        const message = `${key}: this list names ${has}; two different tasks or more are expected`;
        return [found("short-group", draft, { severity: "error", message, place })];
      }),
    );
  },
};
