import { found, type LineRule } from "./line-rule.js";

const name = "return-to";

export const returnTo: LineRule = {
  name,
  purpose: "Repaired units return to a task before the test, or to the test itself.",
  check(draft) {
    return draft.failures.wrongReturns.map((number) => {
      const { id, keys } = draft.tasks[number]!;
      const { value, place } = keys.test!.at["return-to"]!;
      const to = draft.tasks[draft.numberOf(value)!]!.id;
      const message = `task ${id}, test, return-to: no arrows lead from ${to} to ${id}, so a repaired unit would not come to the test again; name a task before it, or ${id} itself`;
      return found(name, draft, { severity: "error", message, place, task: id });
    });
  },
};
