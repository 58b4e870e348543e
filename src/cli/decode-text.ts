import { UsageError } from "../commands/context.js";

const LINE_FEED = 0x0a;

/** Bytes as UTF-8 text without its byte order mark. Throws a UsageError that names the first line that is none. */
export function decodeText(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new UsageError(`${name} is not UTF-8 text${explain(bytes)}; save it as UTF-8`);
  }
}

function explain(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const wide = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  return wide ? " but UTF-16" : ` (first in line ${firstFaultyLine(bytes)})`;
}

/** A line feed is never part of a longer character, so that every line can be tried on its own. */
function firstFaultyLine(bytes: Uint8Array): number {
  let [line, start] = [1, 0];
  for (let end = bytes.indexOf(LINE_FEED); end >= 0; end = bytes.indexOf(LINE_FEED, start)) {
    if (!isText(bytes.subarray(start, end))) return line;
    [line, start] = [line + 1, end + 1];
  }
  return line;
}

function isText(bytes: Uint8Array): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
}
