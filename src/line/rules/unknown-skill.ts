import { knownSkills, statesSkills } from "../floor-names.js";
import { valuesOf } from "../line-keys.js";
import type { LineRule } from "./line-rule.js";
import { refuseUnknown } from "./unknown-name.js";

const name = "unknown-skill";

export const unknownSkill: LineRule = {
  name,
  purpose:
    "Where stations or people have skills, every skill of a task is one of them; of stations this is only a warning.",
  check(draft) {
    const known = knownSkills(draft);
    if (known === null || !draft.floor.complete) return [];
    const used = draft.tasks.flatMap(({ id, keys }) =>
      valuesOf(keys.skill).map((named) => ({ named, where: `task ${id}, skill`, task: id })),
    );
    // A floor need not say everything: a skill that no station states binds no task to any.
    return refuseUnknown(name, draft, known, used, statesSkills(draft.floor) ? "warning" : "error");
  },
};
