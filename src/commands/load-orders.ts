import { type Finding, hasErrors } from "../findings/finding.js";
import { type BuiltUnit, type NamedTask, type ReadFile, readOrders } from "../import-tables/read-orders.js";
import { readTable } from "../table/read-table.js";
import type { TableOptions } from "../table/table.js";
import { type Context, UsageError } from "./context.js";

/** Orders of several tables, with every fault of all of them. */
export async function loadOrders(
  context: Context,
  patterns: readonly string[],
  tasks: readonly NamedTask[],
  { delimiter, sheet }: TableOptions,
) {
  const findings: Finding[] = [];
  const units: BuiltUnit[] = [];
  const files: ReadFile[] = [];
  const sources = new Map<string, string>();
  const paths = (await Promise.all(patterns.map((each) => context.findFiles(each)))).flat();
  const doubled = paths.find((each, at) => paths.indexOf(each) < at);
  if (doubled !== undefined) throw new UsageError(`"${doubled}" is given twice; each unit counts once`);
  for (const path of paths) {
    const file = path === "-" ? "standard input" : path;
    const { table, findings: ofTable } = await readTable(file, await context.readBytes(path), {
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
