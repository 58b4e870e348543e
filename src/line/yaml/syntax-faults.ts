import type { ErrorCode, YAMLError } from "yaml";
import type { TextFault } from "./token-faults.js";

/** Our words for the slips that people make; where one code has many causes the parser's own words say more. */
const WORDS: Partial<Record<ErrorCode, string>> = {
  ALIAS_PROPS: "an alias (*name) stands alone, without anchor or tag of its own",
  BAD_DQ_ESCAPE: "no such escape in double quotes; write \\\\ for a backslash, or use single quotes",
  BAD_INDENT:
    "this does not line up with what it belongs to; entries of one list or map start in the same column",
  BAD_SCALAR_START: "text that starts with this character needs quotes",
  BLOCK_AS_IMPLICIT_KEY:
    "a second `key:` on one line; put it on a line of its own, or quote text that holds a colon",
  KEY_OVER_1024_CHARS: "a key longer than 1024 characters",
  MULTILINE_IMPLICIT_KEY: "a key ends on the line it starts in; is a colon missing, or a line not indented?",
  MULTIPLE_ANCHORS: "a value takes at most one anchor",
  MULTIPLE_TAGS: "no tag is taken; leave them out",
  TAB_AS_INDENT: "a tab indents here; indent with spaces",
};

/** Faults after which the rest of the file still reads as it was meant, so that its other faults are told too. */
const HARMLESS: ReadonlySet<ErrorCode> = new Set([
  "ALIAS_PROPS",
  "BAD_DQ_ESCAPE",
  "MULTIPLE_TAGS",
  "TAB_AS_INDENT",
]);

/** What keeps the text from being YAML; `misread` says that the rest was not read as it was meant. */
export function findSyntaxFaults(errors: readonly YAMLError[]): { faults: TextFault[]; misread: boolean } {
  const faults = errors.map(({ code, message, pos: [from, to] }) => {
    const own = WORDS[code];
    return { rule: "yaml-syntax", message: own ?? `not YAML: ${lowerFirst(message)}`, from, to };
  });
  return { faults, misread: errors.some((each) => !HARMLESS.has(each.code)) };
}

function lowerFirst(message: string): string {
  return message.charAt(0).toLowerCase() + message.slice(1);
}
