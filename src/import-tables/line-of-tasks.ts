import type { Finding } from "../findings/finding.js";
import { readLine } from "../line/read-line.js";
import { flowText } from "../line/write/flow-text.js";
import { flowId, isDefault } from "../line/write/write-tasks.js";
import { type Cell, findingAt, type Table } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import type { CellValue, ImportedTask, ImportedTasks, Pieces } from "./imported-tasks.js";

function textOf(text: CellValue["text"]): string {
  if (typeof text === "string") return flowId(text);
  if (Array.isArray(text)) return `[${text.map(flowId).join(", ")}]`;
  return `{${[...(text as Pieces)].map(([name, pieces]) => `${flowId(name)}: ${pieces}`).join(", ")}}`;
}

/** The keys of a task but `after` and their values as a line file has them, each with the cell that says so; a time is written as `inUnit` has it. */
export function keysOf(
  { time, texts, cells }: ImportedTask,
  inUnit: (time: string) => string = (bare) => bare,
): (readonly [key: string, value: string, cell: Cell])[] {
  const [own, written] = [[...texts], inUnit(time)];
  const further = own.map(([key, { text, cell }]) => [key, textOf(text), cell] as const);
  const isPlain = /^\d+(?:\.\d+)?$/u.test(written);
  return [
    ...further.filter(([key]) => key === "name"),
    ["time", isPlain ? written : flowText(written), cells.time],
    ...further.filter(([key]) => key !== "name"),
  ];
}

/** A key of a task with its value, and the cell that says so. */
interface TaskPart {
  readonly text: string;
  readonly cell: Cell;
}

function partsOf(task: ImportedTask): TaskPart[] {
  const { after, cells } = task;
  return [
    ...keysOf(task)
      .filter(([key, value]) => !isDefault(key, value))
      .map(([key, value, cell]) => ({ text: `${key}: ${value}`, cell })),
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
    const value =
      parts.length === 1
        ? parts[0]!.text.replace("time: ", "")
        : `{${parts.map(({ text }) => text).join(", ")}}`;
    return `  ${flowId(task.id)}: ${value}\n`;
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
 *
 * @param others ids of tasks that the table may name besides its own
 */
export function checkAsLine(
  { tasks, unit }: ImportedTasks,
  others: readonly string[],
  table: Table,
): Finding[] {
  const beside = others.map((id) => `${flowId(id)}: 1 s, `).join("");
  const lines: string[] = [`{unit: ${unit?.unit ?? "s"}, tasks: {${beside}`];
  const cells = new Map<number, { readonly from: number; readonly cell: Cell }[]>();
  for (const task of tasks) {
    const { line } = table.whereIs(task.cells.id);
    while (lines.length < line - 1) lines.push("");
    const spans = [{ from: 1, cell: task.cells.id }];
    let text = `${flowId(task.id)}: {`;
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
