import type { CST } from "yaml";
import type { TextFault } from "./text-fault.js";

/** What is refused on sight of the tokens, before anything is composed from them: directives, tags, further documents. */
export function findTokenFaults(tokens: readonly CST.Token[]): TextFault[] {
  const faults = refuseFurtherDocuments(tokens);
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
