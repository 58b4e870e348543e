import { valuesByModel } from "../parts/by-model.js";
import { found, type LineRule } from "./line-rule.js";

export const liftingOfOne: LineRule = {
  name: "lifting-of-one",
  purpose: "Distances of a lift stand beside its mass, at a task of one person.",
  check(draft) {
    return draft.tasks.flatMap(({ id, keys: { lifting, lift, people } }) => {
      if (lifting === undefined) return [];
      const team = Math.max(1, ...valuesByModel(people, 1, draft.models).map((each) => each ?? 1));
      const faults = [
        ...(lift === undefined ? ["gives no mass; say it with `lift`, such as lift: 14 kg"] : []),
        ...(team > 1 ? [`is for a lift by one person, and ${team} do the task; leave it out`] : []),
      ];
      return faults.map((each) => {
        const message = `task ${id}: lifting ${each}`;
        return found("lifting-of-one", draft, { severity: "error", message, place: lifting.place, task: id });
      });
    });
  },
};
