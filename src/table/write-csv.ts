import { stringify } from "csv-stringify/sync";
import { visibleLines } from "../findings/visible-text.js";
import { type CsvHabits, guarded, type Sheet, type SheetCell } from "./sheet.js";

/**
 * CSV as RFC 4180 has it: CRLF line ends, cells quoted where they hold a delimiter, a quote or a line end. Text that a spreadsheet
 * would take for a formula (it begins with =, +, -, @, a tab or a carriage return) gets an apostrophe in front; numbers, also those below 0,
 * stay as they are.
 */
export function writeCsv(sheet: Sheet, { delimiter, decimals, guard }: CsvHabits): string {
  const rows = sheet.map((row) => row.map((cell) => cellText(cell, decimals, guard)));
  return stringify(rows, { delimiter, record_delimiter: "\r\n", quoted_match: /[\r\n]/u });
}

function cellText(cell: SheetCell, decimals: "," | ".", guard: boolean): string {
  if (cell === null) return "";
  if ("number" in cell) return cell.number.replace(".", decimals);
  const text = visibleLines(cell.text);
  return guard ? guarded(text) : text;
}
