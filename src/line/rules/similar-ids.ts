import { lookAlike } from "../look-alikes.js";
import { found, type LineRule } from "./line-rule.js";

const name = "similar-ids";

export const similarIds: LineRule = {
  name,
  purpose: "Warns of ids that people take for one another.",
  check(draft) {
    const seen = new Map<string, { id: string; line: number }>();
    const inFile = [...draft.tasks].sort(
      (one, two) => one.place.line - two.place.line || one.place.column - two.place.column,
    );
    return inFile.flatMap(({ id, place }) => {
      const look = lookAlike(id);
      const first = seen.get(look);
      if (first === undefined) {
        seen.set(look, { id, line: place.line });
        return [];
      }
      const message = `task ${id} looks like task ${first.id} (line ${first.line}): they differ only in case, script or leading zeros, and are two tasks`;
      return [found(name, draft, { severity: "warning", message, place, task: id })];
    });
  },
};
