import { countOf } from "../findings/count-of.js";
import { type Finding, finding, hasErrors } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import type { Line, Task } from "../line/line.js";
import { readLine } from "../line/read-line.js";
import type { ChangedLines } from "../line/write/source-edits.js";
import { type StudiedTime, writeTimes } from "../line/write/write-times.js";
import { quoted } from "../time/quoted.js";
import { add, divide, multiply, type Ratio, ratio, ZERO } from "../time/ratio.js";
import { percent } from "../time/show-values.js";
import type { Micros } from "../time/units.js";
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

/** A line file with the times of a study in it. */
export interface StudiedLine {
  readonly text: string;
  readonly lines: readonly ChangedLines[];
  readonly tasks: readonly TaskChange[];
}

export interface IntoLine {
  /** Null where an error keeps the times from being written. */
  readonly written: StudiedLine | null;
  readonly findings: readonly Finding[];
}

/**
 * Puts the standard times of a study into a line file. A task that several elements are parts of takes the sum of them. Its spread is that of
 * the readings, in proportion to the time.
 */
export function intoLine(study: Study, line: Line, source: string): IntoLine {
  const nearest = nearestWordsAmong(line.tasks.map(({ id }) => id));
  const tasks = new Map(line.tasks.map((task) => [idKey(task.id), task]));
  const parts = new Map<string, StudiedElement[]>();
  for (const element of study.elements) {
    const key = idKey(element.task);
    parts.set(key, [...(parts.get(key) ?? []), element]);
  }
  const findings: Finding[] = [];
  const tell = (severity: "error" | "warning" | "note", rule: string, message: string, task: Task | null) =>
    findings.push(
      finding({
        rule,
        severity,
        message,
        file: line.file,
        place: task?.place ?? null,
        task: task?.id ?? null,
      }),
    );
  const times: (StudiedTime & { readonly task: Task; readonly elements: readonly string[] })[] = [];
  for (const [key, elements] of parts) {
    const task = tasks.get(key);
    if (task === undefined) {
      const [{ task: name }] = elements as [StudiedElement];
      const message = `the line has no task ${quoted(name)}${nearest(name)}; a column \`task\` says which task an element is a part of`;
      tell("error", "unknown-task", message, null);
      continue;
    }
    const studied = timeOfTask(study, task, elements);
    if (studied === null) {
      const message = `${task.id} is done on every ${task.every} units in the line, and on every ${listOf(elements.map(({ every }) => String(every)))} in the study`;
      tell("error", "every", message, task);
      continue;
    }
    if (task.quantity > 1) {
      const message = `${task.id} is done ${task.quantity} times a unit in the line: the readings are taken as those of one piece`;
      tell("warning", "quantity", message, task);
    }
    times.push({ ...studied, task, elements: elements.map(({ name }) => name) });
  }
  const missing = line.tasks.filter(({ id }) => !parts.has(idKey(id))).length;
  if (missing > 0)
    tell(
      "note",
      "not-studied",
      `${countOf(missing, "task")} of the line ${missing === 1 ? "keeps its time" : "keep their times"}`,
      null,
    );
  warnOfRest(study, line, tell);
  if (hasErrors(findings)) return { written: null, findings };
  const { text, changes, refused } = writeTimes(source, line.unit, times);
  for (const id of refused) {
    const why = "its time is by model, or an alias (*name) stands for it; write it there by hand";
    tell("error", "not-written", `the time of ${id} cannot be replaced: ${why}`, tasks.get(idKey(id))!);
  }
  if (refused.length > 0) return { written: null, findings };
  const after = readLine(line.file, text).line;
  const changed = new Map(after?.tasks.map((each) => [idKey(each.id), each]));
  const others = line.tasks.filter(
    ({ id, times: before }) =>
      !parts.has(idKey(id)) && String(changed.get(idKey(id))?.times) !== String(before),
  );
  if (after === null || others.length > 0) {
    const who =
      others.length > 0 ? `${others[0]!.id} would change as well` : "the file could not be read any more";
    tell("error", "not-written", `nothing is written: ${who}; aliases (*name) may stand for the times`, null);
    return { written: null, findings };
  }
  const pieceTime = ({ times: [time], quantity }: Task) => time! / quantity;
  const written = times.map(({ task, elements }) => ({
    task: task.id,
    was: pieceTime(task),
    now: pieceTime(changed.get(idKey(task.id))!),
    elements,
  }));
  return { written: { text, lines: changes, tasks: written }, findings };
}

/** Null where line and study differ in how often the task is done. */
function timeOfTask(study: Study, task: Task, elements: readonly StudiedElement[]): StudiedTime | null {
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
    id: task.id,
    time,
    spread,
    readings: sourceWords(study, task, elements),
    every: every > 1 && task.every === 1 ? every : null,
  };
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
function warnOfRest(
  { allowance }: Study,
  { calendar }: Line,
  tell: (severity: "warning", rule: string, message: string, task: null) => void,
): void {
  const breaks = calendar?.shifts.some((shift) => shift.breaks.length > 0) ?? false;
  if (!breaks || allowance.num === 0n) return;
  const message = `the times carry an allowance of ${percent(allowance)}, and the calendar takes breaks off: make sure that no rest is counted twice`;
  tell("warning", "rest-counted-twice", message, null);
}
