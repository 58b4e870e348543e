import type { LineDraft } from "../line-draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "model-times";

export const modelTimes: LineRule = {
  name,
  purpose: "A task with times by model names every model, and at least one has it.",
  check(draft) {
    const { given, complete } = draft.models;
    if (!given || !complete) return [];
    return draft.tasks.flatMap(({ id, keys: { time } }) => {
      if (time?.kind !== "record") return [];
      const missing = missingModels(draft, time.entries);
      if (missing.length > 0) {
        const message = `task ${id}, time: nothing is said of ${missing.join(", ")}; give a time, or say "-" where a model does not have the task`;
        return [found(name, draft, { severity: "error", message, place: time.place, task: id })];
      }
      const absent = time.entries.length > 0 && time.entries.every(({ value }) => value?.value === null);
      if (!absent) return [];
      const message = `task ${id}, time: no model has the task; it is placed and takes no time`;
      return [found(name, draft, { severity: "warning", message, place: time.place, task: id })];
    });
  },
};

function missingModels({ models }: LineDraft, entries: readonly { readonly id: string }[]): string[] {
  const named = new Set(entries.map(({ id }) => models.numberOf(id)));
  return models.models.filter((_, number) => !named.has(number)).map(({ id }) => id);
}
