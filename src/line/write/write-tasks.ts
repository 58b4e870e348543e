import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  Scalar,
  type YAMLMap,
} from "yaml";
import { readDuration } from "../../time/duration.js";
import type { TimeUnit } from "../../time/units.js";
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

/** A value as it is written, or that of each model. */
export type WrittenValue = string | ReadonlyMap<string, string>;

/** A key of a task and what is to stand there; null where the key is to go. */
export type WrittenKey = readonly [key: string, value: WrittenValue | null];

/** What is to stand of a task in a line file. */
export interface WrittenTask {
  readonly id: string;
  /** Its keys but `after`, `time` among them, given its time as it is written now: null for a new task and for times by model. */
  keys(present: string | null): readonly WrittenKey[];
  /** The tasks before it that `after` is to name; null where it stays as it is. */
  readonly after: readonly string[] | null;
  /** Keys of those that a chain has right before it: `after` need not name them, and goes on naming them where it does, maybe with a wait. */
  readonly chained?: ReadonlySet<string>;
}

/** A key of a task that is written anew. */
export interface ChangedKey {
  readonly key: string;
  /** As written; null where it stood not. */
  readonly was: string | null;
  /** Null where it is taken out. */
  readonly now: string | null;
}

export interface ChangedTask {
  readonly id: string;
  readonly isNew: boolean;
  readonly keys: readonly ChangedKey[];
}

export interface RewrittenTasks {
  readonly text: string;
  readonly lines: readonly ChangedLines[];
  readonly tasks: readonly ChangedTask[];
  /** Tasks and keys that are written so that they cannot be changed: by an alias, by model, over several lines. */
  readonly refused: readonly { readonly id: string; readonly key: string }[];
}

/**
 * The text of a line file with these keys of its tasks, and with those tasks behind its own that it does not have. What says the same already
 * and everything else keeps its bytes: comments, order, line ends.
 *
 * @param document what was read of the source, every value as text
 * @param unit what a bare number of the file means
 */
export function writeTasks(
  source: string,
  document: Document,
  unit: TimeUnit | null,
  tasks: readonly WrittenTask[],
): RewrittenTasks {
  const root = document.contents;
  const map = isMap(root) ? pairOf(root, "tasks")?.value : undefined;
  if (!isMap(map)) throw new RangeError("a line file without tasks");
  const pairs = map.items as Pair[];
  const known = new Map(pairs.map((pair) => [idKey(textOf(pair.key) ?? ""), pair]));
  const edits: Edit[] = [];
  const changed: ChangedTask[] = [];
  const refused: { id: string; key: string }[] = [];
  for (const task of tasks) {
    const pair = known.get(idKey(task.id));
    if (pair === undefined) {
      const keys = keysInFull(task, null);
      edits.push(
        insertBehind(source, map as YAMLMap, pairs.at(-1)!, `${flowId(task.id)}: ${valueInFull(keys)}`),
      );
      changed.push({ id: task.id, isNew: true, keys: keys.map(([key, now]) => ({ key, was: null, now })) });
      continue;
    }
    const result = new TaskEdit(source, unit, pair, task);
    edits.push(...result.edits);
    refused.push(...result.refused.map((key) => ({ id: task.id, key })));
    if (result.changes.length > 0) changed.push({ id: task.id, isNew: false, keys: result.changes });
  }
  return { text: applyEdits(source, edits), lines: changedLines(source, edits), tasks: changed, refused };
}

/** An id as people write it: plain numbers stay plain. */
export const flowId = (text: string): string => (/^(?:0|[1-9]\d{0,14})$/u.test(text) ? text : flowText(text));

/** One piece, one person and every unit need no key. */
export const isDefault = (key: string, value: WrittenValue): boolean =>
  value === "1" && (key === "quantity" || key === "people" || key === "every");

const listOf = (ids: readonly string[]): string =>
  ids.length === 1 ? flowId(ids[0]!) : `[${ids.map(flowId).join(", ")}]`;

const flowMap = (keys: Iterable<readonly [string, string]>): string =>
  `{${[...keys].map(([key, value]) => `${key}: ${value}`).join(", ")}}`;

/** A value in one line. */
export const valueText = (value: WrittenValue): string =>
  typeof value === "string" ? value : flowMap([...value].map(([model, text]) => [flowId(model), text]));

