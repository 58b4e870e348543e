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
      if (!firstArrows.has(key)) firstArrows.set(key, arrow);
    }
    return findLoops(beforeOf(draft)).map((tasks) => refuse(draft, tasks, firstArrows));
  },
};

function refuse(draft: LineDraft, tasks: readonly number[], firstArrows: ReadonlyMap<string, Arrow>) {
  const around = [...tasks, tasks[0]!];
  const arrows = tasks.map((task, at) => firstArrows.get(`${task} ${around[at + 1]}`)!);
  const ids = around.map((task) => draft.tasks[task]!.id).join(" -> ");
  const lines = [...new Set(arrows.map((arrow) => arrow.place.line))].sort((one, two) => one - two);
  const where = lines.length === 1 ? `line ${lines[0]}` : `lines ${lines.join(", ")}`;
  const message = `these tasks wait for each other: ${ids}; take one of the arrows out (${where})`;
  return found(name, draft, {
    severity: "error",
    message,
    place: arrows[0]!.place,
    task: draft.tasks[tasks[0]!]!.id,
  });
}
