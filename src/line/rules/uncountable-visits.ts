import { beforeOf } from "../line-draft.js";
import { isLoopFree } from "../precedence.js";
import { found, type LineRule } from "./line-rule.js";

const name = "uncountable-visits";

export const uncountableVisits: LineRule = {
  name,
  purpose: "How often failures make tasks be done again can be counted exactly.",
  check(draft) {
    if (draft.failures.visits !== null || !isLoopFree(beforeOf(draft))) return [];
    const { id, keys } = draft.tasks[draft.failures.tests.findIndex((test) => test !== null)]!;
    const message =
      "the tests of this line send units back in so many ways that how often each task is done has hundreds of digits; let fewer tests lie between a test and what it returns to, or round the shares";
    return [found(name, draft, { severity: "error", message, place: keys.test!.place, task: id })];
  },
};
