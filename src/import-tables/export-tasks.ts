import { addTo } from "../findings/add-to.js";
import { type Finding, finding } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { idKey } from "../line/ids.js";
import type { Line, Task } from "../line/line.js";
import { keysOfTasks, type StandingKey } from "../line/write/keys-of-tasks.js";
import type { LineSource } from "../line/write/update-line.js";
import type { Sheet, SheetCell } from "../table/sheet.js";
import { readDuration } from "../time/duration.js";
import { ratio, toDecimal } from "../time/ratio.js";
import { MICROS_IN, type Micros, type TimeUnit } from "../time/units.js";
import { neighboursReader } from "./read-neighbours.js";
import { readPieces } from "./read-pieces.js";
import { type ColumnKey, FURTHER_KEYS, timeHeading } from "./task-columns.js";

/** A column of an exported table. */
export interface ExportedColumn {
  readonly key: ColumnKey;
  readonly heading: string;
}

/** A key of tasks that the table has no column for. */
export interface LeftOut {
  readonly key: string;
  readonly tasks: readonly string[];
}

/** The tasks of a line as a table that `import` reads back. */
export interface ExportedTasks {
  readonly columns: readonly ExportedColumn[];
  /** The headings, and a row a task in the order of the file. */
  readonly sheet: Sheet;
  readonly unit: TimeUnit;
  readonly leftOut: readonly LeftOut[];
  readonly findings: readonly Finding[];
}

/** The tasks of a line, every key that a table can carry; findings tell of the others. */
export function exportTasks({ line, document }: LineSource): ExportedTasks {
  const standing = keysOfTasks(document);
  const unit = unitOf(line, standing);
  const order = line.tasks
    .map((_, number) => number)
    .sort((one, two) => comparePlaces(line.tasks[one]!, line.tasks[two]!));
  const columns = columnsOf(line, unit, standing);
  const filled = columns
    .map((column) => ({ column, cells: order.map((number) => column.cell(line.tasks[number]!, number)) }))
    .filter(({ column, cells }) => column.isAlways || cells.some((cell) => cell !== null));
  const shown = filled.map(({ column: { key, heading } }) => ({ key, heading }));
  const sheet = [
    shown.map(({ heading }) => ({ text: heading })),
    ...order.map((_, at) => filled.map(({ cells }) => cells[at]!)),
  ];
  const leftOut = keysLeftOut(line, standing);
  return { columns: shown, sheet, unit, leftOut, findings: tellLeftOut(line, leftOut) };
}

/** The keys of each task as they stand in the file. */
type Standing = ReturnType<typeof keysOfTasks>;

const comparePlaces = ({ place: one }: Task, { place: two }: Task): number =>
  one.line - two.line || one.column - two.column;

/** So many decimals of a unit are read at a glance. */
const MOST_DECIMALS = 6;

const isExactIn = (micros: Micros, unit: TimeUnit): boolean =>
  (micros * 10 ** MOST_DECIMALS) % MICROS_IN[unit] === 0 &&
  Number.isSafeInteger(micros * 10 ** MOST_DECIMALS);

/** The unit of the line where every time is a short decimal in it; else seconds, in which each is. */
function unitOf(line: Line, standing: Standing): TimeUnit {
  const { unit, tasks } = line;
  const times = tasks.flatMap((task) => [
    ...pieceTimes(task),
    task.walking,
    pieceMachineTime(task),
    ...(standing.get(idKey(task.id)) ?? []).flatMap((each) => timesTyped(each.key, each, line)),
  ]);
  return unit !== null && times.every((time) => time === null || isExactIn(time, unit)) ? unit : "s";
}

/** Times of a task that are asked for nowhere but in its file: none where the key is another. */
function timesTyped(key: string, standing: StandingKey | undefined, { unit }: Line): Micros[] {
  if (key !== "training" && key !== "spread") return [];
  return (standing?.texts ?? []).flatMap((typed) => {
    const read = readDuration(typed, unit);
    return read.ok ? [read.value] : [];
  });
}

const pieceTimes = ({ times, quantity, quantityByModel }: Task): (Micros | null)[] =>
  times.map((time, model) => (time === null ? null : time / (quantityByModel?.[model] ?? quantity)));

const pieceMachineTime = ({ machineTime, quantity }: Task): Micros => machineTime / quantity;

interface WrittenColumn extends ExportedColumn {
  /** Whether it stands there without anything in it. */
  readonly isAlways: boolean;
  cell(task: Task, number: number): SheetCell;
}

