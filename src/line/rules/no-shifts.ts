import { found, type LineRule } from "./line-rule.js";

const name = "no-shifts";

export const noShifts: LineRule = {
  name,
  purpose: "A calendar has at least one shift.",
  check(draft) {
    const shifts = draft.keys.calendar?.at.shifts;
    const place = draft.keys.calendar?.keys.shifts;
    if (shifts === undefined || shifts.count > 0 || place === undefined) return [];
    const message =
      "shifts: no shift stands here; a calendar needs at least one, such as `day: {length: 8 h}`";
    return [found(name, draft, { severity: "error", message, place })];
  },
};