/** All that is said of a task that has no keys yet. */
export function keysInFull(task: WrittenTask, present: string | null): (readonly [string, string])[] {
  const said = task
    .keys(present)
    .flatMap(([key, value]) =>
      value === null || isDefault(key, value) ? [] : [[key, valueText(value)] as const],
    );
  const { after } = task;
  return after === null || after.length === 0 ? said : [...said, ["after", listOf(after)]];
}

/** The value of a task with these keys; a time alone is enough. */
export const valueInFull = (keys: readonly (readonly [string, string])[]): string =>
  keys.length === 1 && !keys[0]![1].startsWith("{") ? keys[0]![1] : flowMap(keys);

/** Keys of lists whose order says nothing. */
const SETS = new Set(["skill", "equipment", "station"]);

const TIMES = new Set(["time", "walking", "machine-time", "training", "spread"]);

/** The edits of one task that the file has. */
class TaskEdit {
  readonly edits: Edit[] = [];
  readonly changes: ChangedKey[] = [];
  readonly refused: string[] = [];

  constructor(
    readonly source: string,
    readonly unit: TimeUnit | null,
    pair: Pair,
    task: WrittenTask,
  ) {
    const { value } = pair;
    if (isScalar(value)) this.#editBare(value, task);
    else if (isMap(value)) this.#editMap(value as YAMLMap, task);
    else this.refused.push("time");
  }

  /** A bare time: it becomes a map where more is known. */
  #editBare(value: Node, task: WrittenTask): void {
    const present = textOf(value)!;
    const all = keysInFull(task, present);
    const [, time] = all.find(([key]) => key === "time")!;
    const isSame = this.#isSame("time", value, time);
    for (const [key, now] of all) {
      if (key !== "time") this.changes.push({ key, was: null, now });
      else if (!isSame) this.changes.push({ key, was: present, now });
    }
    if (this.changes.length === 0) return;
    const kept = all.map(
      ([key, text]) => [key, key === "time" && isSame ? this.#sliceOf(value) : text] as const,
    );
    this.#replace(value, valueInFull(kept));
  }

