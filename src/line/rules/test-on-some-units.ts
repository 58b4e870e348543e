import { found, type LineRule } from "./line-rule.js";

const name = "test-on-some-units";

export const testOnSomeUnits: LineRule = {
  name,
  purpose:
    "A test is done on every unit; visits of units that some models or some units alone make are not counted yet.",
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
      const message = `task ${id}, test: it is done ${where.join(" and ")}; visits are counted only for tests of every unit yet, so take the test out, or do it on all units`;
      return [found(name, draft, { severity: "error", message, place: test!.place, task: id })];
    });
  },
};
