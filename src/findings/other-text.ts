/**
 * What a text seems to be that is neither a line nor a plan: markup or prose; null where it may be one of
 * them. Keys are looked for in any case, so that one typing error in a file makes it no other file.
 */
export function otherText(text: string): string | null {
  const start = text.trimStart();
  if (/^<(?:!doctype html|html|head|body)\b/iu.test(start)) return "a page of HTML";
  if (/^<[!?a-z]/iu.test(start)) return "a file of XML";
  return isProse(start) ? "prose" : null;
}

/** Lines of words, and no key at the start of any. */
function isProse(text: string): boolean {
  if (/^\s*(?:- *)?[{"']*[\p{Ll}\p{N}_][\p{L}\p{N}_-]*["']?\s*:(?:\s|$)/mu.test(text)) return false;
  const ofWords = text.split("\n").filter((row) => /(?:[\p{L}'’]+[,.;:!?]? ){4}/u.test(row));
  return ofWords.length > 1;
}
