import { knownZones } from "../floor-names.js";
import type { LineRule } from "./line-rule.js";
import { refuseUnknown } from "./unknown-name.js";

const name = "unknown-zone";

export const unknownZone: LineRule = {
  name,
  purpose: "Where stations stand in zones, every zone of a task is one of them.",
  check(draft) {
    const known = knownZones(draft);
    if (known === null || !draft.floor.complete) return [];
    const used = draft.tasks.flatMap(({ id, keys }) =>
      keys.zone === undefined ? [] : [{ named: keys.zone, where: `task ${id}, zone`, task: id }],
    );
    return refuseUnknown(name, draft, known, used);
  },
};
