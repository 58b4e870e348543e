import { UsageError } from "../commands/context.js";
import { decodeBytes } from "../findings/decode-bytes.js";

/**
 * Bytes of UTF-8 or UTF-16 as text without its byte order mark. Lines that end in CR alone, as YAML allows, end in LF. Throws a
 * UsageError that names the first byte that is no text, and what the file likely is.
 */
export function decodeText(bytes: Uint8Array, name: string): string {
  const decoded = decodeBytes(bytes);
  if (!decoded.ok) {
    const advice = decoded.isText ? "save it as UTF-8" : "text is expected here, as line and plan files are";
    throw new UsageError(`${name} is ${decoded.problem}; ${advice}`);
  }
  return decoded.text.replaceAll(/\r(?!\n)/gu, "\n");
}
