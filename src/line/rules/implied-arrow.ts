import { impliedArrows } from "../implied-arrows.js";
import { beforeOf } from "../line-draft.js";
import { isLoopFree } from "../precedence.js";
import { found, type LineRule } from "./line-rule.js";

const name = "implied-arrow";

export const impliedArrow: LineRule = {
  name,
  purpose: "Tells which plain arrows others imply already; they do no harm.",
  check(draft) {
    // What one model asks for implies nothing for the others.
    const arrows = draft.arrows.filter(({ model }) => model === null);
    const before = beforeOf({ tasks: draft.tasks, arrows });
    if (!isLoopFree(before)) return [];
    const detours = new Map(impliedArrows(before).map((path) => [`${path[0]} ${path.at(-1)}`, path]));
    const told = new Set<string>();
    return arrows.flatMap(({ from, to, place, stations }) => {
      // An arrow that keeps stations between its tasks says more than the way around it.
      if (stations > 0) return [];
      const key = `${from} ${to}`;
      const detour = detours.get(key);
      if (detour === undefined || told.has(key)) return [];
      told.add(key);
      const ids = detour.map((task) => draft.tasks[task]!.id);
      const message = `${ids[0]} -> ${ids.at(-1)} is implied by ${ids.join(" -> ")}`;
      return [found(name, draft, { severity: "note", message, place, task: draft.tasks[to]!.id })];
    });
  },
};
