import type { Command } from "commander";
import { sheetOfJson } from "../report/sheet/sheet-of-json.js";
import { readDecimals } from "../table/decimal-mark.js";
import { readDelimiter } from "../table/find-delimiter.js";
import type { CsvHabits, Sheet } from "../table/sheet.js";
import type { NamedSheet } from "../table/write-workbook.js";
import type { Context } from "./context.js";
import {
  addFormatName,
  emit,
  type FormatOptions,
  formatOf,
  isWorkbook,
  type OutputOptions,
  type TableOptions,
} from "./emit.js";
import { taking } from "./option-values.js";

/** `--delimiter`, `--decimals` and `--byte-order-mark`, for every table that is written. */
export function addTableOptions(command: Command): Command {
  return command
    .option(
      "--delimiter <name>",
      "of CSV: comma, semicolon, tab or pipe (default: comma, semicolon beside decimal commas)",
      taking(readDelimiter),
    )
    .option("--decimals <mark>", "of CSV: point or comma (default: point)", taking(readDecimals))
    .option("--byte-order-mark", "begin CSV with the mark by which spreadsheets know UTF-8")
    .option("--no-guard", "in CSV, no apostrophe before text that a spreadsheet would take for a formula");
}

/** `--format` with the options of tables. */
export const addFormatOptions = (command: Command, formats?: readonly string[]): Command =>
  addTableOptions(addFormatName(command, formats));

/** Of CSV, in which a decimal comma asks for another delimiter. */
export function habitsOf({ delimiter, decimals = ".", guard = true }: TableOptions): CsvHabits {
  return { delimiter: delimiter ?? (decimals === "," ? ";" : ","), decimals, guard };
}

const UTF_8_MARK = "\ufeff";

/** The bytes or the text of a table: a workbook where the name of its file says so, with the sheets beside it, else CSV. */
export async function writtenTable(
  name: string,
  sheet: Sheet,
  options: OutputOptions & TableOptions,
  beside: readonly NamedSheet[] = [],
): Promise<string | Uint8Array> {
  if (isWorkbook(options.out)) {
    const { writeWorkbook } = await import("../table/write-workbook.js");
    return writeWorkbook(name, sheet, ...beside);
  }
  const { writeCsv } = await import("../table/write-csv.js");
  return (options.byteOrderMark ? UTF_8_MARK : "") + writeCsv(sheet, habitsOf(options));
}

/** A table of a result: its name, and where it stands in JSON. */
export type TableOfResult = readonly [name: string, path: readonly string[]];

interface EmittedResult {
  json(): string;
  text(): string;
  svg?(): string;
  /** Where its table stands in JSON. */
  readonly list: readonly string[];
  /** More of them, which a workbook has on sheets of their own. */
  readonly beside?: readonly TableOfResult[];
}

/** Gives a result to where the user wants it, in the form that is asked for. */
export async function emitResult(
  context: Context,
  result: EmittedResult,
  options: FormatOptions<string>,
): Promise<void> {
  const format = formatOf(options);
  if (format === "csv") {
    const json = result.json();
    const { list, beside = [] } = result;
    const sheets = beside.map(([name, path]): NamedSheet => [name, sheetOfJson(json, path)]);
    const table = writtenTable(list[0] ?? "figures", sheetOfJson(json, list), options, sheets);
    await emit(context, await table, options);
  } else if (format === "svg" && result.svg) await emit(context, result.svg(), options);
  else await emit(context, format === "json" ? result.json() : result.text(), options);
}
