import { percent } from "../../time/show-values.js";
import { found, type LineRule } from "./line-rule.js";

const name = "test-on-some-units";

export const testOnSomeUnits: LineRule = {
  name,
  purpose: "Tells where a test is not done on every unit; its share counts over all units.",
  check(draft) {
    return draft.tasks.flatMap(({ id, pieceTimes, keys: { test, every } }) => {
      const share = test?.at.fail ?? test?.at.scrap;
      if (share === undefined) return [];
      const without = pieceTimes.flatMap(({ model, given }) =>
        given.value === null ? (model?.name ?? []) : [],
      );
      const where = [
        ...(every === undefined || every.value === 1 ? [] : [`on one unit in ${every.value}`]),
        ...(without.length === 0 ? [] : [`not on ${without.join(", ")}`]),
      ];
      if (where.length === 0) return [];
      const message = `task ${id}, test: it is done ${where.join(" and ")}; ${percent(share.value, 3)} is taken as the share of all units, tested or not`;
      return [found(name, draft, { severity: "note", message, place: test!.place, task: id })];
    });
  },
};
