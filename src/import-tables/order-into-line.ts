import { idKey } from "../line/ids.js";
import { type LineSource, LineUpdate } from "../line/write/update-line.js";
import { chainedBefore, type WrittenTask } from "../line/write/write-tasks.js";
import type { LearntOrder } from "./learn-order.js";
import type { TasksIntoLine } from "./tasks-into-line.js";

/** Puts what orders have shown into the `after` of a line file. What the file says already stays as it is, and so does the rest of it. */
export function orderIntoLine({ arrows }: LearntOrder, file: LineSource): TasksIntoLine {
  const { tasks, before: present } = file.line;
  const update = new LineUpdate(file);
  const chained = chainedBefore(file.document);
  const wanted = new Map<string, readonly string[]>();
  for (const { before, after, isKnown } of arrows) {
    if (isKnown) continue;
    const key = idKey(tasks[after]!.id);
    const own = wanted.get(key) ?? present[after]!.map((each) => tasks[each]!.id);
    wanted.set(key, [...own, tasks[before]!.id]);
  }
  const changed = tasks.flatMap(({ id }): WrittenTask[] => {
    const after = wanted.get(idKey(id));
    const chain = chained.get(idKey(id));
    if (after === undefined) return [];
    return [
      {
        id,
        keys: (time) => (time === null ? [] : [["time", time]]),
        after: after.filter((each) => !chain?.has(idKey(each))),
      },
    ];
  });
  const sorted = (ids: readonly string[]) => ids.map(idKey).sort().join("\n");
  const updated = update.write(
    changed,
    ({ id }, before) => sorted(wanted.get(idKey(id))!) === sorted(before),
  );
  if (updated === null && update.source !== file.source)
    update.tell(
      "error",
      "not-written",
      "nothing is written: with these precedences the file would have the errors told here",
    );
  return { updated, findings: update.findings, source: update.source };
}
