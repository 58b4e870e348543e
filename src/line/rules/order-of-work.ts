import { idKey } from "../ids.js";
import { beforeOf, type LineDraft } from "../line-draft.js";
import { findLoops } from "../loops.js";
import type { Arrow } from "../parts/arrows.js";
import { isLoopFree } from "../precedence.js";
import { impliedArrows } from "../reduced-order.js";
import { found, type LineRule } from "./line-rule.js";

export const namesItself: LineRule = {
  name: "names-itself",
  purpose: "No task comes before itself.",
  check(draft) {
    const inTasks = draft.tasks.flatMap(({ id, after }) =>
      after
        .filter(({ named }) => idKey(named.value) === idKey(id))
        .map(({ named: { place } }) => {
          const message = `task ${id}, after: ${id} names itself; name the tasks before it, or leave it out`;
          return found("names-itself", draft, { severity: "error", message, place, task: id });
        }),
    );
    const inChains = draft.chains.flatMap((chain) =>
      chain
        .filter((named, at) => at > 0 && idKey(named.value) === idKey(chain[at - 1]!.value))
        .map(({ value, place }) => {
          const message = `chains: ${value} stands twice in a row, which would put it before itself; leave one out`;
          return found("names-itself", draft, { severity: "error", message, place, task: value });
        }),
    );
    return [...inTasks, ...inChains];
  },
};

export const loop: LineRule = {
  name: "loop",
  purpose: "The order of work has no loops.",
  check(draft) {
    const firstArrows = new Map<string, Arrow>();
    for (const arrow of draft.arrows) {
      const key = `${arrow.from} ${arrow.to}`;
      const first = firstArrows.get(key);
      // An arrow of every model says more than one of a single model.
      if (first === undefined || (first.model !== null && arrow.model === null)) firstArrows.set(key, arrow);
    }
    return findLoops(draft.before).map((tasks) => refuse(draft, tasks, firstArrows));
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
  const message = `these tasks wait for each other${why}: ${ids.join(" -> ")}; take one of these precedences out (${where})`;
  return found("loop", draft, {
    severity: "error",
    message,
    place: arrows[0]!.place,
    task: draft.tasks[tasks[0]!]!.id,
  });
}

export const repeatedPredecessor: LineRule = {
  name: "repeated-predecessor",
  purpose: "A task names each task before it once.",
  check(draft) {
    return draft.tasks.flatMap(({ id, after }) => {
      const seen = new Set<string>();
      return after.flatMap(({ named: { value, place }, model }) => {
        const before = seen.size;
        if (seen.add(JSON.stringify([idKey(value), model && idKey(model.value)])).size > before) return [];
        const message = `task ${id}, after: ${value} stands here twice; once is enough`;
        return [found("repeated-predecessor", draft, { severity: "note", message, place, task: id })];
      });
    });
  },
};

export const impliedArrow: LineRule = {
  name: "implied-arrow",
  purpose: "Tells which plain precedences others imply already; they do no harm.",
  check(draft) {
    // What one model asks for implies nothing for the others.
    const arrows = draft.arrows.filter(({ model }) => model === null);
    const before = arrows.length === draft.arrows.length ? draft.before : beforeOf(draft.tasks, arrows);
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
      return [found("implied-arrow", draft, { severity: "note", message, place, task: draft.tasks[to]!.id })];
    });
  },
};
