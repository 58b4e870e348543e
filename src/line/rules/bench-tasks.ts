import type { LineDraft } from "../line-draft.js";
import type { TextDraft } from "../schema/draft.js";
import { found, type LineRule } from "./line-rule.js";

const name = "bench-tasks";

export const benchTasks: LineRule = {
  name,
  purpose: "A task is built at one bench, and a bench of several stations has a task for each.",
  check(draft) {
    return [...refuseDoubles(draft), ...refuseMoreStations(draft)];
  },
};

function refuseDoubles(draft: LineDraft) {
  const first = new Map<number, { readonly bench: string; readonly named: TextDraft<string> }>();
  return draft.benches.flatMap(({ id, tasks }) =>
    tasks.flatMap(({ task, named }) => {
      const earlier = first.get(task);
      if (earlier === undefined) {
        first.set(task, { bench: id, named });
        return [];
      }
      const there = `bench ${earlier.bench} (line ${earlier.named.place.line}, column ${earlier.named.place.column})`;
      const message = `bench ${id}: ${draft.tasks[task]!.id} is built at ${there} already; a task is built at one bench, once`;
      return [
        found(name, draft, { severity: "error", message, place: named.place, task: draft.tasks[task]!.id }),
      ];
    }),
  );
}

function refuseMoreStations(draft: LineDraft) {
  return draft.benches.flatMap(({ id, keys, tasks, named }) => {
    const { stations } = keys;
    const count = new Set(tasks.map(({ task }) => task)).size;
    if (stations === undefined || count < named.length || count === 0 || stations.value <= count) return [];
    const message = `bench ${id}: ${stations.value} stations for ${count === 1 ? "1 task" : `${count} tasks`}; a station needs a task, so at most ${count} are expected`;
    return [found(name, draft, { severity: "error", message, place: stations.place })];
  });
}
