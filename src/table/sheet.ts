import type { Understood } from "./table.js";

/** A cell that is written: text of people, or a number in plain digits with a point; null is left empty. */
export type SheetCell = { readonly text: string } | { readonly number: string } | null;

/** What is written as CSV or as a sheet of a workbook, row by row. */
export type Sheet = readonly (readonly SheetCell[])[];

/** The habits of the spreadsheet that is to open a file of CSV. */
export interface CsvHabits {
  readonly delimiter: NonNullable<Understood["delimiter"]>;
  /** What decimals take. */
  readonly decimals: "," | ".";
  /** Whether text that it would take for a formula gets an apostrophe in front. */
  readonly guard: boolean;
}

/** What a spreadsheet would take for the start of a formula, behind any apostrophes that guard it already; a dash alone is none. */
const FORMULA = /^'*(?:[=+@\t\r]|-(?!$))/u;

/** Text that no spreadsheet works out: an apostrophe stands before it. */
export const guarded = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

/** The text that was guarded; every other text is itself. */
export const unguarded = (text: string): string =>
  text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text;
