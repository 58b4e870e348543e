import type { Finding } from "../../findings/finding.js";
import type { CellValue, ImportedTasks } from "../../import-tables/imported-tasks.js";
import type { LineInto } from "../../line/write/update-line.js";
import type { ChangedTask } from "../../line/write/write-tasks.js";
import { findingJson } from "./finding-json.js";
import { secondsJson } from "./number-json.js";
import { asText, resultDocument } from "./result-document.js";

/** A line file that took the tasks of a table. */
export type IntoJson = LineInto<ChangedTask>;

/** The result document of `import`: the tasks in the order of the table, each with the time of one piece in seconds with 6 decimals. */
export function importDocument(
  imported: ImportedTasks,
  { out, into }: { readonly out: string | null; readonly into: IntoJson | null },
  findings: readonly Finding[],
) {
  const { table, unit, decimalMark, columns } = imported;
  return resultDocument("import", {
    outcome: "found",
    understood: {
      delimiter: table.delimiter,
      decimalMark,
      unit: unit?.unit ?? null,
      columns: Object.fromEntries([...columns.values()].map(({ key, heading }) => [key, heading])),
      encoding: table.encoding,
      sheet: table.sheet,
      otherSheets: table.otherSheets,
    },
    tasks: imported.tasks.map(({ id, times, after, texts }) => ({
      id,
      name: plainText(texts.get("name")),
      seconds: times[0].model === null ? secondsJson(times[0].micros) : null,
      after,
      secondsByModel:
        times[0].model === null
          ? null
          : (Object.fromEntries(times.map(({ model, micros }) => [model, secondsJson(micros)])) as Readonly<
              Record<string, number | null>
            >),
    })),
    orders: imported.orders,
    starts: imported.starts,
    ends: imported.ends,
    out,
    into: into && { file: into.file, written: into.isWritten, tasks: into.line.tasks },
    findings: findings.map(findingJson),
  });
}

export const importJson = asText(importDocument);

/** A name is text, never a list or a map as other cells may be. */
const plainText = (cell: CellValue | undefined): string | null =>
  typeof cell?.text === "string" ? cell.text : null;
