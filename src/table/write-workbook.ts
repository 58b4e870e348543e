import writeSheets from "write-excel-file/universal";
import type { Sheet, SheetCell } from "./sheet.js";

/** Spreadsheets keep as many digits of a number; a longer one stays text. */
const MOST_DIGITS = 15;

/** A table with the name of its sheet. */
export type NamedSheet = readonly [name: string, sheet: Sheet];

/** A workbook (.xlsx) of a sheet, and those beside it; its numbers are numbers, all other cells are text that is never worked out. The first row of each stays in sight. */
export async function writeWorkbook(
  first: string,
  table: Sheet,
  ...beside: readonly NamedSheet[]
): Promise<Uint8Array> {
  const sheets: readonly NamedSheet[] = [[first, table], ...beside];
  const all = sheets.map(([name, sheet]) => ({
    data: sheet.map((row) => row.map(toCell)),
    sheet: nameOfSheet(name),
    stickyRowsCount: 1,
  }));
  const blob = await writeSheets(all).toBlob();
  return withoutClock(new Uint8Array(await blob.arrayBuffer()));
}

function toCell(cell: SheetCell) {
  if (cell === null) return null;
  if ("number" in cell && cell.number.replace(/^[-0.]+|\./gu, "").length <= MOST_DIGITS)
    return { value: Number(cell.number), type: Number };
  return { value: escaped("number" in cell ? cell.number : cell.text), type: String };
}

/**
 * What XML cannot hold is written by its number, and so is text that looks like that (ECMA-376 part 1, 22.9.2.19, ST_Xstring). Beside it stand
 * characters that the library would leave out without a word, and texts that it would find among the properties of an object, such as toString.
 */
const escaped = (text: string): string =>
  text in {}
    ? numbered(text.charCodeAt(0)) + text.slice(1)
    : text
        .replace(/_(?=x[0-9a-fA-F]{4}_)/gu, "_x005F_")
        .replace(UNHELD, (sign) =>
          [...Array(sign.length).keys()].map((at) => numbered(sign.charCodeAt(at))).join(""),
        );

const numbered = (code: number): string => `_x${code.toString(16).toUpperCase().padStart(4, "0")}_`;

const UNHELD = /(?![\t\n])\p{Cc}|\p{Surrogate}|\p{Noncharacter_Code_Point}|\ufffd/gu;

/** Names of sheets have at most 31 signs and none of these. */
const nameOfSheet = (name: string): string =>
  name
    .replace(/[[\]:*?/\\']/gu, " ")
    .trim()
    .slice(0, 31)
    .trim() || "Sheet1";

const END_SIGN = 0x06054b50;
/** Midnight of 1 January 1980, the first day of archives (PKWARE, .ZIP File Format Specification 6.3.10, 4.4.6). */
const FIRST_DAY = 0x0021_0000;

/** The same archive without the time at which it was made, so that the same tasks are the same bytes. */
function withoutClock(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (view.getUint32(end, true) !== END_SIGN) end -= 1;
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    view.setUint32(at + 12, FIRST_DAY, true);
    view.setUint32(view.getUint32(at + 42, true) + 10, FIRST_DAY, true);
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return bytes;
}
