import { lineFileOf } from "../import-tables/line-of-tasks.js";
import { readTasks } from "../import-tables/read-tasks.js";
import { readGivenColumns } from "../import-tables/task-columns.js";
import { tasksIntoLine } from "../import-tables/tasks-into-line.js";
import { importDocument } from "../report/json/import-json.js";
import { TIME_UNITS } from "../time/units.js";
import { knownLine, type Line } from "./line.js";
import { type Refused, refuse } from "./result.js";
import {
  decimalsOf,
  TABLE_OPTIONS,
  type TableFile,
  type TableOptions,
  tableBytes,
  tableTerms,
} from "./tables.js";
import { checkOptions, textIfGiven, wordOption } from "./usage-error.js";

/** How a table of tasks is read. */
export interface ImportOptions extends TableOptions {
  /** What bare times are in, where no heading says it. */
  readonly unit?: "s" | "min" | "h" | "cmin" | "tmu";
  /** Headings or letters by key, such as "time=Std (min), after=D"; - for none. */
  readonly columns?: string;
  /** A predecessor 3-5 means 3, 4 and 5; it is refused where left out. */
  readonly ranges?: boolean;
  /** Words that mean no predecessor; "-", "none", "n/a" and the like where left out. */
  readonly nothing?: readonly string[];
  /** "comma" or "point", where 1.033 may be 1033. */
  readonly decimals?: string;
  /** Tables with the orders of units, which give precedences besides. */
  readonly orders?: readonly TableFile[];
  /** The line whose tasks are changed, and get those that it does not have; a line file of its own where left out. */
  readonly into?: Line;
}

/** The tasks that were understood, times of one piece in seconds, and how the table was read. */
export type ImportResult = ReturnType<typeof importDocument>;

/** Tasks of a table, and the line file that has them. */
export interface ImportAnswered {
  /** The JSON of `linepoise import`. */
  readonly result: ImportResult | Refused;
  /** The text of a line file: a new one, without demand and calendar, or that of `into` with what changed; null where refused. */
  readonly lineText: string | null;
}

/**
 * A line file from a table of tasks, one row a task, as CSV or as a workbook. What cannot be told for sure is a finding; nothing is guessed.
 *
 * @throws UsageError for options that do not exist or cannot be read, and for a table that is neither text nor bytes
 */
export async function importTasks(table: TableFile, options: ImportOptions = {}): Promise<ImportAnswered> {
  checkOptions(options, [...TABLE_OPTIONS, ...OWN_OPTIONS]);
  const { orders = [], nothing = [], into } = options;
  const given = tableBytes(table, "importTasks: a table is");
  const target = into === undefined ? null : knownLine(into);
  const unit = wordOption("unit", options.unit, TIME_UNITS);
  const columns = textIfGiven("columns", options.columns, readGivenColumns);
  const decimals = decimalsOf(options.decimals);
  const terms = {
    ...tableTerms(options),
    ...(unit !== undefined && { unit }),
    ...(columns !== undefined && { columns }),
    ...(decimals !== undefined && { decimals }),
    ranges: options.ranges === true,
    nothing,
    hasOrders: orders.length > 0,
    orders: async () => orders.map((each) => tableBytes(each, "orders: a table is")),
  };
  const read = await readTasks(given, terms, target, () => null);
  const { imported, asLine } = read;
  if (imported === null) return { result: refuse("import", [], read.findings), lineText: null };
  if (target === null) {
    const result = importDocument(imported, { out: null, into: null }, read.findings);
    return { result, lineText: lineFileOf(imported) };
  }
  const { updated, findings } = tasksIntoLine(imported, target, asLine);
  const told = [...read.findings, ...findings];
  if (updated === null) return { result: refuse("import", [], told), lineText: null };
  const written = { file: target.line.file, isWritten: false, line: updated };
  return { result: importDocument(imported, { out: null, into: written }, told), lineText: updated.text };
}

const OWN_OPTIONS = ["unit", "columns", "ranges", "nothing", "decimals", "orders", "into"];
