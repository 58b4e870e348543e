/**
 * What a text seems to be that is neither a line nor a plan: markup, a table or prose; null where it may be one of
 * them. Keys are looked for in any case, so that one typing error in a file makes it no other file.
 */
export function otherText(text: string): string | null {
  const start = text.trimStart();
  if (/^<(?:!doctype html|html|head|body)\b/iu.test(start)) return "a page of HTML";
  if (/^<[!?a-z]/iu.test(start)) return "a file of XML";
  // No line of YAML begins with a fence, whatever the fenced text holds.
  if (/^```/mu.test(start)) return "a page of Markdown";
  if (hasKeys(start)) return null;
  if (isTable(start)) return A_TABLE;
  return isProse(start) ? "prose" : null;
}

export const A_TABLE = "a table in CSV";

/** A key at the start of any line. */
const hasKeys = (text: string): boolean =>
  /^[ \t]*(?:- *)?[{"']*[\p{Ll}\p{N}_][\p{L}\p{N}_-]*["']?\s*:(?:\s|$)/mu.test(text);

/** A row of short headings, and a row below with as many cells or more. */
function isTable(text: string): boolean {
  const [heads = "", first = ""] = text.split("\n").filter((row) => row.trim() !== "");
  return [",", ";", "\t"].some((mark) => {
    const headings = heads.split(mark);
    const isShort = headings.every(
      (each) => !/[.!?]\s*$/u.test(each) && each.trim().split(/\s+/u).length < 5,
    );
    return headings.length > 1 && isShort && first.split(mark).length >= headings.length;
  });
}

/** Lines of words. Words begin behind what is no part of one, so that a single word of a million letters is looked at once. */
function isProse(text: string): boolean {
  const ofWords = text.split("\n").filter((row) => /(?<![\p{L}'’])(?:[\p{L}'’]+[,.;:!?]? ){4}/u.test(row));
  return ofWords.length > 1;
}
