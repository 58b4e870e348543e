import { found, type LineRule } from "./line-rule.js";

const name = "mean-of-sides";

export const meanOfSides: LineRule = {
  name,
  purpose:
    "Says where units differ on a line worked from its sides, whose station times are those of a mean unit.",
  check(draft) {
    const sided = draft.tasks.find(({ keys: { side } }) => side !== undefined);
    if (sided === undefined) return [];
    const differs = draft.tasks.find(
      ({ pieceTimes, keys: { every, test } }) =>
        pieceTimes.some(({ model }) => model !== null) ||
        (every?.value ?? 1) > 1 ||
        test?.at.fail !== undefined,
    );
    if (differs === undefined) return [];
    // Each unit waits for its own longer side, and the mean of the longer is not the longer of the means.
    const message = `task ${differs.id}: units differ, and stations with sides are planned for the mean unit yet; each unit waits for its own longer side, so on average a station may take longer than is shown and proved`;
    return [found(name, draft, { severity: "warning", message, place: differs.place, task: differs.id })];
  },
};