const text = (words: string | null): SheetCell => (words === null ? null : { text: words });
const number = (value: number, otherwise: number): SheetCell =>
  value === otherwise ? null : { number: String(value) };

/** Three decimals may be thousands in another country: a fourth says that they are none. */
const plain = (digits: string): string => {
  const short = digits.includes(".") ? digits.replace(/\.?0+$/u, "") : digits;
  return /\.\d{3}$/u.test(short) ? `${short}0` : short;
};

function columnsOf(line: Line, unit: TimeUnit, standing: Standing): WrittenColumn[] {
  const time = (micros: Micros): SheetCell => ({
    number: plain(toDecimal(ratio(micros, MICROS_IN[unit]), MOST_DECIMALS)),
  });
  const some = (key: ColumnKey, cell: WrittenColumn["cell"], heading: string = key): WrittenColumn => ({
    key,
    heading,
    isAlways: false,
    cell,
  });
  const keyOf = (key: string, { id }: Task) => standing.get(idKey(id))?.find((each) => each.key === key);
  const byModel = (key: string, task: Task): boolean => keyOf(key, task)?.isMap === true;
  const textsOf = (key: string, task: Task): readonly string[] => keyOf(key, task)?.texts ?? [];
  const asTyped = (key: string, task: Task): SheetCell => {
    const [typed] = textsOf(key, task);
    return text(typed === undefined ? null : meantWords(typed));
  };
  const timeTyped = (key: string, task: Task): SheetCell => {
    const [micros] = timesTyped(key, keyOf(key, task), line);
    return micros === undefined ? null : time(micros);
  };
  const further: Record<(typeof FURTHER_KEYS)[number], WrittenColumn> = {
    quantity: some("quantity", (task) => (byModel("quantity", task) ? null : number(task.quantity, 1))),
    every: some("every", ({ every }) => number(every, 1)),
    walking: some("walking", ({ walking }) => (walking === 0 ? null : time(walking)), `walking (${unit})`),
    "machine-time": some(
      "machine-time",
      (task) => (task.machineTime === 0 ? null : time(pieceMachineTime(task))),
      `machine time (${unit})`,
    ),
    people: some("people", (task) => (byModel("people", task) ? null : number(task.people, 1))),
    zone: some("zone", ({ zone }) => text(zone === null ? null : meantWords(zone))),
    skill: some("skill", ({ skills }) => text(wordList(skills))),
    equipment: some("equipment", ({ equipment }) => text(wordList(equipment))),
    side: some("side", ({ side }) => text(side)),
    kind: some("kind", ({ kind }) => text(kind)),
    lift: some(
      "lift",
      ({ lift }) => (lift === null ? null : { number: plain(/^[\d.]+/u.exec(lift)![0]) }),
      "lift (kg)",
    ),
    caution: some("caution", ({ caution }) => text(caution === null ? null : meantWords(caution))),
    parts: some("parts", (task) => text(partsText(keyOf("parts", task)?.words ?? null))),
    "move-cost": some("move-cost", ({ moveCost }) => (moveCost === null ? null : number(moveCost, 0))),
    training: some("training", (task) => timeTyped("training", task), `training (${unit})`),
    learning: some("learning", (task) => asTyped("learning", task)),
    station: some("station", (task) => text(wordList(textsOf("station", task))), "only station"),
    "not-before": some("not-before", (task) => asTyped("not-before", task)),
    "not-after": some("not-after", (task) => asTyped("not-after", task)),
    "on-base": some("on-base", (task) => asTyped("on-base", task)),
    check: some("check", (task) => text(wordList(textsOf("check", task), "; "))),
    spread: some("spread", (task) => timeTyped("spread", task), `spread (${unit})`),
    readings: some("readings", (task) => asTyped("readings", task)),
  };
  const before = orderCells(line);
  return [
    { ...some("id", ({ id }) => text(idText(id))), isAlways: true },
    some("name", ({ name }) => text(name === null ? null : meantWords(name))),
    ...timeColumnsOf(line, unit, time),
    ...FURTHER_KEYS.map((key) => further[key]),
    { ...some("after", (_, at) => text(before(at))), isAlways: true },
  ];
}

/** One column where all models take as long, or one for each. */
function timeColumnsOf(line: Line, unit: TimeUnit, time: (micros: Micros) => SheetCell): WrittenColumn[] {
  const { models, tasks } = line;
  const isAlike = tasks.every((task) => new Set(pieceTimes(task)).size === 1);
  if (isAlike)
    return [
      { key: "time", heading: `time (${unit})`, isAlways: true, cell: (task) => time(pieceTimes(task)[0]!) },
    ];
  return models.map(({ id }, model) => ({
    key: `time ${id}`,
    heading: timeHeading(id, unit),
    isAlways: true,
    cell: (task) => {
      const micros = pieceTimes(task)[model]!;
      return micros === null ? { text: NOT_HAD } : time(micros);
    },
  }));
}

