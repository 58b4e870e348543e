import { isAlias, isCollection, isPair, isScalar, type Node, type Pair, type YAMLMap } from "yaml";
import { idKey } from "../ids.js";

/** Puts a text in the place of a stretch of the source; offsets, `to` not included. */
export interface Edit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** The source between two offsets after edits that do not overlap. */
export function applyEdits(
  source: string,
  edits: readonly Edit[],
  from = 0,
  to: number = source.length,
): string {
  let [result, at] = ["", from];
  for (const edit of [...edits].sort((one, two) => one.from - two.from || one.to - two.to)) {
    result += source.slice(at, edit.from) + edit.text;
    at = edit.to;
  }
  return result + source.slice(at, to);
}

export const lineStart = (source: string, offset: number): number => source.lastIndexOf("\n", offset - 1) + 1;

/** Behind the line end of the line that the offset is in. */
export function lineEnd(source: string, offset: number): number {
  const end = source.indexOf("\n", offset);
  return end < 0 ? source.length : end + 1;
}

export const lineBreakOf = (source: string): string => /\r?\n/u.exec(source)?.[0] ?? "\n";

/** Where the last value in a node ends, without comments and line ends behind it. Throws for what has no place. */
export function contentEnd(node: unknown): number {
  if (isPair(node)) return node.value === null ? contentEnd(node.key) : contentEnd(node.value);
  if (isCollection(node) && !node.flow && node.items.length > 0) return contentEnd(node.items.at(-1));
  return rangeOf(node)[1];
}

export function rangeOf(node: unknown): readonly [number, number] {
  const range = isScalar(node) || isCollection(node) || isAlias(node) ? node.range : null;
  if (!range) throw new RangeError("a part of the file has no place");
  return [range[0], range[1]];
}

/** The pair of a map under that key. */
export function pairOf(map: YAMLMap, name: string): Pair<Node, Node | null> | undefined {
  const pairs = map.items as Pair<Node, Node | null>[];
  return pairs.find(({ key }) => isScalar(key) && idKey(String(key.value)) === name);
}

export const textOf = (node: unknown): string | null => (isScalar(node) ? String(node.value ?? "") : null);

/** The edit that writes a pair behind another one of the same map. */
export function insertBehind(source: string, map: YAMLMap, behind: Pair, text: string): Edit {
  if (map.flow) return { from: contentEnd(behind), to: contentEnd(behind), text: `, ${text}` };
  const at = lineEnd(source, contentEnd(behind));
  const lineBreak = lineBreakOf(source);
  const [first] = rangeOf((map.items as Pair[])[0]!.key);
  const indent = " ".repeat(first - lineStart(source, first));
  const start = source.endsWith("\n") || at < source.length ? "" : lineBreak;
  return { from: at, to: at, text: `${start}${indent}${text}${lineBreak}` };
}

/** The edit that takes a pair out of a map. Throws where it shares its line with the dash of a list. */
export function takeOut(source: string, map: YAMLMap, pair: Pair): Edit {
  const at = map.items.indexOf(pair as (typeof map.items)[number]);
  const [start] = rangeOf(pair.key);
  if (map.flow) {
    const [earlier, later] = [map.items[at - 1], map.items[at + 1]];
    if (earlier !== undefined) return { from: contentEnd(earlier), to: contentEnd(pair), text: "" };
    if (later !== undefined) return { from: start, to: rangeOf((later as Pair).key)[0], text: "" };
    return { from: start, to: contentEnd(pair), text: "" };
  }
  const from = lineStart(source, start);
  if (source.slice(from, start).trim() !== "") throw new RangeError("a key behind the dash of its list");
  return { from, to: lineEnd(source, contentEnd(pair)), text: "" };
}

/** Lines of a source that edits change: where they begin, and their text before and after. */
export interface ChangedLines {
  /** The number of the first of them, from 1. */
  readonly line: number;
  readonly was: readonly string[];
  readonly now: readonly string[];
}

/** The lines that differ after edits that do not overlap, in the order of the source. */
export function changedLines(source: string, edits: readonly Edit[]): ChangedLines[] {
  const stretches: { from: number; to: number; edits: Edit[] }[] = [];
  for (const edit of [...edits].sort((one, two) => one.from - two.from || one.to - two.to)) {
    const isNewLine = edit.from === edit.to && edit.from === lineStart(source, edit.from);
    const from = lineStart(source, edit.from);
    const to = isNewLine ? edit.to : lineEnd(source, Math.max(edit.from, edit.to - 1));
    const last = stretches.at(-1);
    if (last !== undefined && from <= last.to) {
      last.to = Math.max(last.to, to);
      last.edits.push(edit);
    } else stretches.push({ from, to, edits: [edit] });
  }
  let [line, at] = [1, 0];
  return stretches.map((stretch) => {
    line += source.slice(at, stretch.from).split("\n").length - 1;
    at = stretch.from;
    return {
      line,
      was: linesOf(source.slice(stretch.from, stretch.to)),
      now: linesOf(applyEdits(source, stretch.edits, stretch.from, stretch.to)),
    };
  });
}

const linesOf = (text: string): string[] => (text === "" ? [] : text.replace(/\r?\n$/u, "").split(/\r?\n/u));
