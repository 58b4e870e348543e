import { addTo } from "../findings/add-to.js";
import { countOf } from "../findings/count-of.js";
import type { Finding } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Task } from "../line/line.js";
import { flowText } from "../line/write/flow-text.js";
import { type LineSource, LineUpdate, type UpdatedLine } from "../line/write/update-line.js";
import type { WrittenKey } from "../line/write/write-tasks.js";
import { readNumber } from "../time/exact-number.js";
import { quoted } from "../time/quoted.js";
import { add, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { percent } from "../time/show-values.js";
import { type Micros, type TimeUnit, unitNamed } from "../time/units.js";
import { square, squareRoot } from "./statistics.js";
import type { StudiedElement, Study } from "./study-elements.js";

/** The time of a task before and after. */
export interface TaskChange {
  readonly task: string;
  /** Of one piece. */
  readonly was: Micros;
  readonly now: Micros;
  readonly elements: readonly string[];
}

export interface StudyIntoLine {
  /** Null where an error keeps the times from being written. */
  readonly written: UpdatedLine<TaskChange> | null;
  readonly findings: readonly Finding[];
  /** The text that the findings are about. */
  readonly source: string;
}

/** What a study says of a task. */
interface StudiedTime {
  /** Of one piece, in microseconds, and its standard deviation; null where that is not known. */
  readonly time: Ratio;
  readonly spread: Ratio | null;
  /** Readings that are kept, as times like `time`; null where they are not, and that they are not written. */
  readonly measured: readonly Ratio[] | null;
  /** Where the time comes from. */
  readonly readings: string;
  /** Null where the line says it already, or where it is every unit. */
  readonly every: number | null;
}

/**
 * Puts the standard times of a study into a line file. A task that several elements are parts of takes the sum of them. Its spread is that of
 * the readings, in proportion to the time, or the readings themselves stand there, those of several elements added up one by one. Times are rounded as reports round them, and stay in the unit that they are written in.
 */
export function intoLine(study: Study, file: LineSource, keepsReadings = false): StudyIntoLine {
  const { line } = file;
  const update = new LineUpdate(file);
  const nearest = nearestWordsAmong(line.tasks.map(({ id }) => id));
  const parts = new Map<string, StudiedElement[]>();
  for (const element of study.elements) {
    const key = idKey(element.task);
    addTo(parts, key, element);
  }
  const times = [...parts.values()].flatMap((elements) => {
    const [{ task: name }] = elements as [StudiedElement];
    const task = update.find(name);
    if (task === undefined) {
      const message = `the line has no task ${quoted(name)}${nearest(name)}; a column \`task\` says which task an element is a part of`;
      update.tell("error", "unknown-task", message);
      return [];
    }
    const kept = keepsReadings ? readingsOfTask(elements) : null;
    if (keepsReadings && kept === null) {
      const names = listOf(elements.map((each) => each.name));
      const problem =
        elements.length === 1
          ? `${names} has fewer than two readings`
          : `readings of ${names} cannot be added up one by one: there are not as many of each, fewer than two, or they are of other units`;
      update.tell("warning", "kept-readings", `${problem}; ${task.id} gets its spread only`, task.id);
    }
    const studied = timeOfTask(study, task, elements, kept);
    if (studied === null) {
      const message = `${task.id} is done on every ${task.every} units in the line, and on every ${listOf(elements.map(({ every }) => String(every)))} in the study`;
      update.tell("error", "every", message, task.id);
      return [];
    }
    if (task.quantity > 1) {
      const message = `${task.id} is done ${task.quantityByModel === undefined ? "" : "up to "}${task.quantity} times a unit in the line: the readings are taken as those of one piece`;
      update.tell("warning", "quantity", message, task.id);
    }
    return [{ studied, task, elements: elements.map((each) => each.name) }];
  });
  const missing = line.tasks.filter(({ id }) => !parts.has(idKey(id))).length;
  if (missing > 0) {
    const keep = missing === 1 ? "keeps its time" : "keep their times";
    update.tell("note", "not-studied", `${countOf(missing, "task")} of the line ${keep}`);
  }
  warnOfRest(study, file, update);
  const tasks = times.map(({ studied, task }) => ({
    id: task.id,
    keys: (present: string | null) => keysOf(studied, present ?? "0", line.unit),
    after: null,
  }));
  const updated = update.write(tasks, () => true);
  const { findings, source } = update;
  if (updated === null) return { written: null, findings, source };
  const changed = new Map(updated.after.tasks.map((each) => [idKey(each.id), each]));
  const written = times.map(({ task, elements }) => ({
    task: task.id,
    was: pieceTime(task),
    now: pieceTime(changed.get(idKey(task.id))!),
    elements,
  }));
  return { written: { text: updated.text, lines: updated.lines, tasks: written }, findings, source };
}

/** Of the first model that has the task. */
function pieceTime({ times, quantity, quantityByModel }: Task): Micros {
  const model = times.findIndex((each) => each !== null);
  return times[model]! / (quantityByModel?.[model] ?? quantity);
}

/** The keys of a task, in the order in which they are written behind its time. */
function keysOf(
  { time, spread, measured, readings, every }: StudiedTime,
  present: string,
  unit: TimeUnit | null,
): WrittenKey[] {
  const show = (value: Ratio) => likePresent(value, present, unit);
  return [
    ["time", show(time)],
    ["spread", spread === null || measured !== null ? null : show(spread)],
    ["measured", measured === null ? null : `[${measured.map(show).join(", ")}]`],
    ...(every === null ? [] : [["every", String(every)] satisfies WrittenKey]),
    ["readings", flowText(readings)],
  ];
}

/** A time as the present one is written: a bare number in the unit of the file, or with its unit. */
function likePresent(value: Ratio, present: string, unit: TimeUnit | null): string {
  const typed = present.trim();
  const isBare = readNumber(typed) !== null;
  const own = unitNamed(/[a-z]+$/iu.exec(typed)?.[0] ?? "");
  const shown = showTimesIn(isBare ? unit : (own ?? unit))(value);
  return isBare && unit !== null ? shown.split(" ")[0]! : shown;
}

/** Null where line and study differ in how often the task is done. */
function timeOfTask(
  study: Study,
  task: Task,
  elements: readonly StudiedElement[],
  measured: readonly Ratio[] | null,
): StudiedTime | null {
  const [first] = elements as [StudiedElement, ...StudiedElement[]];
  const isAlike = elements.every(({ every }) => every === first.every);
  const every = isAlike ? first.every : 1;
  if (every > 1 && task.every > 1 && every !== task.every) return null;
  const share = ({ every: each }: StudiedElement) => (isAlike ? ratio(1) : ratio(1, each));
  const time = elements.map((each) => multiply(each.standard, share(each))).reduce(add, ZERO);
  const squares = elements.map((each) =>
    each.deviation === null
      ? null
      : square(multiply(each.deviation, multiply(share(each), divide(each.standard, each.observed)))),
  );
  const known = squares.filter((each): each is Ratio => each !== null);
  const spread = known.length < squares.length ? null : squareRoot(known.reduce(add, ZERO));
  return {
    time,
    spread,
    measured,
    readings: sourceWords(study, task, elements),
    every: every > 1 && task.every === 1 ? every : null,
  };
}

/**
 * Readings of a task in proportion to its standard time, those of its elements added up one by one; a turn that is left out of one element is
 * left out of all. Null where that cannot be.
 */
function readingsOfTask(elements: readonly StudiedElement[]): Ratio[] | null {
  const [first] = elements as [StudiedElement, ...StudiedElement[]];
  const isAlike = elements.every(
    ({ every, shown }) => every === first.every && shown.length === first.shown.length,
  );
  if (!isAlike) return null;
  const turns = [...first.shown.keys()].filter((at) => elements.every(({ shown }) => !shown[at]!.isLeftOut));
  const times = turns.map((at) =>
    elements
      .map(({ shown, standard, mean }) => multiply(shown[at]!.time, divide(standard, mean)))
      .reduce(add, ZERO),
  );
  return times.length < 2 ? null : times;
}

/** "10 in stopwatch.csv (mean; rating 110 %; allowance 15 % of the shift)", with the elements where they are called otherwise. */
function sourceWords(study: Study, task: Task, elements: readonly StudiedElement[]): string {
  const { terms, allowance, file } = study;
  const own = elements.length === 1 && idKey(elements[0]!.name) === idKey(task.id);
  const counts = elements.map(({ name, readings }) => (own ? String(readings) : `${readings} of ${name}`));
  const ratings = [...new Set(elements.map(({ rating }) => percent(rating)))];
  const base = { job: "job time", shift: "shift" }[terms.allowanceBase ?? "job"];
  const rest = allowance.num === 0n ? "no allowance" : `allowance ${percent(allowance)} of the ${base}`;
  const parts = [terms.statistic.replace("-", " "), `rating ${listOf(ratings)}`, rest];
  return `${listOf(counts)} in ${file.split(/[/\\]/u).at(-1)} (${parts.join("; ")})`;
}

/** Breaks that the calendar takes off and allowances for rest may be the same minutes; both may be right. */
function warnOfRest({ allowance }: Study, { line: { calendar } }: LineSource, update: LineUpdate): void {
  const breaks = calendar?.shifts.some((shift) => shift.breaks.length > 0) ?? false;
  if (!breaks || allowance.num === 0n) return;
  const message = `the times carry an allowance of ${percent(allowance)}, and the calendar takes breaks off: make sure that no rest is counted twice`;
  update.tell("warning", "rest-counted-twice", message);
}
