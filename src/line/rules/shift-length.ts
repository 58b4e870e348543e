import { readGross, shiftEntries } from "../draft-calendar.js";
import { found, type LineRule } from "./line-rule.js";

const name = "shift-length";

export const shiftLength: LineRule = {
  name,
  purpose: "Every shift says how long it is, once.",
  check(draft) {
    return shiftEntries(draft.keys).flatMap((entry) => {
      const gross = readGross(entry);
      if (gross === null || gross.ok) return [];
      return [
        found(name, draft, {
          severity: "error",
          message: `shift ${entry.id}: ${gross.problem}`,
          place: entry.place,
        }),
      ];
    });
  },
};
