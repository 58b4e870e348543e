import type { CST } from "yaml";

/** A stretch of the text by offsets, with what is wrong there. */
export interface TextFault {
  readonly rule: string;
  readonly message: string;
  readonly from: number;
  readonly to: number;
}

/** A line file nests about six deep; far above that only a machine writes, and recursion would run out of stack. */
const DEEPEST = 40;

/**
 * What is refused on sight of the tokens, before anything is composed from them: directives, tags and nesting that
 * is too deep. Visits the tokens without recursion, so that no nesting can overflow the stack.
 */
export function findTokenFaults(tokens: readonly CST.Token[]): { faults: TextFault[]; tooDeep: boolean } {
  const faults: TextFault[] = [];
  let deep: TextFault | null = null;
  const waiting: { token: unknown; depth: number }[] = tokens.map((token) => ({ token, depth: 0 }));
  while (waiting.length > 0) {
    const { token, depth } = waiting.pop()!;
    if (!isToken(token)) continue;
    const nests = token.type.startsWith("block-") || token.type === "flow-collection";
    if (nests && depth >= DEEPEST) {
      if (deep === null || token.offset < deep.from) deep = tooDeep(token.offset);
      continue;
    }
    const fault = refuseToken(token);
    if (fault !== null) faults.push(fault);
    for (const part of partsOf(token)) waiting.push({ token: part, depth: nests ? depth + 1 : depth });
  }
  if (deep !== null) faults.push(deep);
  return { faults, tooDeep: deep !== null };
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
  const parts: unknown[] = [start, value, props].flat();
  for (const item of Array.isArray(items) ? items : []) {
    parts.push(...[item.start, item.key, item.sep, item.value].flat());
  }
  return parts;
}

function refuseToken(token: AnyToken): TextFault | null {
  const span = { from: token.offset, to: token.offset + (token.source ?? "").length };
  if (token.type === "directive") {
    const message = "a % directive changes how the rest is read, so none is taken; leave the line out";
    return { rule: "yaml-directive", message, ...span };
  }
  if (token.type === "tag") {
    const message = `tag ${token.source}: every value is read as the text it is, so no tag is taken; leave it out`;
    return { rule: "yaml-tag", message, ...span };
  }
  return null;
}

function tooDeep(offset: number): TextFault {
  const message = `lists and maps nest more than ${DEEPEST} deep here; a line file needs about six`;
  return { rule: "yaml-too-deep", message, from: offset, to: offset + 1 };
}
