import type { Finding } from "../findings/finding.js";
import { idKey } from "../line/ids.js";
import type { ImportedTasks } from "./imported-tasks.js";
import { learnOrder } from "./learn-order.js";
import type { BuiltUnit, NamedTask } from "./read-orders.js";

/** What orders may call the tasks of a table. */
export const namesOf = ({ tasks }: ImportedTasks): NamedTask[] =>
  tasks.map(({ id, texts }) => {
    const name = texts.get("name")?.text;
    return { id, name: typeof name === "string" ? name : null };
  });

/** The tasks of a table with what orders have shown besides its own precedences; null where they contradict it or each other. */
export function orderIntoTable(
  imported: ImportedTasks,
  units: readonly BuiltUnit[],
): { readonly imported: ImportedTasks | null; readonly findings: readonly Finding[] } {
  const { file, tasks, models } = imported;
  const numbers = new Map(tasks.map(({ id }, task) => [idKey(id), task]));
  const known = tasks.map(({ after }) =>
    after.flatMap((id) => numbers.get(idKey(id)) ?? []).sort((one, two) => one - two),
  );
  const asked = namesOf(imported).map((each, task) => {
    const every = tasks[task]!.texts.get("every")?.text ?? "1";
    const isOnAll = every === "1" && tasks[task]!.times.every(({ micros }) => micros !== null);
    return { ...each, file, place: null, isOnAll };
  });
  const ofModels = models.map((_, model) =>
    [...tasks.keys()].filter((task) => tasks[task]!.times[model]!.micros !== null),
  );
  const { learnt, findings } = learnOrder(asked, known, ofModels, units);
  if (learnt === null) return { imported: null, findings };
  const added = learnt.arrows.filter(({ isKnown }) => !isKnown);
  const ordered = tasks.map((task, number) => {
    const more = added.flatMap(({ before, after }) => (after === number ? [tasks[before]!.id] : []));
    return { ...task, after: [...task.after, ...more] };
  });
  const named = new Set(ordered.flatMap(({ after }) => after.map(idKey)));
  return {
    imported: {
      ...imported,
      tasks: ordered,
      orders: { units: units.length, precedences: added.length },
      starts: ordered.filter(({ after }) => after.length === 0).map(({ id }) => id),
      ends: ordered.filter(({ id }) => !named.has(idKey(id))).map(({ id }) => id),
    },
    findings,
  };
}
