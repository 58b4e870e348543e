import {
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

/** What is to stand of a task in a line file. */
export interface WrittenTask {
  readonly id: string;
  /** Its keys but `after`, `time` among them, and their values as they are written. */
  readonly keys: readonly (readonly [key: string, value: string])[];
  /** The tasks before it that `after` is to name; null where it stays as it is. */
  readonly after: readonly string[] | null;
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
 * @param unit what a bare number of the file means
 */
export function writeTasks(
  source: string,
  unit: TimeUnit | null,
  tasks: readonly WrittenTask[],
): RewrittenTasks {
  // The file was read before, so that no key stands twice.
  const options = { schema: "failsafe", keepSourceTokens: true, uniqueKeys: false } as const;
  const root = parseDocument(source, options).contents;
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
      const after =
        task.after === null || task.after.length === 0 ? [] : [["after", listOf(task.after)] as const];
      const keys = [...task.keys, ...after].filter(([key, value]) => !isDefault(key, value));
      const value = keys.length === 1 ? keys[0]![1] : flowMap(keys);
      edits.push(insertBehind(source, map as YAMLMap, pairs.at(-1)!, `${flowId(task.id)}: ${value}`));
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
export const isDefault = (key: string, value: string): boolean =>
  value === "1" && (key === "quantity" || key === "people" || key === "every");

const listOf = (ids: readonly string[]): string =>
  ids.length === 1 ? flowId(ids[0]!) : `[${ids.map(flowId).join(", ")}]`;

const flowMap = (keys: readonly (readonly [string, string])[]): string =>
  `{${keys.map(([key, value]) => `${key}: ${value}`).join(", ")}}`;

const TIMES = new Set(["time", "walking", "machine-time"]);

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
  #editBare(value: Node, { keys, after }: WrittenTask): void {
    const present = textOf(value)!;
    const said = keys.filter(([key, text]) => !isDefault(key, text));
    const all = [
      ...said,
      ...(after === null || after.length === 0 ? [] : [["after", listOf(after)] as const]),
    ];
    const time = keys.find(([key]) => key === "time")![1];
    const isSame = this.#isSame("time", value, time);
    for (const [key, now] of all) {
      if (key !== "time") this.changes.push({ key, was: null, now });
      else if (!isSame) this.changes.push({ key, was: present, now });
    }
    if (this.changes.length === 0) return;
    const kept = all.map(
      ([key, text]) => [key, key === "time" && isSame ? this.#sliceOf(value) : text] as const,
    );
    this.#replace(value, all.length === 1 ? time : flowMap(kept));
  }

  #editMap(map: YAMLMap, { keys, after }: WrittenTask): void {
    const time = pairOf(map, "time");
    if (time === undefined) {
      this.refused.push("time");
      return;
    }
    for (const [key, now] of keys) {
      const pair = pairOf(map, key);
      if (pair === undefined) {
        if (isDefault(key, now)) continue;
        this.changes.push({ key, was: null, now });
        this.edits.push(insertBehind(this.source, map, time, `${key}: ${now}`));
      } else if (!this.#isSame(key, pair.value, now)) this.#replaceKey(pair, key, now);
    }
    if (after !== null) this.#editAfter(map, time, after);
  }

  #editAfter(map: YAMLMap, time: Pair, after: readonly string[]): void {
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
    const kept = items.filter((_, at) => wanted.delete(names[at]!));
    if (kept.length === items.length && wanted.size === 0) return;
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
    const isPlain = !/^["'[{]/u.test(wanted);
    if (isPlain && textOf(present) === wanted) return true;
    const now = isPlain ? new Scalar(wanted) : parseDocument(wanted, { schema: "failsafe" }).contents;
    if (!TIMES.has(key)) return JSON.stringify(wordsOf(present)) === JSON.stringify(wordsOf(now));
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
export function chainedBefore(source: string): ReadonlyMap<string, ReadonlySet<string>> {
  if (!source.includes("chains")) return new Map();
  const root = parseDocument(source, { schema: "failsafe", uniqueKeys: false });
  const chains = (root.toJS() as { chains?: unknown } | null)?.chains;
  const before = new Map<string, Set<string>>();
  for (const chain of Array.isArray(chains) ? chains : []) {
    const keys = (Array.isArray(chain) ? chain : []).map((id) => idKey(String(id)));
    for (const [at, key] of keys.entries())
      if (at > 0) before.set(key, (before.get(key) ?? new Set()).add(keys[at - 1]!));
  }
  return before;
}
