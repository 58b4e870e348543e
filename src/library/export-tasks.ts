import { checkExport } from "../import-tables/check-export.js";
import { exportTasks as tasksAsTable } from "../import-tables/export-tasks.js";
import { exportDocument } from "../report/json/export-json.js";
import { readDelimiter } from "../table/find-delimiter.js";
import { knownLine, type Line } from "./line.js";
import { decimalsOf } from "./tables.js";
import { checkOptions, textIfGiven } from "./usage-error.js";

/** How CSV is written. */
export interface ExportOptions {
  /** "comma", "semicolon", "tab" or "pipe"; comma where left out, semicolon beside decimal commas. */
  readonly delimiter?: string;
  /** "point" or "comma"; point where left out. */
  readonly decimals?: string;
  /** False: no apostrophe before text that a spreadsheet would take for a formula. */
  readonly guard?: boolean;
}

/** The columns and rows of the table, and the keys of tasks that no column holds. */
export type ExportResult = ReturnType<typeof exportDocument>;

/** The tasks of a line as a table, in every form. */
export interface ExportAnswered {
  /** The JSON of `linepoise export`. */
  readonly result: ExportResult;
  readonly csv: string;
  /** The bytes of a workbook (.xlsx). */
  readonly workbook: Uint8Array;
}

/**
 * The tasks of a line as a table that `importTasks` reads back. Keys that no column holds are told by findings, and whatever does not read
 * back as it was.
 *
 * @throws UsageError for options that do not exist or cannot be read
 */
export async function exportTasks(line: Line, options: ExportOptions = {}): Promise<ExportAnswered> {
  checkOptions(options, ["delimiter", "decimals", "guard"]);
  const known = knownLine(line);
  const decimals = decimalsOf(options.decimals) ?? ".";
  const otherwise = decimals === "," ? ";" : ",";
  const delimiter = textIfGiven("delimiter", options.delimiter, readDelimiter) ?? otherwise;
  const exported = tasksAsTable(known);
  // Loaded here, as few programs write tables.
  const { writeCsv } = await import("../table/write-csv.js");
  const { writeWorkbook } = await import("../table/write-workbook.js");
  const csv = writeCsv(exported.sheet, { delimiter, decimals, guard: options.guard !== false });
  const workbook = await writeWorkbook(known.line.name, exported.sheet);
  const unread = await checkExport("table.csv", new TextEncoder().encode(csv), known, exported);
  const findings = [...exported.findings, ...unread];
  return { result: exportDocument(known.line, exported, null, findings), csv, workbook };
}
