import { countOf } from "../findings/count-of.js";
import { formatFindings } from "../findings/format-findings.js";
import { visibleText } from "../findings/visible-text.js";
import { checkExport } from "../import-tables/check-export.js";
import { exportTasks } from "../import-tables/export-tasks.js";
import { exportJson } from "../report/json/export-json.js";
import { refusedJson } from "../report/json/finding-json.js";
import type { Context, Register } from "./context.js";
import {
  addOutputOptions,
  checkOutput,
  emit,
  formByName,
  type OutputOptions,
  type TableOptions,
} from "./emit.js";
import { addTableOptions, writtenTable } from "./emit-table.js";
import { EXIT_STATUS, type ExitStatus } from "./exit-status.js";
import { lineSourceOf, loadTarget } from "./into-line.js";

type ExportOptions = OutputOptions & TableOptions;

export const registerExport: Register = (program, act) => {
  const command = program
    .command("export")
    .description("the tasks of a line as a table that import reads back: CSV, or a workbook")
    .argument("<line>", "line file; - for standard input");
  command.hook("preAction", () => void formByName(command, command.opts<ExportOptions>().out, ["csv"]));
  addOutputOptions(addTableOptions(command)).action((path: string, options: ExportOptions) =>
    act((context) => exportTable(context, path, options)),
  );
};

async function exportTable(context: Context, path: string, options: ExportOptions): Promise<ExitStatus> {
  const { out, json } = options;
  await checkOutput(context, path, options);
  const target = await loadTarget(context, path);
  const sources = new Map([[target.file, target.source]]);
  const file = lineSourceOf(target);
  if (file === null) {
    if (json) context.print(refusedJson("export", target.findings));
    else context.note(formatFindings(target.findings, sources, context.noteWidth));
    return EXIT_STATUS.wrongInput;
  }
  const exported = exportTasks(file);
  const content = await writtenTable(file.line.name, exported.sheet, options);
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const unread = await checkExport(out ?? "table.csv", bytes, file, exported);
  const findings = [...exported.findings, ...unread];
  if (out !== undefined || !json) await emit(context, content, options);
  if (json) context.print(exportJson(file.line, exported, out ?? null, findings));
  else context.note(formatFindings(findings, sources, context.noteWidth));
  if (!json && out !== undefined && out !== "-") {
    const what = `${countOf(file.line.tasks.length, "task")} in ${countOf(exported.columns.length, "column")}`;
    const [table, line] = [out, path].map(visibleText);
    context.note(
      `${table} is written: ${what}. Back into the line: linepoise import ${table} --into ${line}\n`,
    );
  }
  return EXIT_STATUS.fine;
}
