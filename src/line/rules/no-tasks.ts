import { found, type LineRule } from "./line-rule.js";

const name = "no-tasks";

export const noTasks: LineRule = {
  name,
  purpose: "A line has at least one task.",
  check(draft) {
    const { tasks } = draft.keys;
    if (tasks === undefined || tasks.count > 0 || draft.places.tasks === undefined) return [];
    const message = "tasks: no task stands here; a line needs at least one, such as `fit-fork: 40 s`";
    return [found(name, draft, { severity: "error", message, place: draft.places.tasks })];
  },
};
