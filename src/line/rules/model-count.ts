import { found, type LineRule } from "./line-rule.js";

const name = "model-count";

/** Every task has a time for each model, so that more would fill any memory. */
const MOST = 1000;

export const modelCount: LineRule = {
  name,
  purpose: "A line has some models, not one alone and not thousands.",
  check(draft) {
    const { models } = draft.keys;
    if (models === undefined || (models.count > 1 && models.count <= MOST) || models.count === 0) return [];
    if (models.count === 1) {
      const message =
        "models: there is one model only; a line that builds one needs no `models`, and this one gives the same plan";
      return [found(name, draft, { severity: "note", message, place: models.place })];
    }
    const message = `models: ${models.count} models stand here, and at most ${MOST} are taken; put those of the same times together`;
    return [found(name, draft, { severity: "error", message, place: models.place })];
  },
};
