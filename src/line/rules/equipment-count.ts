import { countOf } from "../../findings/count-of.js";
import { idKey } from "../ids.js";
import { valuesOf } from "../line-keys.js";
import { found, type LineRule } from "./line-rule.js";

const name = "equipment-count";

export const equipmentCount: LineRule = {
  name,
  purpose: "No more stations have an equipment than exist of it.",
  check(draft) {
    return (draft.keys.equipment?.entries ?? []).flatMap(({ id, place, value }) => {
      const holders = draft.floor.stations.filter(({ keys }) =>
        valuesOf(keys.equipment).some((each) => idKey(each.value) === idKey(id)),
      );
      if (value === undefined || holders.length <= value.value) return [];
      const names = holders.map((station) => station.id).join(", ");
      const exist = value.value === 1 ? "only 1 exists" : `only ${value.value} exist`;
      const message = `equipment ${id}: ${countOf(holders.length, "station")} (${names}) have it and ${exist}; take it off a station, or correct the count`;
      return [found(name, draft, { severity: "error", message, place })];
    });
  },
};
