import { type Finding, hasErrors } from "../findings/finding.js";
import { readTable } from "../table/read-table.js";
import type { TableOptions } from "../table/table.js";
import { type BuiltUnit, type NamedTask, type ReadFile, readOrders } from "./read-orders.js";

/** A file with the name that findings call it by. */
export interface TableFile {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/** Orders of several tables, with every fault of all of them. */
export async function readOrderFiles(
  tables: readonly TableFile[],
  tasks: readonly NamedTask[],
  { delimiter, sheet }: TableOptions,
) {
  const findings: Finding[] = [];
  const units: BuiltUnit[] = [];
  const files: ReadFile[] = [];
  const sources = new Map<string, string>();
  for (const { file, bytes } of tables) {
    const { table, findings: ofTable } = await readTable(file, bytes, {
      ...(delimiter !== undefined && { delimiter }),
      ...(sheet !== undefined && { sheet }),
    });
    findings.push(...ofTable);
    if (table === null || hasErrors(ofTable)) continue;
    if (table.source !== null) sources.set(file, table.source);
    const { orders, findings: ofOrders } = readOrders(table, tasks);
    findings.push(...ofOrders);
    if (orders === null) continue;
    units.push(...orders.units);
    files.push({ file, layout: orders.layout, units: orders.units.length });
  }
  return { units: hasErrors(findings) ? null : units, files, findings, sources };
}
