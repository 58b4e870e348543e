import { type Finding, hasErrors } from "../findings/finding.js";
import type { LineSource } from "../line/write/update-line.js";
import { readTable } from "../table/read-table.js";
import type { Table, TableOptions } from "../table/table.js";
import type { TimeUnit } from "../time/units.js";
import type { ImportedTasks, TasksReading } from "./imported-tasks.js";
import { namesOf, orderIntoTable } from "./order-into-table.js";
import { readOrderFiles, type TableFile } from "./read-order-files.js";
import { readTaskTable } from "./read-task-table.js";
import type { GivenColumns } from "./task-columns.js";

/** What a user may say of a table of tasks. */
export interface ReadTasksOptions extends TableOptions {
  readonly unit?: TimeUnit;
  readonly columns?: GivenColumns;
  readonly ranges?: boolean;
  readonly nothing: readonly string[];
  readonly decimals?: "," | ".";
  readonly hasOrders: boolean;
  /** Tables with the orders of units, asked for once the tasks are known. */
  orders(): Promise<readonly TableFile[]>;
}

export interface ReadTasks {
  /** Null where an error keeps the table from being tasks. */
  readonly imported: ImportedTasks | null;
  readonly asLine: TasksReading["asLine"];
  readonly findings: readonly Finding[];
  /** The texts that findings are about, by file. */
  readonly sources: ReadonlyMap<string, string>;
}

/**
 * The tasks of a table, with the precedences of orders where there are some.
 *
 * @param into the line that takes them; null where they become one
 * @param otherwise says of a table that is not one of tasks what it is
 */
export async function readTasks(
  { file, bytes }: TableFile,
  options: ReadTasksOptions,
  into: LineSource | null,
  otherwise: (table: Table) => Finding | null,
): Promise<ReadTasks> {
  const { delimiter, sheet, unit, columns, ranges, nothing, decimals } = options;
  const { table, findings } = await readTable(file, bytes, {
    ...(delimiter !== undefined && { delimiter }),
    ...(sheet !== undefined && { sheet }),
  });
  const sources = new Map<string, string>();
  if (table !== null && table.source !== null) sources.set(file, table.source);
  const asLine = (): ReturnType<TasksReading["asLine"]> => ({ line: null, findings: [] });
  if (table === null || hasErrors(findings)) return { imported: null, asLine, findings, sources };
  const line = into?.line;
  const read = readTaskTable(table, {
    unit: unit ?? null,
    columns: columns ?? new Map(),
    ranges: ranges === true,
    nothing,
    others: line?.tasks.map(({ id }) => id) ?? [],
    models: line?.models.map(({ id }) => id) ?? [],
    decimals: decimals ?? null,
    hasOrders: options.hasOrders,
  });
  const other = read.imported === null && columns === undefined ? otherwise(table) : null;
  if (other !== null) return { imported: null, asLine, findings: [...findings, other], sources };
  const told = [...findings, ...read.findings];
  // Tasks that go into a line are judged there, unless the table is refused.
  if (into === null || read.imported === null) told.push(...read.asLine().findings);
  const imported = hasErrors(told) ? null : read.imported;
  if (imported === null || !options.hasOrders)
    return { imported, asLine: read.asLine, findings: told, sources };
  const orders = await readOrderFiles(await options.orders(), namesOf(imported), {});
  for (const [name, text] of orders.sources) sources.set(name, text);
  told.push(...orders.findings);
  if (orders.units === null) return { imported: null, asLine, findings: told, sources };
  const ordered = orderIntoTable(imported, orders.units);
  return {
    imported: ordered.imported,
    asLine: read.asLine,
    findings: [...told, ...ordered.findings],
    sources,
  };
}
