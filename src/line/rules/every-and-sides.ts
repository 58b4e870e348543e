import { everyOf } from "../draft-task.js";
import { seldomNumbers } from "../unit-kinds.js";
import { found, type LineRule } from "./line-rule.js";

const name = "every-and-sides";

/** Each number doubles the kinds of units that are worked off one by one. */
const MOST_NUMBERS = 3;

export const everyAndSides: LineRule = {
  name,
  purpose:
    "Few enough kinds of units come of work on every so many units where a line is worked from its sides.",
  check(draft) {
    if (draft.tasks.every(({ keys: { side } }) => side === undefined)) return [];
    const numbers = seldomNumbers(draft.tasks.map(everyOf));
    if (numbers.length <= MOST_NUMBERS) return [];
    const { id, keys } = draft.tasks.find((task) => everyOf(task) === numbers[MOST_NUMBERS])!;
    const shown = numbers.slice(0, -1).join(", ");
    const message = `task ${id}, every: the tasks of this line are done on every ${shown} and ${numbers.at(-1)} units, which makes too many kinds of units for a line worked from its sides, where each kind waits for its own longer side; use up to ${MOST_NUMBERS} different numbers`;
    return [found(name, draft, { severity: "error", message, place: keys.every!.place, task: id })];
  },
};
