import { Option } from "commander";
import type { TableFile } from "../import-tables/read-order-files.js";
import { readDecimals } from "../table/decimal-mark.js";
import { readDelimiter } from "../table/find-delimiter.js";
import { type Context, UsageError } from "./context.js";
import { taking } from "./option-values.js";

// What is to be said of a table that is read, only where that cannot be told; those that are written have options of their own.

export const delimiterOption = (): Option =>
  new Option("--delimiter <name>", "comma, semicolon, tab or pipe, where that cannot be told").argParser(
    taking(readDelimiter),
  );

export const decimalsOption = (): Option =>
  new Option("--decimals <mark>", "comma or point, where 1.033 may be 1033").argParser(taking(readDecimals));

export const sheetOption = (): Option =>
  new Option("--sheet <name>", "of a workbook (default: the first with anything in it)");

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