  #editMap(map: YAMLMap, task: WrittenTask): void {
    const time = pairOf(map, "time");
    if (time === undefined) {
      this.refused.push("time");
      return;
    }
    for (const [key, now] of task.keys(textOf(time.value))) {
      const pair = pairOf(map, key);
      if (pair === undefined) {
        if (now === null || isDefault(key, now)) continue;
        const text = valueText(now);
        this.changes.push({ key, was: null, now: text });
        this.edits.push(insertBehind(this.source, map, time, `${key}: ${text}`));
      } else if (now === null) {
        this.changes.push({ key, was: this.#sliceOf(pair.value!), now });
        this.edits.push(takeOut(this.source, map, pair));
      } else if (typeof now !== "string" && isMap(pair.value)) {
        this.#editByModel(pair.value as YAMLMap, key, now);
      } else if (!this.#isSame(key, pair.value, valueText(now))) this.#replaceKey(pair, key, valueText(now));
    }
    if (task.after !== null) this.#editAfter(map, time, task.after, task.chained);
  }

  /** The values of models that stand in a map; models that are not named keep theirs. */
  #editByModel(map: YAMLMap, key: string, wanted: ReadonlyMap<string, string>): void {
    const edits: Edit[] = [];
    for (const [model, now] of wanted) {
      const pair = pairOf(map, idKey(model));
      if (pair === undefined) {
        const text = `${flowId(model)}: ${now}`;
        edits.push(insertBehind(this.source, map, map.items.at(-1) as Pair, text));
      } else if (!this.#isSame(key, pair.value, now)) {
        const { value } = pair;
        if (!isScalar(value) || value.anchor !== undefined) {
          this.refused.push(key);
          return;
        }
        edits.push({ from: rangeOf(value)[0], to: contentEnd(value), text: now });
      }
    }
    if (edits.length === 0) return;
    const was = this.#sliceOf(map).replace(/\s*\n\s*/gu, " ");
    this.changes.push({ key, was, now: valueText(wanted) });
    this.edits.push(...edits);
  }

  #editAfter(map: YAMLMap, time: Pair, after: readonly string[], chained?: ReadonlySet<string>): void {
    const pair = pairOf(map, "after");
    if (pair === undefined) {
      if (after.length === 0) return;
      const now = listOf(after);
      this.changes.push({ key: "after", was: null, now });
      this.edits.push(insertBehind(this.source, map, time, `after: ${now}`));
      return;
    }
    const { value } = pair;
    const items = (isSeq(value) ? value.items : [value]) as Node[];
    const names = items.map((item) => namedIn(item));
    if (value === null || isAlias(value) || names.includes(null)) {
      this.refused.push("after");
      return;
    }
    const wanted = new Map(after.map((id) => [idKey(id), id]));
    const present = new Set(names);
    const isNamed = (name: string | null) => wanted.has(name!) || chained?.has(name!);
    // A task that is named again says nothing more.
    if (names.every(isNamed) && [...wanted.keys()].every((name) => present.has(name))) return;
    const kept = items.filter((_, at) => wanted.delete(names[at]!) || chained?.has(names[at]!));
    const texts = [...kept.map((item) => this.#sliceOf(item)), ...[...wanted.values()].map(flowId)];
    if (texts.length === 0) {
      this.changes.push({ key: "after", was: this.#sliceOf(value), now: null });
      this.edits.push(takeOut(this.source, map, pair));
      return;
    }
    this.#replaceKey(pair, "after", texts.length === 1 ? texts[0]! : `[${texts.join(", ")}]`);
  }

  #replaceKey(pair: Pair<Node, Node | null>, key: string, now: string): void {
    const { value } = pair;
    // A map says how many of each part, or what lies between two tasks; any other is by model.
    const isList = isSeq(value) || (isMap(value) && (key === "parts" || key === "after"));
    const isPlain = (isScalar(value) || isList) && value?.anchor === undefined;
    const was = isPlain ? this.#sliceOf(value!) : "";
    const hasComment = isList && was.includes("#");
    if (!isPlain || hasComment || /^[|>]/u.test(was) || now.includes("\n")) {
      this.refused.push(key);
      return;
    }
    this.changes.push({ key, was: was.replace(/\s*\n\s*/gu, " "), now });
    this.#replace(value!, now);
  }

  #replace(value: Node, text: string): void {
    this.edits.push({ from: rangeOf(value)[0], to: contentEnd(value), text });
  }

  #sliceOf(value: Node): string {
    return this.source.slice(rangeOf(value)[0], contentEnd(value));
  }

  /** Whether what stands says the same as what is wanted. */
  #isSame(key: string, present: Node | null, wanted: string): boolean {
    // Of models that all take as long, one time says the same.
    if (key === "time" && isMap(present) && present.items.length > 0)
      return (present.items as Pair<Node, Node | null>[]).every(({ value }) =>
        this.#isSame(key, value, wanted),
      );
    const isPlain = !/^["'[{]/u.test(wanted);
    if (isPlain && textOf(present) === wanted) return true;
    const now = isPlain ? new Scalar(wanted) : parseDocument(wanted, { schema: "failsafe" }).contents;
    if (!TIMES.has(key) || !isScalar(now)) {
      const [was, then] = [present, now].map((node) =>
        SETS.has(key) ? wordsOf(node).sort() : wordsOf(node),
      );
      return JSON.stringify(was) === JSON.stringify(then);
    }
    // The dash of a model without the task is no time, whatever its quotes.
    if (isScalar(present) && textOf(present) === textOf(now)) return true;
    const [one, two] = [present, now].map((node) => readDuration(textOf(node) ?? "", this.unit));
    return one!.ok && two!.ok && one!.value === two!.value;
  }
}

/** The words of a value, one or a list; those of a map in pairs. */
const wordsOf = (value: Node | null): (string | null)[] =>
  (isMap(value)
    ? (value.items as Pair<Node, Node>[]).flatMap((pair) => [pair.key, pair.value])
    : isSeq(value)
      ? (value.items as Node[])
      : [value]
  ).map((item) => {
    const text = textOf(item);
    return text === null ? null : idKey(text);
  });

/** The key of the task that an entry of `after` names; null for an alias. */
function namedIn(item: Node): string | null {
  const name = isMap(item) ? textOf(pairOf(item as YAMLMap, "task")?.value) : textOf(item);
  return name === null ? null : idKey(name);
}

/** The tasks that `chains` put directly before each task, all by the keys of their ids. */
export function chainedBefore({ contents: root }: Document): ReadonlyMap<string, ReadonlySet<string>> {
  const chains = isMap(root) ? pairOf(root, "chains")?.value : null;
  const before = new Map<string, Set<string>>();
  for (const chain of isSeq(chains) ? chains.items : []) {
    const keys = (isSeq(chain) ? chain.items : []).map((id) => idKey(textOf(id) ?? ""));
    for (const [at, key] of keys.entries())
      if (at > 0) before.set(key, (before.get(key) ?? new Set()).add(keys[at - 1]!));
  }
  return before;
}
