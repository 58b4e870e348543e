import { type Document, isMap, isSeq, type Node, type Pair, type YAMLMap } from "yaml";
import { idKey } from "../ids.js";
import { pairOf, textOf } from "./source-edits.js";

/** A key of a task as it stands in a line file. */
export interface StandingKey {
  readonly key: string;
  /** Whether it says more than words: values by model, or what lies between two tasks. */
  readonly isMap: boolean;
  /** The one value or the list of them; null for a map and what holds one. */
  readonly texts: readonly string[] | null;
  /** The words of a map that has no further maps; null for everything else. */
  readonly words: ReadonlyMap<string, string> | null;
}

/** The keys that each task of a line file has, by the key of its id. */
export function keysOfTasks(document: Document): ReadonlyMap<string, readonly StandingKey[]> {
  const follow = (node: unknown): Node | null => {
    const found = node as (Node & { resolve?: (of: Document) => Node | undefined }) | null;
    return found?.resolve?.(document) ?? found;
  };
  const root = follow(document.contents);
  const tasks = isMap(root) ? follow(pairOf(root, "tasks")?.value) : null;
  const isDeep = (key: string, value: Node | null): boolean => {
    if (key === "after" && isSeq(value)) return value.items.some((item) => isMap(follow(item)));
    if (key === "parts")
      return isMap(value) && (value.items as Pair[]).some((pair) => isMap(follow(pair.value)));
    return isMap(value);
  };
  const wordsOf = (value: Node | null): ReadonlyMap<string, string> | null => {
    const pairs = isMap(value) ? (value.items as Pair[]) : [];
    const words = pairs.map((pair) => [textOf(follow(pair.key)), textOf(follow(pair.value))] as const);
    const isPlain = words.length > 0 && words.every(([name, word]) => name !== null && word !== null);
    return isPlain ? new Map(words as [string, string][]) : null;
  };
  const textsOf = (value: Node | null): readonly string[] | null => {
    const all = (isSeq(value) ? value.items : [value]).map((item) => textOf(follow(item)));
    return all.includes(null) ? null : (all as string[]);
  };
  return new Map(
    (isMap(tasks) ? (tasks.items as Pair[]) : []).map((pair) => {
      const value = follow(pair.value);
      const keys = isMap(value) ? ((value as YAMLMap).items as Pair[]) : [];
      const standing = keys.map((each) => {
        const key = idKey(textOf(follow(each.key)) ?? "");
        const inside = follow(each.value);
        return { key, isMap: isDeep(key, inside), texts: textsOf(inside), words: wordsOf(inside) };
      });
      return [idKey(textOf(follow(pair.key)) ?? ""), standing];
    }),
  );
}