const NOT_HAD = "-";

/** Ids that a spreadsheet or a reader would take for something else stand behind an apostrophe: it marks text. */
const idText = (id: string): string => (TAKEN_OTHERWISE.test(id) ? `'${id}` : id);
const TAKEN_OTHERWISE =
  /^'|^\s*(?:\d(?:[.,]\d+)?E\+\d+|(?:grand\s+|sub-?\s*)?(?:total|sum)s?(?:\s+(?:time|work|work content))?\s*:?)\s*$/iu;

/** A dash alone is no value: one that is meant stands behind an apostrophe. */
const meantWords = (words: string): string => (/^'*[-\u2013\u2014]$/u.test(words) ? `'${words}` : words);

const inQuotes = (word: string): string => `"${word.replaceAll('"', '""')}"`;

/** Words of a list; in quotes where one of them would be divided. */
function wordList(words: readonly string[], divider: ", " | "; " = ", "): string | null {
  if (words.length === 0) return null;
  const dividing = divider === ", " ? /[,;\n"]/u : /[;\n"]/u;
  const isDivided = words.some((word) => dividing.test(word) || isDash(word) || word !== word.trim());
  return isDivided ? words.map(inQuotes).join("; ") : words.join(divider);
}

const isDash = (word: string): boolean => /^[-\u2013\u2014]$/u.test(word);

/** `HC-12 x 2; bolt x 1`, a part in quotes where it would be read as another. */
function partsText(parts: ReadonlyMap<string, string> | null): string | null {
  if (parts === null) return null;
  const words = [...parts].map(([name, pieces]) => {
    const read = readPieces(`${name} x ${pieces}`);
    const isSame = read.ok && read.value.size === 1 && read.value.get(name) === pieces.trim();
    return `${isSame ? name : inQuotes(name)} x ${pieces.trim()}`;
  });
  return words.join("; ");
}

/** The cell of the tasks before each task, as a reader of tables takes it apart again. */
function orderCells({ tasks, before }: Line): (task: number) => string | null {
  const ids = new Map(tasks.map(({ id }) => [idKey(id), id]));
  const read = neighboursReader({ ids, ranges: false, nothing: [] });
  return (task) => {
    const names = before[task]!.map((each) => tasks[each]!.id);
    if (names.length === 0) return null;
    const all = [names.join(", "), names.map(inQuotes).join("; "), names.map(inQuotes).join("|")];
    const isRead = (cell: string) => {
      const back = read({ kind: "text", text: cell, row: 1, column: 1 });
      return back.ok && back.value.ids.join("\n") === names.join("\n");
    };
    return all.find(isRead) ?? all[0]!;
  };
}

/** Keys that a table has columns for. */
const CARRIED: ReadonlySet<string> = new Set(["name", "time", "after", ...FURTHER_KEYS]);

/** Keys of tasks that no column holds, in the order in which they stand first, each with its tasks. */
function keysLeftOut({ tasks }: Line, standing: Standing): LeftOut[] {
  const left = new Map<string, string[]>();
  for (const { id } of tasks)
    for (const { key, isMap, words } of standing.get(idKey(id)) ?? []) {
      const isHeld = key === "time" || (key === "parts" && words !== null) || !isMap;
      if (CARRIED.has(key) && isHeld) continue;
      addTo(left, key, id);
    }
  return [...left].map(([key, ids]) => ({ key, tasks: ids }));
}

/** Tasks that are named before the rest is counted. */
const NAMED = 3;

function tellLeftOut({ file, tasks }: Line, leftOut: readonly LeftOut[]): Finding[] {
  return leftOut.map(({ key, tasks: ids }) => {
    const names = ids.slice(0, NAMED);
    const rest = ids.length - names.length;
    const of = `of ${listOf(rest > 0 ? [...names, `${rest} more`] : names)}`;
    const message = `${WHAT[key] ?? `\`${key}\``} ${of} has no place in a table; it stays in the line file`;
    const { place } = tasks.find(({ id }) => id === ids[0])!;
    return finding({ rule: "left-out", severity: "warning", message, file, place, task: ids[0]! });
  });
}

/** What a column holds a part of only. */
const WHAT: Readonly<Record<string, string>> = {
  after: "what lies between tasks in `after`",
  quantity: "`quantity` by model",
  people: "`people` by model",
  parts: "`parts` by model",
};
