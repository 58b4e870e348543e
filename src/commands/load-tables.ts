import type { TableFile } from "../import-tables/read-order-files.js";
import { type Context, UsageError } from "./context.js";

/** The files that these paths fit, each once. Throws a UsageError. */
export async function loadTables(context: Context, patterns: readonly string[]): Promise<TableFile[]> {
  const paths = (await Promise.all(patterns.map((each) => context.findFiles(each)))).flat();
  const doubled = paths.find((each, at) => paths.indexOf(each) < at);
  if (doubled !== undefined) throw new UsageError(`"${doubled}" is given twice; each unit counts once`);
  const files: TableFile[] = [];
  for (const path of paths)
    files.push({ file: path === "-" ? "standard input" : path, bytes: await context.readBytes(path) });
  return files;
}
