import { found, type LineRule } from "./line-rule.js";

const name = "station-range";

export const stationRange: LineRule = {
  name,
  purpose: "The first station that may hold a task does not come after the last.",
  check(draft) {
    return draft.tasks.flatMap(({ id, keys }) => {
      const [first, last] = [keys["not-before"], keys["not-after"]];
      if (first === undefined || last === undefined) return [];
      const [from, to] = [draft.floor.numberOf(first.value), draft.floor.numberOf(last.value)];
      if (from === undefined || to === undefined || from <= to) return [];
      const message = `task ${id}: not-before ${first.value} comes after not-after ${last.value}, so no station is left; exchange them, or take one out`;
      return [found(name, draft, { severity: "error", message, place: first.place, task: id })];
    });
  },
};
