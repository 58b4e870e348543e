import { Option } from "commander";
import type { Finding } from "../findings/finding.js";
import { formatFindings } from "../findings/format-findings.js";
import { visibleText } from "../findings/visible-text.js";
import { lineFileOf } from "../import-tables/line-of-tasks.js";
import { type ReadTasks, readTasks } from "../import-tables/read-tasks.js";
import { type GivenColumns, readGivenColumns } from "../import-tables/task-columns.js";
import { tasksIntoLine } from "../import-tables/tasks-into-line.js";
import type { LineSource } from "../line/write/update-line.js";
import { refusedJson } from "../report/json/finding-json.js";
import { type IntoJson, importJson } from "../report/json/import-json.js";
import { importText } from "../report/terminal/import-text.js";
import type { TableOptions } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { TIME_UNITS, type TimeUnit } from "../time/units.js";
import type { Context, Register } from "./context.js";
import { type OutputOptions, refuseSameFile, refuseTogether } from "./emit.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { checkInto, type IntoOptions, lineSourceOf, loadTarget } from "./into-line.js";
import { decimalsOption, delimiterOption, loadTables, sheetOption } from "./load-tables.js";
import { collected, taking } from "./option-values.js";
import { findOtherTable } from "./other-table.js";

interface ImportOptions extends OutputOptions, IntoOptions {
  readonly unit?: TimeUnit;
  readonly columns?: GivenColumns;
  readonly ranges?: true;
  readonly nothing: readonly string[];
  readonly orders: readonly (readonly string[])[];
  readonly delimiter?: NonNullable<TableOptions["delimiter"]>;
  readonly decimals?: "," | ".";
  readonly sheet?: string;
}

export const registerImport: Register = (program, act) => {
  program
    .command("import")
    .description("a line file from a table of tasks: CSV as spreadsheets write it, or a workbook")
    .argument("<table>", "CSV file or workbook (.xlsx), one row a task; - for standard input")
    .addOption(
      new Option("--unit <unit>", "what bare times are in, where no heading says it").choices([
        ...TIME_UNITS,
      ]),
    )
    .option(
      "--columns <columns>",
      'headings or letters by key, such as "time=Std (min), after=D"; - for none',
      taking(readGivenColumns),
    )
    .option("--ranges", "a predecessor 3-5 means 3, 4 and 5 (default: it is refused)")
    .addOption(
      new Option(
        "--nothing <word>",
        "means no predecessor; give it again for each word (default: -, none, n/a and the like)",
      )
        .argParser(collected(readWord))
        .default([], "none"),
    )
    .addOption(delimiterOption())
    .addOption(decimalsOption())
    .addOption(sheetOption())
    .addOption(
      new Option(
        "--orders <tables>",
        "orders in which units were built, as in A.csv,B.csv: they give precedences besides",
      )
        .argParser(collected(readPaths))
        .default([], "none"),
    )
    .option("--into <line>", "change tasks of this line file, and add those that it does not have")
    .option("--dry-run", "show what --into would change, and write nothing")
    .option("--json", "print what was read as one JSON object in place of the line file")
    .option("--out <file>", "write the line file to a file, not to the screen")
    .option("--force", "replace a file that exists")
    .action((path: string, options: ImportOptions) => act((context) => importTable(context, path, options)));
};

async function importTable(context: Context, path: string, options: ImportOptions): Promise<ExitStatus> {
  const { out, force, json } = options;
  await checkTargets(context, path, options);
  const sources = new Map<string, string>();
  const refuse = (faults: readonly Finding[]): ExitStatus => {
    if (json) context.print(refusedJson("import", faults));
    else context.note(formatFindings(faults, sources, context.noteWidth));
    return EXIT_STATUS.wrongInput;
  };
  const target = options.into === undefined ? null : await loadTarget(context, options.into);
  if (target !== null) sources.set(target.file, target.source);
  const line = target === null ? null : lineSourceOf(target);
  if (target !== null && line === null) return refuse(target.findings);
  const { imported, asLine, findings, sources: ofTables } = await loadTasks(context, path, options, line);
  for (const [name, text] of ofTables) sources.set(name, text);
  if (imported === null) return refuse(findings);
  let into: IntoJson | null = null;
  const told = [...findings];
  if (target !== null) {
    const result = tasksIntoLine(imported, line!, asLine);
    told.push(...result.findings);
    sources.set(target.file, result.source);
    if (result.updated === null) return refuse(told);
    into = { file: target.file, isWritten: options.dryRun !== true, line: result.updated };
    if (into.isWritten) await context.writeText(target.file, result.updated.text, { force: true });
  }
  const text = lineFileOf(imported);
  if (out !== undefined) await context.writeText(out, text, { force: force === true });
  if (json) {
    context.print(importJson(imported, { out: out ?? null, into }, told));
    return EXIT_STATUS.fine;
  }
  const shown = told.filter(({ severity }) => severity !== "note");
  context.note(formatFindings(shown, sources, context.noteWidth));
  const summary = importText(imported, into, context);
  if (into !== null) context.print(summary);
  else if (out === undefined || out === "-") {
    if (out === undefined) context.print(text);
    context.note(`${summary}\n`);
  } else {
    context.print(summary);
    const file = visibleText(out);
    context.note(
      `${file} is written: add demand and calendar. Next: linepoise balance ${file} --cycle TIME\n`,
    );
  }
  return EXIT_STATUS.fine;
}

async function checkTargets(context: Context, path: string, options: ImportOptions): Promise<void> {
  const { into, out } = options;
  refuseTogether(["--into", into], ["--out", out]);
  if (out !== undefined) {
    refuseSameFile(context, ["--out", out], ["the table", path]);
    await context.checkTarget(out, { force: options.force === true });
  }
  await checkInto(context, ["the table", path], options);
  for (const each of options.orders.flat()) {
    if (out !== undefined) refuseSameFile(context, ["--out", out], ["--orders", each]);
    if (options.into !== undefined) refuseSameFile(context, ["--into", options.into], ["--orders", each]);
  }
}

const nameOf = (path: string): string => (path === "-" ? "standard input" : path);

async function loadTasks(
  context: Context,
  path: string,
  options: ImportOptions,
  into: LineSource | null,
): Promise<ReadTasks> {
  const table = { file: nameOf(path), bytes: await context.readBytes(path) };
  const asked = {
    ...options,
    hasOrders: options.orders.length > 0,
    orders: () => loadTables(context, options.orders.flat()),
  };
  return readTasks(table, asked, into, (read) => findOtherTable("import", read));
}

function readPaths(text: string): Reading<readonly string[]> {
  const paths = text.split(",").map((path) => path.trim());
  return paths.includes("") ? refuse(`${quoted(text)} names no file between two commas`) : accept(paths);
}

function readWord(text: string): Reading<string> {
  return text.trim() === "" ? refuse(`${quoted(text)} is no word`) : accept(text.trim());
}
