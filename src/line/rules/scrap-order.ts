import { beforeOf, type LineDraft } from "../line-draft.js";
import { isLoopFree } from "../precedence.js";
import { scrapOrders } from "../scrap-order.js";
import { found, type LineRule } from "./line-rule.js";

const name = "scrap-order";

/** More names fit no message. */
const NAMED = 8;

export const scrapOrder: LineRule = {
  name,
  purpose: "Tells which tasks are taken to come before or after a test that scraps units.",
  check(draft) {
    const before = beforeOf(draft);
    if (!isLoopFree(before)) return [];
    return scrapOrders(before, draft.failures.tests).map(({ test, asBefore, asAfter }) => {
      const { id, keys } = draft.tasks[test]!;
      const taken = [
        ...(asBefore.length > 0
          ? [`taken as done before, on scrapped units too: ${namesOf(draft, asBefore)}`]
          : []),
        ...(asAfter.length > 0 ? [`taken as done after: ${namesOf(draft, asAfter)}`] : []),
      ];
      const message = `task ${id}, test: no arrows say what is done before units are scrapped here; ${taken.join("; ")}; visits and loads count on it, so say with \`after\` where it is otherwise`;
      return found(name, draft, { severity: "warning", message, place: keys.test!.place, task: id });
    });
  },
};

function namesOf(draft: LineDraft, tasks: readonly number[]): string {
  const names = tasks.slice(0, NAMED).map((task) => draft.tasks[task]!.id);
  return tasks.length <= NAMED ? names.join(", ") : `${names.join(", ")} and ${tasks.length - NAMED} more`;
}
