import { readDecimals } from "../table/decimal-mark.js";
import { readDelimiter } from "../table/find-delimiter.js";
import { textIfGiven, UsageError } from "./usage-error.js";

/** A table with the name that findings call it by: CSV as text, or the bytes of a file, which may be a workbook (.xlsx). */
export interface TableFile {
  readonly file: string;
  readonly content: string | Uint8Array;
}

/** What is to be said of a table only where it cannot be told. */
export interface TableOptions {
  /** "comma", "semicolon", "tab" or "pipe". */
  readonly delimiter?: string;
  /** Of a workbook; the first with anything in it where left out. */
  readonly sheet?: string;
}

export const TABLE_OPTIONS = ["delimiter", "sheet"] as const;

/** What the reader of tables is told of one. */
export function tableTerms({ delimiter, sheet }: TableOptions) {
  const sign = textIfGiven("delimiter", delimiter, readDelimiter);
  return { ...(sign !== undefined && { delimiter: sign }), ...(sheet !== undefined && { sheet }) };
}

/** Where 1.033 may be 1033. */
export const decimalsOf = (decimals: string | undefined) => textIfGiven("decimals", decimals, readDecimals);

/** Text or bytes as bytes. Throws a UsageError for anything else, which `what` names. */
export function bytesOf(content: unknown, what: string): Uint8Array {
  if (typeof content === "string") return new TextEncoder().encode(content);
  if (content instanceof Uint8Array) return content;
  throw new UsageError(`${what} expected, as text or as bytes`);
}

/** The file of a table and its bytes. Throws a UsageError for anything else, which `what` names. */
export function tableBytes(table: TableFile, what: string): { file: string; bytes: Uint8Array } {
  if (typeof table !== "object" || table === null || typeof table.file !== "string")
    throw new UsageError(`${what} expected, as {file, content}`);
  return { file: table.file, bytes: bytesOf(table.content, what) };
}
