import type { CST, ErrorCode, YAMLError } from "yaml";
import type { ReadingRule } from "./reading-rules.js";

/** What is wrong in a stretch of the text, by its offsets. */
export interface TextFault {
  readonly rule: ReadingRule;
  readonly message: string;
  readonly from: number;
  readonly to: number;
}

/** What is refused on sight of the tokens, before anything is composed from them: directives, tags, further documents. */
export function findTokenFaults(source: string, tokens: readonly CST.Token[]): TextFault[] {
  const faults = refuseFurtherDocuments(tokens);
  // A tag begins with !, a directive with a % at the start of its line: without them no token is looked at.
  if (!/!|^%/mu.test(source)) return faults;
  const waiting: unknown[] = [...tokens];
  while (waiting.length > 0) {
    const token = waiting.pop();
    if (!isToken(token)) continue;
    const fault = refuseToken(token);
    if (fault !== null) faults.push(fault);
    for (const part of partsOf(token)) waiting.push(part);
  }
  return faults;
}

interface AnyToken {
  readonly type: string;
  readonly offset: number;
  readonly source?: string;
}

function isToken(token: unknown): token is AnyToken {
  return typeof token === "object" && token !== null && "type" in token && "offset" in token;
}

function partsOf(token: AnyToken): unknown[] {
  const { start, value, items, props } = token as unknown as Record<string, unknown>;
  const inItems = Array.isArray(items)
    ? items.flatMap((item) => [item.start, item.key, item.sep, item.value].flat())
    : [];
  return [start, value, props].flat().concat(inItems);
}

function refuseToken({ type, source = "", offset }: AnyToken): TextFault | null {
  const span = { from: offset, to: offset + source.length };
  if (type === "directive") {
    const message = "a % directive changes how the rest is read, so none is taken; leave the line out";
    return { rule: "yaml-directive", message, ...span };
  }
  if (type === "tag") {
    const message = `tag ${source}: every value is read as the text it is, so no tag is taken; leave it out`;
    return { rule: "yaml-tag", message, ...span };
  }
  return null;
}

function refuseFurtherDocuments(tokens: readonly CST.Token[]): TextFault[] {
  const second = tokens.filter((token) => token.type === "document")[1];
  if (second === undefined) return [];
  const message = "a second document starts here; one file holds one line, so cut the file in two";
  return [{ rule: "yaml-documents", message, from: second.offset, to: second.offset + 3 }];
}

const BARE_DASH = 'a bare - starts a list and cannot stand here; write "-" in quotes if a dash is meant';

/** Our words for the slips that people make; where one code has many causes the parser's own words say more. */
const WORDS: Partial<Record<ErrorCode, string>> = {
  ALIAS_PROPS: "an alias (*name) stands alone, without anchor or tag of its own",
  BAD_DQ_ESCAPE: "no such escape in double quotes; write \\\\ for a backslash, or use single quotes",
  BAD_INDENT:
    "this does not line up with what it belongs to; entries of one list or map start in the same column",
  BAD_SCALAR_START: "text that starts with this character needs quotes",
  BLOCK_IN_FLOW: BARE_DASH,
  BLOCK_AS_IMPLICIT_KEY:
    "a second `key:` on one line; put it on a line of its own, or quote text that holds a colon",
  KEY_OVER_1024_CHARS: "a key longer than 1024 characters",
  MULTILINE_IMPLICIT_KEY: "a key ends on the line it starts in; is a colon missing, or a line not indented?",
  MULTIPLE_ANCHORS: "a value takes at most one anchor",
  MULTIPLE_TAGS: "no tag is taken; leave them out",
  TAB_AS_INDENT: "a tab indents here; indent with spaces",
};

/** Faults after which the rest of the file still reads as it was meant, so that its other faults are told too. */
const HARMLESS: ReadonlySet<ErrorCode> = new Set(["ALIAS_PROPS", "BAD_DQ_ESCAPE", "MULTIPLE_TAGS"]);

/**
 * What keeps the text from being YAML, one fault a line since the first leads to the others; `misread` says that the
 * rest was not read as it was meant.
 */
export function findSyntaxFaults(
  errors: readonly YAMLError[],
  lineOf: (offset: number) => number,
): { faults: TextFault[]; misread: boolean } {
  const faults = new Map<number, TextFault>();
  for (const error of errors) {
    const [from, to] = error.pos;
    const line = lineOf(from);
    if (!faults.has(line)) faults.set(line, { rule: "yaml-syntax", message: wordsFor(error), from, to });
  }
  return { faults: [...faults.values()], misread: errors.some((each) => !HARMLESS.has(each.code)) };
}

/** Some codes cover several slips; the parser's own message tells them apart. */
function wordsFor({ code, message }: YAMLError): string {
  if (code === "BAD_INDENT" && message.startsWith("Flow"))
    return "a [ or { is still open here; close it with ] or }, before any # that begins a comment";
  if (code === "BLOCK_AS_IMPLICIT_KEY" && message.includes("sequence")) {
    return "a list with - starts on a line of its own, below its key";
  }
  if (code === "UNEXPECTED_TOKEN" && message.includes("block-seq-ind")) return BARE_DASH;
  return WORDS[code] ?? `not YAML: ${message.charAt(0).toLowerCase()}${message.slice(1)}`;
}
