import { foreignLookAlikes } from "../look-alikes.js";
import { found, type LineRule } from "./line-rule.js";

const name = "mixed-scripts";

export const mixedScripts: LineRule = {
  name,
  purpose: "Warns of ids that hide a Cyrillic or Greek letter among Latin ones.",
  check(draft) {
    return draft.tasks.flatMap(({ id, place }) => {
      const foreign = foreignLookAlikes(id);
      if (foreign.length === 0) return [];
      const message = `task ${id} mixes scripts: ${foreign.join(", ")} among Latin letters; retype the id if that was a slip`;
      return [found(name, draft, { severity: "warning", message, place, task: id })];
    });
  },
};
