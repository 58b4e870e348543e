import { thousands } from "./count-of.js";

/** The encodings that are read. */
export type Encoding = "UTF-8" | "UTF-16LE" | "UTF-16BE";

/** Text of a file and the encoding it was in, or where it stops being text and what it is instead, in words: text in another encoding or none. */
export type Decoded =
  | { readonly ok: true; readonly text: string; readonly encoding: Encoding }
  | {
      readonly ok: false;
      readonly offset: number;
      readonly line: number;
      readonly problem: string;
      readonly isText: boolean;
    };

/**
 * Bytes as text without its byte order mark: UTF-8, or UTF-16 by its mark or by the zero bytes of its plain letters. Lines may end in
 * LF, CRLF or CR. `offset` counts bytes from 0.
 */
export function decodeBytes(bytes: Uint8Array): Decoded {
  const other = SIGNATURES.find(({ start }) => start.every((byte, at) => bytes[at] === byte));
  if (other !== undefined) return { ...refuse(bytes, 0, "UTF-8", other.what), isText: other.isText };
  const wide = firstOfUtf32(bytes);
  if (wide !== null) return refuse(bytes, wide, "UTF-8", "in UTF-32");
  const encoding = encodingOf(bytes);
  try {
    return { ok: true, text: decode(bytes, encoding), encoding };
  } catch {
    const offset = firstFault(bytes, encoding);
    return refuse(bytes, offset, encoding, likely(bytes, offset, encoding));
  }
}

/** Files that begin like no text: their first bytes. */
const SIGNATURES = [
  { start: [0xff, 0xfe, 0, 0], what: "in UTF-32", isText: true },
  { start: [0, 0, 0xfe, 0xff], what: "in UTF-32", isText: true },
  { start: [0x50, 0x4b, 3, 4], what: "a ZIP file, as workbooks are", isText: false },
  { start: [0x1f, 0x8b], what: "a gzip file", isText: false },
  { start: [0x25, 0x50, 0x44, 0x46], what: "a PDF", isText: false },
  { start: [0x89, 0x50, 0x4e, 0x47], what: "a picture (PNG)", isText: false },
  { start: [0xff, 0xd8, 0xff], what: "a picture (JPEG)", isText: false },
] as const;

function refuse(
  bytes: Uint8Array,
  offset: number,
  encoding: Encoding,
  what: string,
): Decoded & { ok: false } {
  const wide = encoding !== "UTF-8";
  const before = decode(bytes.subarray(0, offset), encoding, false);
  const line = before.split(/\r\n?|\n/u).length;
  const byte = bytes[offset]!.toString(16).toUpperCase().padStart(2, "0");
  const problem = `not ${wide ? "UTF-16" : "UTF-8"} text at byte ${thousands(offset)} (0x${byte}, line ${thousands(line)}); the file is likely ${what}`;
  return { ok: false, offset, line, problem, isText: true };
}

const decode = (bytes: Uint8Array, encoding: Encoding, fatal = true): string =>
  new TextDecoder(encoding, { fatal }).decode(bytes);

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

/** The first zero byte of plain letters that have three of them each; null where they have not. */
function firstOfUtf32(bytes: Uint8Array): number | null {
  const head = bytes.subarray(0, LOOKED_AT);
  const zeros = head.filter((byte) => byte === 0).length;
  return head.length % 4 === 0 && zeros > head.length / 2 ? head.indexOf(0) : null;
}

/** Where the first character begins that is none: there, what is read with a mark for each fault differs from what is written. */
function firstFault(bytes: Uint8Array, encoding: Encoding): number {
  const read = new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes);
  if (encoding === "UTF-8") {
    const written = new TextEncoder().encode(read);
    const differs = bytes.findIndex((byte, index) => byte !== written[index]);
    const at = differs < 0 ? bytes.length : differs;
    // The mark begins with the bytes EF BF, as a faulty character may.
    if (bytes[at - 1] === 0xef) return at - 1;
    return bytes[at - 1] === 0xbf && bytes[at - 2] === 0xef ? at - 2 : at;
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let at = 0; at + 1 < bytes.length; at += 2)
    if (view.getUint16(at, encoding === "UTF-16LE") !== read.charCodeAt(at / 2)) return at;
  return bytes.length - 1;
}

/** What the text is likely in that is none of ours, by the bytes above ASCII: Western ones stand among plain letters. */
function likely(bytes: Uint8Array, offset: number, encoding: Encoding): string {
  if (encoding !== "UTF-8") return "cut off or damaged";
  const rest = bytes.subarray(offset);
  if (isCutOff(rest)) return "cut off within a character, or in Windows-1252";
  if (bytes.includes(0)) return "no text";
  let [run, longest] = [0, 0];
  for (const byte of rest) {
    run = byte < 0x80 ? 0 : run + 1;
    longest = Math.max(longest, run);
  }
  return longest < LETTERS_OF_A_WORD
    ? "in Windows-1252"
    : "in a Cyrillic or an East Asian encoding, such as Windows-1251, GBK or Shift JIS";
}

/** So many letters with accents hardly follow each other in a Western word. */
const LETTERS_OF_A_WORD = 4;

/** Whether the file ends within a character of UTF-8 that begins here. */
function isCutOff(rest: Uint8Array): boolean {
  if (rest.length > 3 || rest[0]! < 0xc2 || (rest.length === 1 && rest[0]! > 0xf4)) return false;
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(rest, { stream: true });
    return true;
  } catch {
    return false;
  }
}
