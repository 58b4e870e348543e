import type { Understood } from "./table.js";

type Encoding = NonNullable<Understood["encoding"]>;

/** Text of a file and the encoding it was in, or the number of the first line that is no text. */
export type Decoded =
  | { readonly ok: true; readonly text: string; readonly encoding: Encoding }
  | { readonly ok: false; readonly encoding: Encoding; readonly line: number };

/** Bytes as text without its byte order mark: UTF-8, or UTF-16 by its mark or by the zero bytes of its plain letters. */
export function decodeTable(bytes: Uint8Array): Decoded {
  const encoding = encodingOf(bytes);
  try {
    return { ok: true, text: decode(bytes, encoding), encoding };
  } catch {
    return { ok: false, encoding, line: encoding === "UTF-8" ? firstFaultyLine(bytes) : 1 };
  }
}

const decode = (bytes: Uint8Array, encoding: Encoding): string =>
  new TextDecoder(encoding, { fatal: true }).decode(bytes);

const LOOKED_AT = 1_000;

function encodingOf(bytes: Uint8Array): Encoding {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return "UTF-16LE";
  if (first === 0xfe && second === 0xff) return "UTF-16BE";
  const head = bytes.subarray(0, LOOKED_AT);
  const zeros = [0, 0];
  for (const [at, byte] of head.entries()) if (byte === 0) zeros[at % 2]! += 1;
  const most = head.length / 2 / 2;
  if (zeros[1]! > most && zeros[0] === 0) return "UTF-16LE";
  return zeros[0]! > most && zeros[1] === 0 ? "UTF-16BE" : "UTF-8";
}

/** A line feed is never part of a longer character, so that every line can be tried on its own. */
function firstFaultyLine(bytes: Uint8Array): number {
  let [line, start] = [1, 0];
  for (;;) {
    const end = bytes.indexOf(0x0a, start);
    try {
      decode(bytes.subarray(start, end < 0 ? bytes.length : end), "UTF-8");
    } catch {
      return line;
    }
    if (end < 0) return line;
    [line, start] = [line + 1, end + 1];
  }
}
