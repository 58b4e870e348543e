import type { Finding } from "../findings/finding.js";
import { readLine } from "../line/read-line.js";
import { flowText } from "../line/write/flow-text.js";
import { type Cell, findingAt, type Table } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import type { ImportedTask, ImportedTasks } from "./imported-tasks.js";

/** A key of a task with its value as a line file writes them, and the cell that says so. */
interface TaskPart {
  readonly text: string;
  readonly cell: Cell;
}

const textOf = (text: string | readonly string[]): string =>
  typeof text === "string" ? scalarOf(text) : `[${text.map(scalarOf).join(", ")}]`;

/** Plain numbers are written as people write them; an id such as 007 stays text in every reader. */
const scalarOf = (text: string): string =>
  /^(?:0|[1-9]\d{0,14})(?:\.\d+)?$/u.test(text) ? text : flowText(text);

/** The parts of a task behind its id. */
function partsOf({ time, after, texts, cells }: ImportedTask): TaskPart[] {
  const { name, ...rest } = Object.fromEntries(texts);
  const further = Object.entries(rest).map(([key, { text, cell }]) => ({
    text: `${key}: ${textOf(text)}`,
    cell,
  }));
  return [
    ...(name === undefined ? [] : [{ text: `name: ${textOf(name.text)}`, cell: name.cell }]),
    { text: `time: ${scalarOf(time)}`, cell: cells.time },
    ...further,
    ...(after.length === 0
      ? []
      : [{ text: `after: ${textOf(after.length === 1 ? after[0]! : after)}`, cell: cells.after }]),
  ];
}

/** The text of a line file that has these tasks, in the order of the table. */
export function lineFileOf(imported: ImportedTasks): string {
  const { file, tasks, unit, table } = imported;
  const name = file.split(/[/\\]/u).at(-1)!;
  const sheet = table.sheet === null ? "" : `, sheet ${quoted(table.sheet)}`;
  const lines = tasks.map((task) => {
    const parts = partsOf(task);
    const value = parts.length === 1 ? scalarOf(task.time) : `{${parts.map(({ text }) => text).join(", ")}}`;
    return `  ${scalarOf(task.id)}: ${value}\n`;
  });
  return [
    `# Tasks of ${quoted(name)}${sheet}. The table says nothing of demand, calendar and stations: they are yours to add.\n`,
    `line: ${flowText(name.replace(/\.[a-z]{1,5}$/iu, "") || name)}\n`,
    ...(unit === null ? [] : [`unit: ${unit.unit}\n`]),
    "tasks:\n",
    ...lines,
  ].join("");
}

/**
 * What the reader of line files says of these tasks, told at the cells of the table. Each task stands on the line of its row, so that lines
 * that are named are those of the table.
 */
export function checkAsLine({ tasks, unit }: ImportedTasks, table: Table): Finding[] {
  const lines: string[] = [`{unit: ${unit?.unit ?? "s"}, tasks: {`];
  const cells = new Map<number, { readonly from: number; readonly cell: Cell }[]>();
  for (const task of tasks) {
    const { line } = table.whereIs(task.cells.id);
    while (lines.length < line - 1) lines.push("");
    const spans = [{ from: 1, cell: task.cells.id }];
    let text = `${scalarOf(task.id)}: {`;
    for (const part of partsOf(task)) {
      spans.push({ from: text.length + 1, cell: part.cell });
      text += `${part.text}, `;
    }
    lines[line - 1] = `${text.slice(0, -2)}},`;
    cells.set(line, spans);
  }
  const { findings } = readLine(table.file, `${lines.join("\n")}\n}}\n`);
  return findings.map((each) => {
    const spans = cells.get(each.place?.line ?? 0);
    const { cell } = spans?.findLast(({ from }) => from <= each.place!.column) ?? {
      cell: tasks[0]!.cells.id,
    };
    const message =
      table.source === null ? each.message.replace(/\((line|lines) (?=\d)/gu, inRows) : each.message;
    return { ...findingAt(table, cell, { ...each, message }), task: each.task };
  });
}

/** A workbook has rows for lines. */
const inRows = (_: string, word: string): string => (word === "line" ? "(row " : "(rows ");
