import type { LineDraft } from "../line-draft.js";
import type { LineRule } from "./line-rule.js";
import { refuseUnknown, type UsedName } from "./unknown-name.js";

const name = "unknown-model";

export const unknownModel: LineRule = {
  name,
  purpose: "Every model that is named is one of `models`.",
  check(draft) {
    const { given, complete, models } = draft.models;
    if (!given || !complete || models.length === 0) return [];
    const refuse = (id: string) => `no model is called ${id}`;
    const names = models.map(({ id }) => id);
    return refuseUnknown(name, draft, { names, refuse }, [...namesInTasks(draft), ...namesInSequence(draft)]);
  },
};

function namesInTasks({ tasks }: LineDraft): UsedName[] {
  return tasks.flatMap(({ id, keys, after }) => {
    const entries = keys.time?.kind === "record" ? keys.time.entries : [];
    return [
      ...entries.map((each) => ({
        named: { text: each.id, value: each.id, place: each.place },
        where: `task ${id}, time`,
        task: id,
      })),
      ...after.flatMap(({ model }) =>
        model === undefined ? [] : [{ named: model, where: `task ${id}, after, model`, task: id }],
      ),
    ];
  });
}

function namesInSequence({ keys }: LineDraft): UsedName[] {
  return (keys.sequence?.items ?? []).map((named) => ({ named, where: "sequence", task: null }));
}
