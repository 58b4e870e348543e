import type { DraftTask } from "../draft-task.js";
import { found, type LineRule } from "./line-rule.js";

const name = "zero-time";

export const zeroTime: LineRule = {
  name,
  purpose: "Tells which tasks take no time, such as a gate.",
  check(draft) {
    return draft.tasks.filter(takesNoTime).map(({ id, pieceTimes }) => {
      const { place } = pieceTimes.find(({ given }) => given.value === 0)!.given;
      const message = `task ${id} takes no time; it is placed and shown like any other`;
      return found(name, draft, { severity: "note", message, place, task: id });
    });
  },
};

function takesNoTime({ pieceTimes, keys }: DraftTask): boolean {
  const times = pieceTimes.flatMap(({ given }) => given.value ?? []);
  const others = [keys.walking, keys["machine-time"]];
  return times.length > 0 && times.every((each) => each === 0) && others.every((each) => !each?.value);
}
