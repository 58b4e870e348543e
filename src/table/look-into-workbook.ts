import { thousands } from "../findings/count-of.js";
import { LARGEST_UNPACKED, MOST_CELLS, MOST_COLUMNS, MOST_ROWS } from "./table.js";

/** A file in a zip archive, as its directory has it. */
interface Entry {
  readonly name: string;
  readonly isStored: boolean;
  readonly start: number;
  readonly packed: number;
}

/** A cell that the library leaves out without a word: an error of the spreadsheet, or a formula that was never worked out. */
export interface LostCell {
  readonly row: number;
  readonly column: number;
  /** Such as #DIV/0!; null for a formula without a value. */
  readonly error: string | null;
}

export type Looked =
  | { readonly ok: false; readonly problem: string }
  /** The lost cells of each sheet, in the order of the workbook. */
  | { readonly ok: true; readonly lost: readonly (readonly LostCell[])[] };

/**
 * Looks into an archive before it is handed to a library that unpacks it whole. Refused is what is no workbook, is broken or protected,
 * unpacks to more than `LARGEST_UNPACKED` bytes, or has a cell so far out that the rows up to it would fill the memory. What the archive
 * says of its own sizes is not believed: everything is unpacked once, piece by piece, and counted.
 */
export async function lookIntoWorkbook(bytes: Uint8Array): Promise<Looked> {
  const entries = readDirectory(bytes);
  if (entries === null)
    return refuse("the workbook is damaged: its list of contents cannot be read; save it anew");
  if (!entries.some(({ name }) => name === WORKBOOK))
    return refuse("this is an archive but no workbook (.xlsx); save the table as .xlsx or as CSV");
  if (entries.length > MOST_FILES)
    return refuse(
      `the workbook is an archive of ${thousands(entries.length)} files; at most ${thousands(MOST_FILES)} are read`,
    );
  let [total, tags] = [0, 0];
  const texts = new Map<string, string>();
  const tagsOf = new Map<string, number>();
  for (const entry of entries.filter(({ name }) => /\.xml(?:\.rels)?$/u.test(name))) {
    const content = await unpack(bytes, entry, LARGEST_UNPACKED - total);
    if (content === "damaged")
      return refuse(`the workbook is damaged: ${entry.name} cannot be unpacked; save it anew`);
    if (content === "too-large")
      return refuse(
        `the workbook unpacks to more than ${thousands(LARGEST_UNPACKED)} bytes, which no list of tasks needs`,
      );
    const count = countTags(content);
    if (count === null)
      return refuse(`the workbook is damaged: ${entry.name} has a tag without an end; save it anew`);
    [total, tags] = [total + content.length, tags + count];
    tagsOf.set(entry.name, count);
    if (tags > MOST_TAGS) return refuse(TOO_MANY_TAGS);
    const isSheet = /\/worksheets\/[^/]+\.xml$/u.test(entry.name);
    if (!isSheet && entry.name !== WORKBOOK && entry.name !== RELATIONS) continue;
    const text = new TextDecoder().decode(content);
    texts.set(entry.name, text);
    const far = isSheet ? farCell(text) : null;
    if (far !== null) return refuse(far);
  }
  const targets = new Map(
    elements(texts.get(RELATIONS) ?? "", "Relationship").map((at) => [at.get("Id"), at.get("Target") ?? ""]),
  );
  const sheets = elements(texts.get(WORKBOOK)!, "sheet").map((at) => pathOf(targets.get(at.get("id")) ?? ""));
  // Many sheets may be one and the same file, and each is read.
  if (sheets.reduce((sum, path) => sum + (tagsOf.get(path) ?? 0), 0) > MOST_TAGS)
    return refuse(TOO_MANY_TAGS);
  const lost = new Map([...new Set(sheets)].map((path) => [path, lostCells(texts.get(path) ?? "")]));
  return { ok: true, lost: sheets.map((path) => lost.get(path)!) };
}

/** Files of an archive, and tags of all of them together: a cell has four. */
const [MOST_FILES, MOST_TAGS] = [5_000, 1_000_000];
const TOO_MANY_TAGS = `the sheets of the workbook hold more than ${thousands(MOST_TAGS)} tags of XML, four for a cell; no more are read: keep the one table in a workbook of its own`;

/** A tag of so many bytes is none that a spreadsheet writes; the library would take the square of its length. */
const LONGEST_TAG = 100_000;
const [OPENS, CLOSES] = ["<", ">"].map((sign) => sign.charCodeAt(0));

/** Null where a tag is not closed. */
function countTags(xml: Uint8Array): number | null {
  let [opened, tags] = [-1, 0];
  for (let at = 0; at < xml.length; at++) {
    if (xml[at] === OPENS) [opened, tags] = [at, tags + 1];
    else if (xml[at] === CLOSES) opened = -1;
    else if (opened >= 0 && at - opened > LONGEST_TAG) return null;
  }
  return tags;
}

const WORKBOOK = "xl/workbook.xml";
const RELATIONS = "xl/_rels/workbook.xml.rels";
const pathOf = (target: string): string => (target.startsWith("/") ? target.slice(1) : `xl/${target}`);
const refuse = (problem: string): Looked => ({ ok: false, problem });

/** The attributes, without the prefixes of their names, of every element of that name. */
function elements(xml: string, name: string): Map<string, string>[] {
  const found = xml.matchAll(new RegExp(`<(?:\\w+:)?${name}\\s([^>]*)>`, "gu"));
  return [...found].map(([, inside = ""]) => attributesIn(inside));
}

