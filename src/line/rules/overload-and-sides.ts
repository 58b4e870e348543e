import { found, type LineRule } from "./line-rule.js";

const name = "overload-and-sides";

export const overloadAndSides: LineRule = {
  name,
  purpose: "The overload of models is not asked for where a wide product is worked from its sides.",
  check(draft) {
    const overload = draft.keys["model-overload"];
    if (overload === undefined) return [];
    return draft.tasks.flatMap(({ id, keys: { side } }) => {
      if (side === undefined) return [];
      // Each model would need start times of its own, which no search here looks for.
      const message = `task ${id}, side: a line with \`model-overload\` (line ${overload.place.line}) cannot be worked from its sides yet; take one of the two out`;
      return [found(name, draft, { severity: "error", message, place: side.place, task: id })];
    });
  },
};
