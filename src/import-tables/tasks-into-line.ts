import { countOf } from "../findings/count-of.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { idKey } from "../line/ids.js";
import type { Line, Task } from "../line/line.js";
import { type LineSource, LineUpdate, type UpdatedLine } from "../line/write/update-line.js";
import { chainedBefore, type WrittenTask } from "../line/write/write-tasks.js";
import { readNumber } from "../time/exact-number.js";
import type { Micros } from "../time/units.js";
import type { ImportedTask, ImportedTasks } from "./imported-tasks.js";
import { keysOf } from "./line-of-tasks.js";

export interface TasksIntoLine {
  /** Null where an error keeps the tasks from being written. */
  readonly updated: UpdatedLine | null;
  readonly findings: readonly Finding[];
  /** The text that the findings are about. */
  readonly source: string;
}

/**
 * Puts the tasks of a table into a line file. The table speaks of the keys that it has columns for, in the rows where they are filled, and of
 * the order among its own tasks; the rest of the file stays.
 *
 * @param asLine what the reader of line files says of the tasks alone; it is told in place of what it says of the whole file about the same
 */
export function tasksIntoLine(
  imported: ImportedTasks,
  file: LineSource,
  asLine: () => { readonly findings: readonly Finding[] },
): TasksIntoLine {
  const { line } = file;
  const update = new LineUpdate(file);
  const models = new Map(line.models.map(({ id }, number) => [idKey(id), number]));
  const inTable = new Map(imported.tasks.map((task) => [idKey(task.id), task]));
  const order = wantedOrder(imported, line, inTable);
  const chained = chainedBefore(file.document);
  const tasks = imported.tasks.map((task): WrittenTask => {
    const after = order.get(idKey(task.id)) ?? null;
    const chain = chained.get(idKey(task.id)) ?? new Set();
    const keys = new Set(after?.map(idKey));
    const against = after === null ? [] : [...chain].filter((id) => !keys.has(id));
    if (against.length > 0) {
      const message = `${task.id} comes behind ${listOf(against)} in \`chains\` of the line, and not in the table; take that out by hand`;
      update.tell("error", "not-written", message, task.id);
    }
    return {
      id: task.id,
      keys: (present) => {
        const told = present === null ? task : inOneTime(task, line.models.length);
        return keysOf(told, (time) => inUnitOf(line, imported, time)).map(([key, value]) => [key, value]);
      },
      after: after?.filter((id) => !chain.has(idKey(id))) ?? null,
      chained: chain,
    };
  });
  tellKept(
    line.tasks.filter(({ id }) => !inTable.has(idKey(id))),
    update,
  );
  const isWanted = (task: Task, before: readonly string[]) => {
    const key = idKey(task.id);
    const names = order.get(key);
    const isOrdered = names === undefined || sorted(names) === sorted(before);
    return isOrdered && hasTimes(task, inTable.get(key)!, models);
  };
  const updated = update.write(tasks, isWanted);
  if (update.told.length === 0) return { updated, findings: update.findings, source: update.source };
  const ofCells = asLine().findings;
  if (updated === null && hasErrors(ofCells)) return { updated, findings: ofCells, source: file.source };
  const inFile = new Set(update.told.map(sameFinding));
  const shared = ofCells.filter((each) => inFile.has(sameFinding(each)));
  return { updated, findings: [...shared, ...update.findings], source: update.source };
}

/** A file and the cells of a table say the same of a task in other words, as both name places. */
const sameFinding = ({ rule, task }: Finding): string => `${rule} ${task === null ? "" : idKey(task)}`;

/** Whether a task of the line has the times of the table; each is of one piece there. */
function hasTimes(task: Task, { times }: ImportedTask, models: ReadonlyMap<string, number>): boolean {
  const isTime = (time: Micros | null, micros: Micros | null, pieces: number) =>
    time === (micros === null ? null : micros * pieces);
  return times.every(({ model, micros }) => {
    if (model === null) return task.times.some((time) => isTime(time, micros, task.quantity));
    const number = models.get(idKey(model));
    if (number === undefined) return false;
    return isTime(task.times[number]!, micros, task.quantityByModel?.[number] ?? task.quantity);
  });
}

/** The task with one time where all models have the same, as a line says it that has one time for all. */
function inOneTime(task: ImportedTask, models: number): ImportedTask {
  const [first, ...others] = task.times;
  const isSame = first.micros !== null && others.every(({ micros }) => micros === first.micros);
  return isSame && task.times.length === models ? { ...task, times: [{ ...first, model: null }] } : task;
}

const sorted = (ids: readonly string[]): string => ids.map(idKey).sort().join("\n");

/** The tasks before each by the table and by orders of work, and those of the line that the table does not have; nothing where the table tells no order. */
function wantedOrder(
  { tasks, columns, orders }: ImportedTasks,
  line: Line,
  inTable: ReadonlyMap<string, ImportedTask>,
): ReadonlyMap<string, readonly string[]> {
  if (!columns.has("after") && !columns.has("before") && orders === null) return new Map();
  const numbers = new Map(line.tasks.map(({ id }, number) => [idKey(id), number]));
  return new Map(
    tasks.map(({ id, after }) => {
      const number = numbers.get(idKey(id));
      const present = number === undefined ? [] : line.before[number]!.map((each) => line.tasks[each]!.id);
      const others = present.filter((each) => !inTable.has(idKey(each)));
      return [idKey(id), [...new Map([...after, ...others].map((each) => [idKey(each), each])).values()]];
    }),
  );
}

function tellKept(kept: readonly Task[], update: LineUpdate): void {
  if (kept.length === 0) return;
  const names = kept.slice(0, 6).map(({ id }) => id);
  const more = kept.length > names.length ? ` and ${kept.length - names.length} more` : "";
  const [stay, them] = kept.length === 1 ? ["stays", "it"] : ["stay", "them"];
  const message = `${countOf(kept.length, "task")} of the line ${stay}, as the table does not have ${them}: ${names.join(", ")}${more}`;
  update.tell("warning", "not-in-table", message);
}

/** A time of the table in the line: bare where both have the same unit. */
function inUnitOf({ unit: own }: Line, { unit }: ImportedTasks, time: string): string {
  const isBare = readNumber(time) !== null;
  return isBare && unit !== null && unit.unit !== own ? `${time} ${unit.unit}` : time;
}
