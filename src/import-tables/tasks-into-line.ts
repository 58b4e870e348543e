import { countOf } from "../findings/count-of.js";
import { type Finding, finding, hasErrors } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { idKey } from "../line/ids.js";
import type { Line } from "../line/line.js";
import { readLine } from "../line/read-line.js";
import type { ChangedLines } from "../line/write/source-edits.js";
import { type ChangedTask, chainedBefore, type WrittenTask, writeTasks } from "../line/write/write-tasks.js";
import { readNumber } from "../time/exact-number.js";
import type { ImportedTask, ImportedTasks } from "./imported-tasks.js";
import { keysOf } from "./line-of-tasks.js";

/** A line file with the tasks of a table in it. */
export interface UpdatedLine {
  readonly text: string;
  readonly lines: readonly ChangedLines[];
  readonly tasks: readonly ChangedTask[];
}

export interface IntoLine {
  /** Null where an error keeps the tasks from being written. */
  readonly updated: UpdatedLine | null;
  readonly findings: readonly Finding[];
  /** The text that the findings are about: that of the file, or what it would have become. */
  readonly source: string;
}

/**
 * Puts the tasks of a table into a line file. The table speaks of the keys that it has columns for, in the rows where they are filled, and of
 * the order among its own tasks; the rest of the file stays.
 */
export function tasksIntoLine(imported: ImportedTasks, line: Line, source: string): IntoLine {
  const findings: Finding[] = [];
  const numbers = new Map(line.tasks.map(({ id }, number) => [idKey(id), number]));
  const inTable = new Map(imported.tasks.map((task) => [idKey(task.id), task]));
  const tell = (severity: Finding["severity"], rule: string, message: string, id: string | null) => {
    const task = id === null ? undefined : line.tasks[numbers.get(idKey(id))!];
    findings.push(
      finding({ rule, severity, message, file: line.file, place: task?.place ?? null, task: id }),
    );
  };
  const hasOrder = imported.columns.has("after") || imported.columns.has("before");
  const chained = chainedBefore(source);
  /** The tasks before it by the table, and those of the line that the table does not have. */
  const wantedAfter = (task: ImportedTask): string[] | null => {
    if (!hasOrder) return null;
    const number = numbers.get(idKey(task.id));
    const present = number === undefined ? [] : line.before[number]!.map((each) => line.tasks[each]!.id);
    const others = present.filter((id) => !inTable.has(idKey(id)));
    return [...new Map([...task.after, ...others].map((id) => [idKey(id), id])).values()];
  };
  const tasks = imported.tasks.map((task): WrittenTask => {
    const after = wantedAfter(task);
    const chain = chained.get(idKey(task.id)) ?? new Set();
    if (after !== null) {
      const keys = new Set(after.map(idKey));
      const against = [...chain].filter((id) => !keys.has(id));
      if (against.length > 0)
        tell(
          "error",
          "not-written",
          `${task.id} comes behind ${listOf(against)} in \`chains\` of the line, and not in the table; take that out by hand`,
          task.id,
        );
    }
    return {
      id: task.id,
      keys: keysOf(task, (time) => inUnitOf(line, imported, time)).map(([key, value]) => [key, value]),
      after: after?.filter((id) => !chain.has(idKey(id))) ?? null,
    };
  });
  const kept = line.tasks.filter(({ id }) => !inTable.has(idKey(id)));
  if (kept.length > 0) {
    const names = kept.slice(0, 6).map(({ id }) => id);
    const more = kept.length > names.length ? ` and ${kept.length - names.length} more` : "";
    const stay = kept.length === 1 ? "stays" : "stay";
    tell(
      "warning",
      "not-in-table",
      `${countOf(kept.length, "task")} of the line ${stay}, as the table does not have ${kept.length === 1 ? "it" : "them"}: ${names.join(", ")}${more}`,
      null,
    );
  }
  const { text, lines, tasks: changed, refused } = writeTasks(source, line.unit, tasks);
  for (const { id, key } of refused)
    tell(
      "error",
      "not-written",
      `\`${key}\` of ${id} cannot be replaced, as it is by model, over several lines, or an alias (*name); write it there by hand`,
      id,
    );
  if (hasErrors(findings)) return { updated: null, findings, source };
  const after = readLine(line.file, text);
  if (after.line === null) return { updated: null, findings: [...findings, ...after.findings], source: text };
  const spoilt = spoiltTask(
    line,
    after.line,
    imported,
    tasks.map((task, at) => [task.id, wantedAfter(imported.tasks[at]!)]),
  );
  if (spoilt !== null) {
    tell(
      "error",
      "not-written",
      `nothing is written: ${spoilt} would not be as it should; aliases (*name) may stand for it`,
      null,
    );
    return { updated: null, findings, source };
  }
  return { updated: { text, lines, tasks: changed }, findings, source };
}

/** A time of the table in the line: bare where both have the same unit. */
function inUnitOf({ unit: own }: Line, { unit }: ImportedTasks, time: string): string {
  const isBare = readNumber(time) !== null;
  return isBare && unit !== null && unit.unit !== own ? `${time} ${unit.unit}` : time;
}

const plain = (_: string, value: unknown): unknown => (typeof value === "bigint" ? String(value) : value);

/** A task that changed without being asked for, or that did not become what the table says; null where all is right. */
function spoiltTask(
  before: Line,
  after: Line,
  imported: ImportedTasks,
  order: readonly (readonly [string, readonly string[] | null])[],
): string | null {
  const tellOf = (line: Line) =>
    new Map(
      line.tasks.map((task, number) => [
        idKey(task.id),
        { task, names: line.before[number]!.map((each) => idKey(line.tasks[each]!.id)) },
      ]),
    );
  const [was, now] = [tellOf(before), tellOf(after)];
  const wanted = new Map(imported.tasks.map((task) => [idKey(task.id), task]));
  for (const [key, { task, names }] of was) {
    const present = now.get(key);
    if (present === undefined) return task.id;
    if (wanted.has(key)) continue;
    const bare = ({ place: _place, visits: _visits, load: _load, test: _test, ...rest }: typeof task) =>
      JSON.stringify(rest, plain);
    if (bare(task) !== bare(present.task) || names.join("\n") !== present.names.join("\n")) return task.id;
  }
  for (const [id, names] of order) {
    const present = now.get(idKey(id));
    if (present === undefined) return id;
    if (names !== null && [...names].map(idKey).sort().join("\n") !== [...present.names].sort().join("\n"))
      return id;
    const { quantity, times } = present.task;
    if (times.every((time) => time !== wanted.get(idKey(id))!.micros * quantity)) return id;
  }
  return null;
}
