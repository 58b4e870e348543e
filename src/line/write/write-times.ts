import { isMap, isScalar, type Pair, parseDocument, type YAMLMap } from "yaml";
import { readNumber } from "../../time/exact-number.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { type TimeUnit, unitNamed } from "../../time/units.js";
import { idKey } from "../ids.js";
import { flowText } from "./flow-text.js";
import {
  applyEdits,
  type ChangedLines,
  changedLines,
  contentEnd,
  type Edit,
  insertBehind,
  pairOf,
  rangeOf,
  takeOut,
  textOf,
} from "./source-edits.js";

/** What a study says of a task. */
export interface StudiedTime {
  /** As the line has it. */
  readonly id: string;
  /** Of one piece, in microseconds, and its standard deviation; null where that is not known. */
  readonly time: Ratio;
  readonly spread: Ratio | null;
  /** Where the time comes from. */
  readonly readings: string;
  /** Null where the line says it already, or where it is every unit. */
  readonly every: number | null;
}

export interface RewrittenLine {
  readonly text: string;
  readonly changes: readonly ChangedLines[];
  /** Tasks that are written so that their time cannot be changed: by an alias, or by model. */
  readonly refused: readonly string[];
}

/**
 * The text of a line file with other task times, their spread and where they come from. Everything else keeps its bytes: comments, order, line
 * ends. Times are rounded as reports round them, and stay in the unit that they are written in.
 *
 * @param unit what a bare number of the file means
 */
export function writeTimes(
  source: string,
  unit: TimeUnit | null,
  times: readonly StudiedTime[],
): RewrittenLine {
  const root = parseDocument(source, { schema: "failsafe", keepSourceTokens: true }).contents;
  const tasks = isMap(root) ? pairOf(root, "tasks")?.value : undefined;
  const edits: Edit[] = [];
  const refused: string[] = [];
  for (const each of times) {
    const pair = isMap(tasks)
      ? (tasks.items as Pair[]).find(({ key }) => idKey(textOf(key) ?? "") === idKey(each.id))
      : undefined;
    const edit = pair === undefined ? null : editTask(source, pair, unit, each);
    if (edit === null) refused.push(each.id);
    else edits.push(...edit);
  }
  return { text: applyEdits(source, edits), changes: changedLines(source, edits), refused };
}

function editTask(source: string, task: Pair, unit: TimeUnit | null, studied: StudiedTime): Edit[] | null {
  const { value } = task;
  if (isScalar(value)) {
    const keys = wanted(textOf(value)!, unit, studied).map(([key, text]) => `${key}: ${text}`);
    return [{ from: rangeOf(value)[0], to: contentEnd(value), text: `{${keys.join(", ")}}` }];
  }
  if (!isMap(value)) return null;
  const time = pairOf(value, "time");
  if (time === undefined || !isScalar(time.value)) return null;
  return wanted(textOf(time.value)!, unit, studied)
    .flatMap(([key, text]) => editKey(source, value, time, key, text))
    .concat(studied.spread === null ? withoutSpread(source, value) : []);
}

/** The keys of a task and their texts, in the order in which they are written behind its time. */
function wanted(present: string, unit: TimeUnit | null, studied: StudiedTime): [string, string][] {
  const { time, spread, readings, every } = studied;
  const show = (value: Ratio) => likePresent(value, present, unit);
  return [
    ["time", show(time)],
    ...(spread === null ? [] : [["spread", show(spread)] satisfies [string, string]]),
    ...(every === null ? [] : [["every", String(every)] satisfies [string, string]]),
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

function editKey(source: string, map: YAMLMap, time: Pair, key: string, text: string): Edit[] {
  const pair = pairOf(map, key);
  if (pair === undefined) return [insertBehind(source, map, time, `${key}: ${text}`)];
  if (pair.value === null) throw new RangeError("a key without a value");
  return [{ from: rangeOf(pair.value)[0], to: contentEnd(pair.value), text }];
}

function withoutSpread(source: string, map: YAMLMap): Edit[] {
  const pair = pairOf(map, "spread");
  return pair === undefined ? [] : [takeOut(source, map, pair)];
}
