import { CsvError, parse } from "csv-parse/sync";
import { countOf, thousands } from "../findings/count-of.js";
import { decodeBytes } from "../findings/decode-bytes.js";
import { type Finding, finding } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { quoted } from "../time/quoted.js";
import { DELIMITERS, delimiterName, findDelimiter } from "./find-delimiter.js";
import { unguarded } from "./sheet.js";
import {
  type Cell,
  MOST_CELLS,
  MOST_COLUMNS,
  MOST_ROWS,
  type Row,
  type TableOptions,
  type TableReading,
  type Understood,
} from "./table.js";

type Delimiter = NonNullable<Understood["delimiter"]>;

/** No text that people write holds it, so that nothing is divided by it. */
const NONE = "\u001f";

/**
 * Reads CSV as spreadsheets write it: with or without a byte order mark, in UTF-16, with a first line `sep=;`, with lines that end in CR
 * alone, with quoted line ends. `="007"` is the text 007. Whatever cannot be told for sure is a finding.
 */
export function readCsv(file: string, bytes: Uint8Array, { delimiter: given }: TableOptions): TableReading {
  const decoded = decodeBytes(bytes);
  if (!decoded.ok) {
    const message = `this is ${decoded.problem}; save it as "CSV UTF-8"`;
    return refuse(finding({ rule: "not-text", severity: "error", message, file, place: at(decoded.line) }));
  }
  const source = decoded.text.replace(/\r\n?/gu, "\n");
  const stated = /^"?sep=(.)"?[,;\t|]*(?:\n|$)/u.exec(source);
  const found = given ?? (stated === null ? findDelimiter(source) : statedDelimiter(stated[1]!));
  if (found === undefined) {
    const message = `${quoted(stated![1]!)} divides no cells here; a comma, a semicolon, a tab or a | is expected after sep=`;
    return refuse(finding({ rule: "delimiter", severity: "error", message, file, place: at(1) }));
  }
  if (Array.isArray(found)) return refuse(undecided(file, found));
  const delimiter = found as Delimiter | null;
  const reading = readRecords(file, source, delimiter ?? NONE);
  if (!reading.ok) return refuse(reading.fault);
  const records = stated === null ? reading.records : reading.records.slice(1);
  const rows = records.flatMap(({ cells, row }) => toRow(cells, row));
  const tooMuch = tooLarge(file, rows) ?? (rows.length === 0 ? nothing(file) : null);
  if (tooMuch !== null) return refuse(tooMuch);
  const lines = new Map(reading.records.map((record) => [record.row, record]));
  // Cells are asked for row by row.
  let last: { readonly row: number; readonly starts: number[] | null } = { row: 0, starts: null };
  return {
    table: {
      file,
      understood: {
        kind: "csv",
        encoding: decoded.encoding,
        delimiter,
        sheet: null,
        otherSheets: [],
      },
      rows,
      source,
      whereIs({ row, column }) {
        const { raw, line } = lines.get(row)!;
        if (row !== last.row) last = { row, starts: cellStarts(raw, delimiter ?? NONE) };
        return placeIn(raw, line, last.starts, column);
      },
    },
    findings: [],
  };
}

const refuse = (fault: Finding): TableReading => ({ table: null, findings: [fault] });
const at = (line: number) => ({ line, column: 1, endColumn: 2 });

const statedDelimiter = (sign: string): Delimiter | undefined => DELIMITERS.find((each) => each === sign);

function undecided(file: string, between: readonly Delimiter[]): Finding {
  const names = between.map(delimiterName);
  const message = `the cells may be divided by ${listOf(names)}; say which with --delimiter, as in --delimiter ${names[0]}`;
  return finding({ rule: "delimiter", severity: "error", message, file, place: at(1) });
}

interface TextRecord {
  readonly cells: readonly string[];
  /** The text of the record, the line it begins in, and the how-manieth record it is. */
  readonly raw: string;
  readonly line: number;
  readonly row: number;
}

type Records =
  | { readonly ok: true; readonly records: readonly TextRecord[] }
  | { readonly ok: false; readonly fault: Finding };

/** Characters of a row: a quote that is never closed makes all that follows one. */
const LONGEST_ROW = 2_000_000;

/** Ends the reading of a table before all of it is in memory; the message says what is too much. */
class TooLargeError extends Error {}