function attributesIn(inside: string): Map<string, string> {
  // From a blank on only: from each letter of a long word it would run to the end of it again.
  const found = inside.matchAll(/(?<=^|\s)(?:\w+:)?(\w+)\s*=\s*(?:"([^"]*)"|'([^']*)')/gu);
  return new Map([...found].map(([, key = "", double, single]) => [key, double ?? single ?? ""]));
}

const END_SIGN = 0x06054b50;
const ENTRY_SIGN = 0x02014b50;
const FILE_SIGN = 0x04034b50;
const [END_LENGTH, ENTRY_LENGTH, FILE_LENGTH] = [22, 46, 30];
/** The end of the directory may be followed by a comment of so many bytes. */
const LONGEST_COMMENT = 65_535;

/** The files of an archive after its directory (PKWARE, .ZIP File Format Specification 6.3.10, 4.3.12 and 4.3.16); null where there is none. */
function readDirectory(bytes: Uint8Array): Entry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const earliest = Math.max(0, bytes.length - END_LENGTH - LONGEST_COMMENT);
  let end = bytes.length - END_LENGTH;
  while (end >= earliest && view.getUint32(end, true) !== END_SIGN) end -= 1;
  if (end < earliest || end < 0) return null;
  const entries: Entry[] = [];
  const decoder = new TextDecoder();
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    if (at + ENTRY_LENGTH > bytes.length || view.getUint32(at, true) !== ENTRY_SIGN) return null;
    const [flags, method] = [view.getUint16(at + 8, true), view.getUint16(at + 10, true)];
    const names = view.getUint16(at + 28, true);
    const behind = view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    const name = decoder.decode(bytes.subarray(at + ENTRY_LENGTH, at + ENTRY_LENGTH + names));
    const file = view.getUint32(at + 42, true);
    const isProtected = (flags & 1) === 1;
    if (isProtected || (method !== 0 && method !== 8)) return null;
    if (file + FILE_LENGTH > bytes.length || view.getUint32(file, true) !== FILE_SIGN) return null;
    const start = file + FILE_LENGTH + view.getUint16(file + 26, true) + view.getUint16(file + 28, true);
    entries.push({ name, isStored: method === 0, start, packed: view.getUint32(at + 20, true) });
    at += ENTRY_LENGTH + names + behind;
  }
  return entries;
}

/** The content of a file of the archive, counted as it comes. */
async function unpack(
  bytes: Uint8Array,
  { isStored, start, packed }: Entry,
  limit: number,
): Promise<Uint8Array | "damaged" | "too-large"> {
  const content = bytes.slice(start, start + packed);
  if (content.length < packed) return "damaged";
  if (isStored) return content.length > limit ? "too-large" : content;
  const pieces: Uint8Array[] = [];
  let length = 0;
  const reader = new Blob([content]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      length += value.length;
      if (length > limit) {
        await reader.cancel();
        return "too-large";
      }
      pieces.push(value);
    }
  } catch {
    return "damaged";
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** Up to the next tag only: whoever looks further for the end of one that is never closed does so again from each. */
const ROW_OR_CELL = /<(?:\w+:)?(c|row)(?:\s([^<>]*?))?(\/?)>/gu;
/** The last row that the file format has (ISO/IEC 29500, SpreadsheetML limits of common programs). */
const LAST_ROW = 1_048_576;

const ADDRESS = /(?<=^|\s)r\s*=\s*(?:"([^"]*)"|'([^']*)')/u;

/** What is wrong with the cell that stands farthest out; cells without content make no rows longer. */
function farCell(sheet: string): string | null {
  let [rows, columns] = [0, 0];
  for (const [, element, inside = "", end] of sheet.matchAll(ROW_OR_CELL)) {
    const [, double, address = double] = ADDRESS.exec(inside) ?? [];
    if (address === undefined) continue;
    const at = addressIn(element === "c" ? address : `A${address}`);
    if (at === null || at.row > LAST_ROW)
      return `the workbook is damaged: a cell or row is said to be at ${address.slice(0, 20)}`;
    if (element === "row" || end === "/") continue;
    rows = Math.max(rows, at.row);
    columns = Math.max(columns, at.column);
  }
  if (rows <= MOST_ROWS && columns <= MOST_COLUMNS && rows * columns <= MOST_CELLS) return null;
  const most = `at most ${thousands(MOST_ROWS)} rows, ${thousands(MOST_COLUMNS)} columns and ${thousands(MOST_CELLS)} cells are read`;
  return `a sheet reaches to row ${thousands(rows)} and column ${thousands(columns)}; ${most}`;
}

function addressIn(text: string): { readonly row: number; readonly column: number } | null {
  const found = /^([A-Z]{1,3})([1-9]\d{0,6})$/u.exec(text);
  if (found === null) return null;
  const column = [...found[1]!].reduce((number, letter) => 26 * number + letter.charCodeAt(0) - 64, 0);
  return { row: Number(found[2]), column };
}

const OPEN_CELL = /<(?:\w+:)?c\s([^<>]*[^/<>])>/gu;

function lostCells(sheet: string): LostCell[] {
  const cells = [...sheet.matchAll(OPEN_CELL)];
  return cells.flatMap(({ 0: tag, 1: inside = "", index }, number) => {
    const content = sheet.slice(index + tag.length, cells[number + 1]?.index);
    const attributes = attributesIn(inside);
    const value = /<(?:\w+:)?v(?:\s[^>]*)?>([^<]*)</u.exec(content)?.[1];
    const isError = attributes.get("t") === "e";
    const isFormula = /<(?:\w+:)?f[\s/>]/u.test(content);
    const at = addressIn(attributes.get("r") ?? "");
    if (at === null || !(isError || (isFormula && value === undefined))) return [];
    return [{ ...at, error: isError ? (value ?? "an error") : null }];
  });
}
