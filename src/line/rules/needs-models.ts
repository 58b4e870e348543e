import type { Place } from "../../findings/finding.js";
import type { LineDraft } from "../line-draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "needs-models";

export const needsModels: LineRule = {
  name,
  purpose: "What is said of models stands beside `models`.",
  check(draft) {
    if (draft.models.given) return [];
    return [...usesOfLine(draft), ...usesOfTasks(draft)].map(({ where, place, task }) => {
      const message = `${where} is about models, and the line has none; give \`models: {city: 60 %, cargo: 40 %}\`, or leave it out`;
      return found(name, draft, { severity: "error", message, place, task });
    });
  },
};

interface Use {
  readonly where: string;
  readonly place: Place;
  readonly task: string | null;
}

function usesOfLine({ places }: LineDraft): Use[] {
  return (["sequence", "model-overload"] as const).flatMap((key) =>
    places[key] === undefined ? [] : [{ where: `\`${key}\``, place: places[key], task: null }],
  );
}

function usesOfTasks({ tasks }: LineDraft): Use[] {
  return tasks.flatMap(({ id, keys, after }) => [
    ...(keys.time?.kind === "record"
      ? [{ where: `task ${id}, time: a map of times`, place: keys.time.place, task: id }]
      : []),
    ...after.flatMap(({ model }) =>
      model === undefined ? [] : [{ where: `task ${id}, after: \`model\``, place: model.place, task: id }],
    ),
  ]);
}