function readRecords(file: string, source: string, delimiter: string): Records {
  const records: TextRecord[] = [];
  let [line, row, used, cells, filled] = [1, 1, 0, 0, 0];
  // The library makes an error of every row that is longer or shorter than the first, to be ignored; tracing each takes most of the time.
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    parse(source, {
      delimiter,
      record_delimiter: "\n",
      // Quotes inside a cell, as in 5" bolt, are signs like any other; cells that open with one are looked at below.
      relax_quotes: true,
      relax_column_count: true,
      skip_empty_lines: true,
      raw: true,
      max_record_size: LONGEST_ROW,
      on_record: (given) => {
        // With `raw` the text comes beside the cells, which the published types leave out.
        const { record, raw } = given as unknown as { record: string[]; raw: string };
        const text = (raw.endsWith("\n") ? raw.slice(0, -1) : raw).replace(/^\n+/u, "");
        // Blank lines before a row are skipped with it.
        const blank = raw.length - text.length - (raw.endsWith("\n") ? 1 : 0);
        [line, row] = [line + blank, row + blank];
        records.push({ cells: record, raw: text, line, row });
        cells += record.length;
        // Blank rows count for nothing later on, but fill the memory first.
        if (cells > 2 * MOST_CELLS)
          throw new TooLargeError(
            `more than ${thousands(2 * MOST_CELLS)} cells, blank ones among them; at most ${thousands(MOST_CELLS)} are read`,
          );
        if (!isBlank(record)) filled++;
        // The first may say `sep=` and is then none.
        if (filled > MOST_ROWS + 1)
          throw new TooLargeError(
            `more than ${thousands(MOST_ROWS)} rows; at most ${thousands(MOST_ROWS)} are read`,
          );
        [line, row, used] = [line + text.split("\n").length, row + 1, used + raw.length];
        return null;
      },
    });
  } catch (error) {
    if (error instanceof TooLargeError) {
      const message = `the table has ${error.message}`;
      return { ok: false, fault: finding({ rule: "table-size", severity: "error", message, file }) };
    }
    if (!(error instanceof CsvError)) throw error;
    const why =
      error.code === "CSV_QUOTE_NOT_CLOSED"
        ? 'a quote opens a cell in this row and is never closed; write "" for a quote inside a quoted cell'
        : error.code === "CSV_MAX_RECORD_SIZE"
          ? `the row is longer than ${thousands(LONGEST_ROW)} characters; is a quote open, or a line end missing?`
          : `this row cannot be divided into cells: ${error.message}`;
    const blank = /^\n*/u.exec(source.slice(used))![0].length;
    const message = `row ${row + blank}: ${why}`;
    return {
      ok: false,
      fault: finding({ rule: "quotes", severity: "error", message, file, place: at(line + blank) }),
    };
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
  const crooked = records.find(({ raw }) => raw.includes('"') && cellStarts(raw, delimiter) === null);
  if (crooked === undefined) return { ok: true, records };
  const message = `row ${crooked.row}: text follows a closing quote; write "" for a quote inside a quoted cell`;
  const place = at(crooked.line);
  return { ok: false, fault: finding({ rule: "quotes", severity: "error", message, file, place }) };
}

/** Where each cell of a record begins, and behind the last one; null where text follows a closing quote. */
function cellStarts(raw: string, delimiter: string): number[] | null {
  const starts = [0];
  for (let from = 0; ; ) {
    let end = from;
    if (raw[from] === '"') {
      const closed = /^"(?:[^"]|"")*"/u.exec(raw.slice(from));
      end = from + (closed?.[0].length ?? 0);
      if (closed === null || (end < raw.length && raw[end] !== delimiter)) return null;
    } else {
      const next = raw.indexOf(delimiter, from);
      end = next < 0 ? raw.length : next;
    }
    from = end + 1;
    starts.push(from);
    if (end >= raw.length) return starts;
  }
}

/** The stretch of a cell, on the first of its lines. */
function placeIn(raw: string, line: number, starts: readonly number[] | null, column: number) {
  const from = starts?.[column - 1] ?? raw.length;
  const to = Math.max(from + 1, (starts?.[column] ?? from + 2) - 1);
  const before = raw.slice(0, from).split("\n");
  const first = before.at(-1)!.length + 1;
  const length = raw.slice(from, to).split("\n")[0]!.length;
  return { line: line + before.length - 1, column: first, endColumn: first + Math.max(1, length) };
}

function toRow(texts: readonly string[], row: number): Row[] {
  if (isBlank(texts)) return [];
  return [texts.map((text, at): Cell => ({ kind: "text", text: unprotected(text), row, column: at + 1 }))];
}

/** Nothing but signs that divide cells. */
const isBlank = (texts: readonly string[]): boolean =>
  texts.every((text) => text.replace(/[,;\t|]/gu, "").trim() === "");

/** People write ="007" so that a spreadsheet leaves the zeros, and '=x for a text that it must not work out. Nothing else is touched. */
const unprotected = (text: string): string => /^="([^"]*)"$/u.exec(text.trim())?.[1] ?? unguarded(text);

/** Refuses a table beyond what people keep in one; null where it is within. */
export function tooLarge(file: string, rows: readonly Row[]): Finding | null {
  const cells = rows.reduce((sum, row) => sum + row.length, 0);
  const widest = rows.reduce((most, row) => Math.max(most, row.length), 0);
  const [amount, most] =
    rows.length > MOST_ROWS
      ? [countOf(rows.length, "row"), thousands(MOST_ROWS)]
      : widest > MOST_COLUMNS
        ? [countOf(widest, "column"), thousands(MOST_COLUMNS)]
        : [countOf(cells, "cell"), thousands(MOST_CELLS)];
  if (rows.length <= MOST_ROWS && widest <= MOST_COLUMNS && cells <= MOST_CELLS) return null;
  const message = `the table has ${amount}; at most ${most} are read`;
  return finding({ rule: "table-size", severity: "error", message, file });
}

export function nothing(file: string): Finding {
  const message = "nothing is written in this table; a row of headings is expected, and rows below it";
  return finding({ rule: "empty-table", severity: "error", message, file, place: at(1) });
}
