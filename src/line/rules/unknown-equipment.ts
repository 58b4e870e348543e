import { knownEquipment } from "../floor-names.js";
import { valuesOf } from "../line-keys.js";
import type { LineRule } from "./line-rule.js";
import { refuseUnknown } from "./unknown-name.js";

const name = "unknown-equipment";

export const unknownEquipment: LineRule = {
  name,
  purpose: "Where equipment is counted, all that tasks need and stations have is.",
  check(draft) {
    const known = knownEquipment(draft);
    if (known === null) return [];
    const atStations = draft.floor.stations.flatMap(({ id, keys }) =>
      valuesOf(keys.equipment).map((named) => ({ named, where: `station ${id}, equipment`, task: null })),
    );
    const inTasks = draft.tasks.flatMap(({ id, keys }) =>
      valuesOf(keys.equipment).map((named) => ({ named, where: `task ${id}, equipment`, task: id })),
    );
    return refuseUnknown(name, draft, known, [...atStations, ...inTasks]);
  },
};
