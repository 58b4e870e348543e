import type { Finding } from "../../findings/finding.js";
import type { ExportedTasks } from "../../import-tables/export-tasks.js";
import type { Line } from "../../line/line.js";
import type { SheetCell } from "../../table/sheet.js";
import { findingJson } from "./finding-json.js";
import { asText, resultDocument } from "./result-document.js";

/** The result document of `export`: what stands in each column, row by row, and the keys of tasks that no column holds. */
export function exportDocument(
  line: Line,
  { columns, sheet, unit, leftOut }: ExportedTasks,
  out: string | null,
  findings: readonly Finding[],
) {
  return resultDocument("export", {
    outcome: "found",
    line: line.name,
    unit,
    columns: columns.map(({ key, heading }) => ({ key, heading })),
    rows: sheet.slice(1).map((row) => row.map(plainCell)),
    leftOut: leftOut.map(({ key, tasks }) => ({ key, tasks })),
    out,
    findings: findings.map(findingJson),
  });
}

export const exportJson = asText(exportDocument);

function plainCell(cell: SheetCell): string | number | null {
  if (cell === null) return null;
  return "number" in cell ? Number(cell.number) : cell.text;
}
