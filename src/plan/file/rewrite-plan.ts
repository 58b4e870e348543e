import { isMap, isScalar, isSeq, type Pair, parseDocument, type YAMLMap } from "yaml";
import { idKey } from "../../line/ids.js";
import { flowText } from "../../line/write/flow-text.js";
import {
  applyEdits,
  contentEnd,
  type Edit,
  insertBehind,
  lineBreakOf,
  lineEnd,
  pairOf,
  rangeOf,
  takeOut,
  textOf,
} from "../../line/write/source-edits.js";
import { editEntry } from "./edit-entry.js";
import { editList } from "./edit-list.js";
import { entryText, type PlanEntry } from "./plan-entry.js";

/** Everything that a plan file says. */
export interface PlanContent {
  readonly format: string;
  readonly line: string;
  readonly lineCycle: string;
  readonly fingerprint: string;
  readonly stations: readonly PlanEntry[];
  readonly benches: readonly PlanEntry[];
}

/**
 * The text of a plan file after it became `content`: whatever stays the same keeps its bytes, comments and line ends among
 * them. Throws a RangeError for a file that is written so oddly that no line of it can be kept.
 */
export function rewritePlan(source: string, content: PlanContent): string {
  const document = parseDocument(source, { schema: "failsafe", keepSourceTokens: true });
  const root = document.contents;
  if (!isMap(root) || root.flow || document.errors.length > 0)
    throw new RangeError("the plan file is no map of keys below each other");
  const edits = [
    ...editText(source, root, "line", content.line, "format"),
    ...editMadeFor(source, root, content),
    ...editEntries(source, root, "stations", content.stations),
    ...editEntries(source, root, "benches", content.benches),
  ];
  return applyEdits(source, edits);
}

function editText(source: string, map: YAMLMap, name: string, text: string, behind: string): Edit[] {
  const pair = pairOf(map, name);
  if (pair === undefined) {
    const before = pairOf(map, behind) ?? (map.items as Pair[]).at(-1);
    return before === undefined ? [] : [insertBehind(source, map, before, `${name}: ${flowText(text)}`)];
  }
  return textOf(pair.value) === text ? [] : [replace(pair, flowText(text))];
}

function editMadeFor(source: string, root: YAMLMap, { lineCycle, fingerprint }: PlanContent): Edit[] {
  const pair = pairOf(root, "made-for");
  const whole = `{line-cycle: ${lineCycle}, fingerprint: ${flowText(fingerprint)}}`;
  if (pair === undefined) {
    const behind = pairOf(root, "line") ?? pairOf(root, "format")!;
    return [insertBehind(source, root, behind, `made-for: ${whole}`)];
  }
  if (!isMap(pair.value) || pair.value.items.length === 0) return [replace(pair, whole)];
  return [
    ...editText(source, pair.value, "line-cycle", lineCycle, "fingerprint"),
    ...editText(source, pair.value, "fingerprint", fingerprint, "line-cycle"),
  ];
}

function editEntries(
  source: string,
  root: YAMLMap,
  name: "stations" | "benches",
  entries: readonly PlanEntry[],
): Edit[] {
  const pair = pairOf(root, name);
  const lineBreak = lineBreakOf(source);
  const lines = entries.map((entry) => `${lineBreak}  - ${entryText(entry)}`).join("");
  if (pair === undefined) {
    if (entries.length === 0) return [];
    return [insertBehind(source, root, (root.items as Pair[]).at(-1)!, `${name}:${lines}`)];
  }
  if (entries.length === 0) return [takeOut(source, root, pair)];
  const list = pair.value;
  if (!isSeq(list) || list.flow || list.items.length === 0) {
    const colon = source.indexOf(":", contentEnd(pair.key)) + 1;
    return [{ from: colon, to: Math.max(colon, endOf(pair)), text: lines }];
  }
  const ids = list.items.map((item, at) => idOf(item, name, at));
  const wanted = entries.map((entry) => {
    const present = ids.indexOf(idKey(entry.id));
    const edit = (from: number, to: number) =>
      editEntry(source, list.items[present] as YAMLMap, entry, from, to);
    return { present, fresh: entryText(entry), edit };
  });
  return [editList(source, list, lineEnd(source, contentEnd(pair.key)), wanted)];
}

/** The id of an entry, or the one that its turn gives it; nothing where the entry is no map. */
function idOf(item: unknown, name: string, at: number): string | null {
  if (!isMap(item)) return null;
  const id = pairOf(item, "id");
  if (id === undefined) return `${name === "stations" ? "S" : "B"}${at + 1}`;
  return isScalar(id.value) ? idKey(String(id.value.value)) : null;
}

const endOf = (pair: Pair): number => (pair.value === null ? 0 : contentEnd(pair.value));

function replace(pair: Pair, text: string): Edit {
  if (pair.value === null) throw new RangeError("a key without a value");
  return { from: rangeOf(pair.value)[0], to: contentEnd(pair.value), text };
}
