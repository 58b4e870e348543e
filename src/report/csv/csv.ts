/** A cell of a CSV table: text of people, or a number as it stands; null is left empty. */
export type CsvCell = { readonly text: string } | { readonly number: string } | null;

/** What a spreadsheet would take for the start of a formula. */
const FORMULA = /^[=+\-@\t\r]/u;

/**
 * A table as RFC 4180 has it: commas, CRLF line ends, cells quoted where they hold a comma, a quote or a line end. Text that a
 * spreadsheet would take for a formula (it begins with =, +, -, @, a tab or a carriage return) gets an apostrophe in front;
 * numbers, also those below 0, stay as they are.
 *
 * @param guarded without it text stays as it is, for readers that are no spreadsheet
 */
export function csvText(rows: readonly (readonly CsvCell[])[], guarded = true): string {
  return rows.map((row) => `${row.map((cell) => cellText(cell, guarded)).join(",")}\r\n`).join("");
}

function cellText(cell: CsvCell, isGuarded: boolean): string {
  if (cell === null) return "";
  if ("number" in cell) return cell.number;
  const guarded = isGuarded && FORMULA.test(cell.text) ? `'${cell.text}` : cell.text;
  return /[",\r\n]/u.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
