import type { Arrow } from "../draft-arrows.js";
import { beforeOf, type LineDraft } from "../line-draft.js";
import { findLoops } from "../loops.js";
import { found, type LineRule } from "./line-rule.js";

const name = "loop";

export const loop: LineRule = {
  name,
  purpose: "The order of work has no loops.",
  check(draft) {
    const firstArrows = new Map<string, Arrow>();
    for (const arrow of draft.arrows) {
      const key = `${arrow.from} ${arrow.to}`;
      const first = firstArrows.get(key);
      // An arrow of every model says more than one of a single model.
      if (first === undefined || (first.model !== null && arrow.model === null)) firstArrows.set(key, arrow);
    }
    return findLoops(beforeOf(draft)).map((tasks) => refuse(draft, tasks, firstArrows));
  },
};

function refuse(draft: LineDraft, tasks: readonly number[], firstArrows: ReadonlyMap<string, Arrow>) {
  const around = [...tasks, tasks[0]!];
  const arrows = tasks.map((task, at) => firstArrows.get(`${task} ${around[at + 1]}`)!);
  const ids = around.map((task, at) => {
    const model = arrows[at - 1]?.model ?? null;
    return `${draft.tasks[task]!.id}${model === null ? "" : ` (model ${model})`}`;
  });
  const lines = [...new Set(arrows.map((arrow) => arrow.place.line))].sort((one, two) => one - two);
  const where = lines.length === 1 ? `line ${lines[0]}` : `lines ${lines.join(", ")}`;
  const why = arrows.some(({ model }) => model !== null) ? ", since one order serves all models" : "";
  const message = `these tasks wait for each other${why}: ${ids.join(" -> ")}; take one of the arrows out (${where})`;
  return found(name, draft, {
    severity: "error",
    message,
    place: arrows[0]!.place,
    task: draft.tasks[tasks[0]!]!.id,
  });
}
