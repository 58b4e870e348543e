import type { CST, YAMLSeq } from "yaml";
import { contentEnd, lineBreakOf, lineEnd, lineStart, rangeOf } from "../../line/write/source-edits.js";

/** What a list must hold at one place. */
export interface WantedItem {
  /** Index of the item of the list that stands for it now; -1 for a new one. */
  readonly present: number;
  /** The text of a new item behind its dash. */
  readonly fresh: string;
  /** The text of the item's lines from the dash to the line end, which may have changed; `from` and `to` are their offsets. */
  edit(from: number, to: number): string;
}

/**
 * The lines of a list with one item below the other, as wanted: items keep their lines and the comments above them, also where
 * they move; comments above an item that goes stay. Throws a RangeError for a list that is written otherwise.
 *
 * @param start behind the line that the list's key is in
 */
export function editList(
  source: string,
  list: YAMLSeq,
  start: number,
  wanted: readonly WantedItem[],
): { readonly from: number; readonly to: number; readonly text: string } {
  const items = itemLines(source, list, start);
  const kept = new Set(wanted.map(({ present }) => present));
  const leads = new Map<number, string>();
  let waiting = "";
  for (const [at, { from, dash }] of items.entries()) {
    waiting += source.slice(from, dash);
    if (!kept.has(at)) continue;
    leads.set(at, waiting);
    waiting = "";
  }
  const lineBreak = lineBreakOf(source);
  const indent = source.slice(items[0]!.dash, items[0]!.mark);
  const lines = wanted.map(({ present, fresh, edit }) => {
    if (present < 0) return `${indent}- ${fresh}${lineBreak}`;
    return leads.get(present)! + edit(items[present]!.dash, items[present]!.to);
  });
  const closed = lines.map((each, at) =>
    at < lines.length - 1 || waiting !== "" ? withLineEnd(each, lineBreak) : each,
  );
  return { from: start, to: items.at(-1)!.to, text: closed.join("") + waiting };
}

interface ItemLines {
  /** Behind the item before. */
  readonly from: number;
  /** Start of the line with the dash, and the dash itself. */
  readonly dash: number;
  readonly mark: number;
  /** Behind the last line of the item. */
  readonly to: number;
}

function itemLines(source: string, list: YAMLSeq, start: number): ItemLines[] {
  const token = list.srcToken as CST.BlockSequence | undefined;
  if (list.flow || token?.type !== "block-seq" || list.items.length === 0)
    throw new RangeError("the list is not written one item below the other");
  let from = start;
  return list.items.map((item, at) => {
    const mark = token.items[at]!.start.find(({ type }) => type === "seq-item-ind")?.offset;
    if (mark === undefined || rangeOf(item)[0] < mark) throw new RangeError("an item without a dash");
    const dash = lineStart(source, mark);
    if (dash < from || source.slice(dash, mark).trim() !== "")
      throw new RangeError("an item that shares its line");
    const lines = { from, dash, mark, to: lineEnd(source, contentEnd(item)) };
    from = lines.to;
    return lines;
  });
}

const withLineEnd = (text: string, lineBreak: string): string =>
  text.endsWith("\n") ? text : text + lineBreak;
