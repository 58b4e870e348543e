import { found, type LineRule } from "./line-rule.js";

const name = "zero-time";

export const zeroTime: LineRule = {
  name,
  purpose: "Tells which tasks take no time, such as a gate.",
  check(draft) {
    return draft.tasks
      .filter((task) => task.pieceTime?.value === 0)
      .map(({ id, pieceTime }) => {
        const message = `task ${id} takes no time; it is placed and shown like any other`;
        return found(name, draft, { severity: "note", message, place: pieceTime!.place, task: id });
      });
  },
};
