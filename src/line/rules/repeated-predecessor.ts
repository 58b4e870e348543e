import { idKey } from "../ids.js";
import { found, type LineRule } from "./line-rule.js";

const name = "repeated-predecessor";

export const repeatedPredecessor: LineRule = {
  name,
  purpose: "A task names each task before it once.",
  check(draft) {
    return draft.tasks.flatMap(({ id, after }) => {
      const seen = new Set<string>();
      return after.flatMap(({ named: { value, place }, model }) => {
        const before = seen.size;
        if (seen.add(JSON.stringify([idKey(value), model && idKey(model.value)])).size > before) return [];
        const message = `task ${id}, after: ${value} stands here twice; once is enough`;
        return [found(name, draft, { severity: "note", message, place, task: id })];
      });
    });
  },
};
