import { quoted } from "../../time/quoted.js";
import { idKey } from "../ids.js";
import type { TextDraft } from "../schema/draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "duplicate-station";

export const duplicateStation: LineRule = {
  name,
  purpose: "Every station stands once.",
  check(draft) {
    const first = new Map<string, TextDraft<string>>();
    return draft.floor.stations.flatMap(({ keys: { id } }) => {
      if (id === undefined) return [];
      const earlier = first.get(idKey(id.value));
      if (earlier === undefined) {
        first.set(idKey(id.value), id);
        return [];
      }
      const { line, column } = earlier.place;
      const message = `stations: ${quoted(id.value)} stands here a second time; the first is in line ${line}, column ${column}`;
      return [found(name, draft, { severity: "error", message, place: id.place })];
    });
  },
};
