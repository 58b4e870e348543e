import { countOf } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import { visibleText } from "../../findings/visible-text.js";
import type { ImportedTasks } from "../../import-tables/imported-tasks.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import type { IntoJson } from "../json/import-json.js";
import { headed, labelled, linesText, paragraph } from "./sections.js";
import { type Look, paintFor } from "./style.js";
import { formatTable } from "./table.js";

const DELIMITERS = { ",": "commas", ";": "semicolons", "\t": "tabs", "|": "pipes" } as const;
const MARKS = { ",": "decimals take a comma", ".": "decimals take a point" } as const;
/** Names in a list before the rest is counted. */
const NAMED = 6;

/** How a table of tasks was understood: a wrong column or a wrong arrow shows here first. */
export function importText(imported: ImportedTasks, into: IntoJson | null, look: Look): string {
  const { table, unit, decimalMark, columns, tasks, starts, ends, models } = imported;
  const show = showTimesIn(unit?.unit ?? null);
  const { otherSheets } = table;
  const file =
    table.kind === "workbook"
      ? [`workbook, sheet ${table.sheet}${otherSheets.length === 0 ? "" : `, not ${listOf(otherSheets)}`}`]
      : [
          `CSV in ${table.encoding}`,
          ...(table.delimiter === null ? [] : [`cells divided by ${DELIMITERS[table.delimiter]}`]),
        ];
  const bare =
    unit === null
      ? "each time with its own unit"
      : `bare numbers in ${unit.unit}, as ${unit.from === "heading" ? "the heading says" : "--unit says"}`;
  const marks = decimalMark === null ? [] : [MARKS[decimalMark]];
  const read = [...columns.values()].map(({ key, heading }) => `${key} from ${JSON.stringify(heading)}`);
  const totals = listOf(
    imported.totals.map((total, at) => [...models.slice(at, at + 1), show(total)].join(" ")),
  );
  const rows = [
    ["read as", "", [...file, ...marks].join("; ")],
    ["times", "", `${bare}; ${totals} in all, of one piece each`],
    ["keys", "", read.join(", ")],
    ...ordersRow(imported),
    ["starts with", "", named(starts)],
    ["ends with", "", named(ends)],
  ] as const;
  const title = `${imported.file}: ${countOf(tasks.length, "task")}`;
  const shown = rows.map(([label, value, words]) => [label, value, visibleText(words)] as const);
  return `${paintFor(look).strong(visibleText(title))}\n${labelled(shown, look)}${into === null ? "" : `\n${intoText(into, look)}`}`;
}

/** Nobody reads a longer list to its end. */
const MOST_CHANGES = 200;

/** What orders of work have added. */
function ordersRow({ orders }: ImportedTasks): (readonly [string, string, string])[] {
  if (orders === null) return [];
  const { units, precedences } = orders;
  const added =
    precedences === 0 ? "nothing new" : `${countOf(precedences, "precedence")} besides those of the table`;
  return [["orders", "", `${countOf(units, "unit")} agree on ${added}`]];
}

/** What becomes of a line file, task by task and key by key; without it being written, the lines as well. */
export function intoText({ file, isWritten, line }: IntoJson, look: Look): string {
  if (line.tasks.length === 0)
    return paragraph(`Nothing of ${file} changes: it says all of this already.`, look);
  const rows = line.tasks
    .slice(0, MOST_CHANGES)
    .flatMap(({ id, isNew, keys }) =>
      keys.map(({ key, was, now }, at) => [
        at === 0 ? visibleText(isNew ? `${id} (new)` : id) : "",
        key,
        was === null ? "-" : visibleText(was),
        now === null ? "-" : visibleText(now),
      ]),
    );
  const heads = [
    { head: "task", givesWay: true },
    { head: "key" },
    { head: "was", wraps: true },
    { head: "now", wraps: true },
  ];
  const more = line.tasks.length - MOST_CHANGES;
  const rest = more > 0 ? paragraph(`and ${countOf(more, "more task")}; --json tells them all`, look) : "";
  const table = formatTable(heads, rows, look.width) + rest;
  if (isWritten) return headed("written", `${paragraph(`Into ${file}:`, look)}${table}`, look);
  return headed(
    "not written",
    `${paragraph(`Into ${file}, without --dry-run:`, look)}${table}\n${linesText(line.lines)}`,
    look,
  );
}

const named = (ids: readonly string[]): string =>
  ids.length > NAMED ? `${ids.slice(0, NAMED).join(", ")} and ${ids.length - NAMED} more` : ids.join(", ");
