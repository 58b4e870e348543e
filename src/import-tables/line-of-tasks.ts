import type { Place } from "../findings/finding.js";
import { idKey } from "../line/ids.js";
import { type PlacedEntry, type PlacedValue, placedTree } from "../line/read/placed-tree.js";
import { type LineReading, readLineTree } from "../line/read-line.js";
import { flowText } from "../line/write/flow-text.js";
import {
  flowId,
  keysInFull,
  valueInFull,
  valueText,
  type WrittenKey,
  type WrittenValue,
} from "../line/write/write-tasks.js";
import { type Cell, findingAt, type Table } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import type { CellValue, ImportedTask, ImportedTasks } from "./imported-tasks.js";

/** A value as the table has it: a word, several, or words by model or part. */
type Value = CellValue["text"];

const isWord = (value: Value): value is string => typeof value === "string";
const isList = (value: Value): value is readonly string[] => Array.isArray(value);

/** The keys of a task but `after` with their values, each with the cell that says so; a time is written as `inUnit` has it. */
function valuesOf(
  { times, texts, cells }: ImportedTask,
  inUnit: (time: string) => string = (bare) => bare,
): { readonly key: string; readonly value: Value; readonly cell: Cell }[] {
  const [first] = times;
  const time =
    first.model === null
      ? inUnit(first.text)
      : new Map(times.map((each) => [each.model!, inUnit(each.text)]));
  const further = [...texts].map(([key, { text, cell }]) => ({ key, value: text, cell }));
  return [
    ...further.filter(({ key }) => key === "name"),
    { key: "time", value: time, cell: first.model === null ? first.cell : cells.id },
    ...further.filter(({ key }) => key !== "name"),
  ];
}

const PLAIN_NUMBER = /^\d+(?:\.\d+)?$/u;
const wordText = (word: string): string => (PLAIN_NUMBER.test(word) ? word : flowId(word));

/** A value as it is written; numbers stay plain only where they are times or counts. */
function written(key: string, value: Value): WrittenValue {
  const text = TIMES_AND_COUNTS.has(key) ? wordText : flowId;
  if (isWord(value)) return text(value);
  if (isList(value)) return `[${value.map(flowId).join(", ")}]`;
  const pairs = [...value].map(([name, each]) => [name, wordText(each)] as const);
  return key === "time" ? new Map(pairs) : valueText(new Map(pairs));
}

const TIMES_AND_COUNTS = new Set(["time", "walking", "machine-time", "training", "spread"]);

/** The keys of a task but `after` and their values as a line file has them; a time is written as `inUnit` has it. */
export const keysOf = (task: ImportedTask, inUnit?: (time: string) => string): WrittenKey[] =>
  valuesOf(task, inUnit).map(({ key, value }) => [key, written(key, value)]);

/** What a line needs besides its tasks, as an example. */
const PACE_TO_ADD = [
  "# demand: 160 per day         # good units per hour, shift, day, week, month or year\n",
  '# calendar: {shifts: {early: {from: "06:00", to: "14:00", breaks: 50 min}}, days-per-week: 5}\n',
];

/** The text of a line file that has these tasks, in the order of the table. */
export function lineFileOf(imported: ImportedTasks): string {
  const { file, tasks, unit, table, models } = imported;
  const name = file.split(/[/\\]/u).at(-1)!;
  const sheet = table.sheet === null ? "" : `, sheet ${quoted(table.sheet)}`;
  const lines = tasks.map((task) => {
    const keys = keysInFull({ id: task.id, keys: () => keysOf(task), after: task.after }, null);
    return `  ${flowId(task.id)}: ${valueInFull(keys)}\n`;
  });
  const shares = valueText(new Map(models.map((model) => [model, "1"])));
  return [
    `# Tasks of ${quoted(name)}${sheet}. The table says nothing of demand and calendar: take the # off their lines, and write your own.\n`,
    `line: ${flowText(name.replace(/\.[a-z]{1,5}$/iu, "") || name)}\n`,
    ...(unit === null ? [] : [`unit: ${unit.unit}\n`]),
    ...PACE_TO_ADD,
    ...(models.length === 0 ? [] : [`models: ${shares}   # as many of each: write how many are built\n`]),
    "tasks:\n",
    ...lines,
  ].join("");
}

/**
 * What the reader of line files says of these tasks, told at the cells of the table.
 *
 * @param others ids of tasks that the table may name, besides its own
 * @param isTold whether a cell is refused already; nothing more is said of it
 */
export function checkAsLine(
  { tasks, unit, models }: ImportedTasks,
  others: readonly string[],
  table: Table,
  isTold: (cell: Cell) => boolean,
): Omit<LineReading, "document"> {
  const start = tasks[0]!.cells.id;
  const placedCells: [Place, Cell][] = [];
  const at = (cell: Cell): Place => {
    const place = table.whereIs(cell);
    placedCells.push([place, cell]);
    return place;
  };
  const top = at(start);
  const word = (text: string, place = top): PlacedValue => ({ place, value: text });
  const map = (entries: readonly PlacedEntry[], place = top): PlacedValue => ({ place, value: { entries } });
  const ofTasks = tasks.map((task): PlacedEntry => {
    const place = at(task.cells.id);
    const said = valuesOf(task).map(({ key, value, cell }): PlacedEntry => {
      if (key !== "time" || isWord(value)) return { key, place: at(cell), value: placed(value, at(cell)) };
      const times = task.times.map((each) => ({
        key: each.model!,
        place,
        value: word(each.text, at(each.cell)),
      }));
      return { key, place, value: map(times, place) };
    });
    const { after } = task;
    const order =
      after.length === 0 ? [] : [{ key: "after", place, value: placed(after, at(task.cells.after)) }];
    return { key: task.id, place, value: map([...said, ...order], place) };
  });
  const own = new Set(tasks.map(({ id }) => idKey(id)));
  const besides = others.filter((id) => !own.has(idKey(id)));
  const beside = besides.map((id): PlacedEntry => ({ key: id, place: top, value: word("1 s") }));
  const shares = models.map((model): PlacedEntry => ({ key: model, place: top, value: word("1") }));
  const { line, findings } = readLineTree(
    placedTree(
      table.file,
      map([
        { key: "unit", place: top, value: word(unit?.unit ?? "s") },
        ...(models.length === 0 ? [] : [{ key: "models", place: top, value: map(shares) }]),
        { key: "tasks", place: top, value: map([...beside, ...ofTasks]) },
      ]),
    ),
  );
  const cells = new Map(
    findings.length === 0 ? [] : placedCells.map(([place, cell]) => [keyOf(place), cell] as const),
  );
  const told = findings.flatMap((each) => {
    const cell = (each.place === null ? undefined : cells.get(keyOf(each.place))) ?? start;
    if (isTold(cell)) return [];
    const message =
      table.source === null ? each.message.replace(/\((line|lines) (?=\d)/gu, inRows) : each.message;
    return [{ ...findingAt(table, cell, { ...each, message }), task: each.task }];
  });
  return { line, findings: told };
}

const keyOf = ({ line, column }: Place): string => `${line}:${column}`;

function placed(value: Value, place: Place): PlacedValue {
  if (isWord(value)) return { place, value };
  if (isList(value)) return { place, value: value.map((each) => ({ place, value: each })) };
  const entries = [...value].map(([key, each]) => ({ key, place, value: { place, value: each } }));
  return { place, value: { entries } };
}

/** A workbook has rows for lines. */
const inRows = (_: string, word: string): string => (word === "line" ? "(row " : "(rows ");
