import { compare, ONE } from "../../time/ratio.js";
import { percent } from "../../time/show-values.js";
import { draftCalendar } from "../draft-calendar.js";
import { found, type LineRule } from "./line-rule.js";

const name = "losses-counted-twice";

export const lossesCountedTwice: LineRule = {
  name,
  purpose: "Warns where uptime and the calendar may take off the same losses.",
  check(draft) {
    const { uptime } = draft.keys;
    const shifts = draftCalendar(draft.keys)?.shifts ?? [];
    const taken = shifts
      .flatMap((shift) => [...shift.stops, ...shift.changeovers])
      .filter(({ each }) => each > 0);
    if (uptime === undefined || compare(uptime.value, ONE) >= 0 || taken.length === 0) return [];
    const names = [...new Set(taken.map((each) => each.name))].join(", ");
    const message = `uptime is ${percent(uptime.value, 3)} and the calendar takes off ${names}: each loss counts once, so make sure that uptime leaves these out`;
    return [found(name, draft, { severity: "warning", message, place: uptime.place })];
  },
};
