import { thousands } from "../findings/count-of.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { nearestWords } from "../findings/nearest.js";
import { idKey, readId } from "../line/ids.js";
import { readEvery } from "../line/whole-numbers.js";
import { askOfDecimals, findDecimalMark, withPoint } from "../table/decimal-mark.js";
import { addressOf, type Cell, findingAt, MOST_NAMED, type Row, type Table } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import type { Reading } from "../time/reading.js";
import { TIME_UNITS, type TimeUnit, unitNamed } from "../time/units.js";
import { isBare, otherUnit, readWritten, roundedWords, UNIT_MISSING } from "./read-cell.js";
import type { ReadElement, ReadingsOptions, ReadingsReading, TakenReading } from "./readings.js";
import { readRating } from "./study-terms.js";

const NAMES = ["element", "task", "every", "unit", "rating", "observer", "cycle", "reading"] as const;
type Name = (typeof NAMES)[number];

/**
 * Readings of a table: a row an element with a column for each reading, its heading a number; or a row a reading with a column `reading`.
 * Every cell that cannot be read is a finding with its row and column.
 */
export function readReadingsTable(table: Table, options: ReadingsOptions): ReadingsReading {
  const reader = new TableReader(table, options);
  const { findings } = reader;
  const elements = reader.read();
  if (elements === null || hasErrors(findings)) return { readings: null, findings, source: table.source };
  const readings = {
    file: table.file,
    elements,
    unit: reader.unitOfAll,
    decimalMark: reader.decimals.mark,
    table: table.understood,
    layout: reader.isRowAReading ? ("row a reading" as const) : ("row an element" as const),
  };
  return { readings, findings, source: table.source };
}

/** Whether some row of a table heads elements and their readings. */
export const holdsReadings = (rows: readonly Row[]): boolean =>
  rows.some((row) => {
    const names = row.map(nameIn);
    return (
      names.includes("element") && (names.includes("reading") || row.some((cell) => numberIn(cell) !== null))
    );
  });

/** An element as its rows tell it. */
interface Growing {
  readonly name: string;
  /** In the order of the file. */
  readonly number: number;
  readonly cell: Cell;
  task: string | null;
  every: number;
  /** Readings that are written, faulty ones among them. */
  written: number;
  readonly readings: TakenReading[];
}

class TableReader {
  readonly findings: Finding[] = [];
  decimals = findDecimalMark([]);
  isRowAReading = false;
  readonly #columns = new Map<Name, number>();
  /** The columns of readings, in the order of the file. */
  readonly #numbered: number[] = [];
  readonly #elements = new Map<string, Growing>();
  readonly #cycles = new Map<string, number>();
  readonly #units = new Set<TimeUnit | null>();
  #isUnitMissed = false;
  /** The first reading that was rounded, and how many others were. */
  #rounded: { readonly cell: Cell; readonly to: string; more: number } | null = null;
  /** The unit that the headings name, as in `reading (cmin)`. */
  #unitOfHeadings: TimeUnit | null = null;

  constructor(
    readonly table: Table,
    readonly options: ReadingsOptions,
  ) {}

  /** One unit for all readings, or null. */
  get unitOfAll(): TimeUnit | null {
    const [unit = null] = this.#units;
    return this.#units.size === 1 ? unit : null;
  }

  read(): readonly ReadElement[] | null {
    const { rows } = this.table;
    const at = rows.findIndex((row) => row.some((cell) => nameIn(cell) === "element"));
    if (at < 0) {
      const first = rows[0]![0]!;
      const near = nearestWords(first.text, ["element"]);
      this.#refuse("headings", first, `no column is called element${near}; ${EXPECTED}`);
      return null;
    }
    this.#readHeadings(rows[at]!);
    if (!this.#isLaidOut(rows[at]!)) return null;
    const body = rows.slice(at + 1).filter((row) => !this.#isTotal(row));
    this.#findDecimals(body);
    for (const row of body) {
      this.#readRow(row, rows[at]!.length);
      if (this.#elements.size <= MOST_NAMED) continue;
      const message = `more than ${thousands(MOST_NAMED)} elements stand up to here; no more are read`;
      this.#refuse("table-size", row[0]!, message);
      return null;
    }
    for (const element of this.#elements.values()) {
      if (element.written === 0)
        this.#refuse("no-readings", element.cell, `${quoted(element.name)} has no readings`);
    }
    if (this.#rounded !== null) {
      const { cell, to, more } = this.#rounded;
      this.#tell("rounded", "warning", cell, roundedWords(cell.text.trim(), to, more));
    }
    if (body.length === 0) this.#refuse("no-readings", rows[at]![0]!, "no element stands below the headings");
    return [...this.#elements.values()].map(({ cell, written: _written, number: _number, ...element }) => ({
      ...element,
      place: this.table.whereIs(cell),
    }));
  }

  #readHeadings(headings: Row): void {
    for (const cell of headings) {
      const [name, number, text] = [nameIn(cell), numberIn(cell), cell.text.trim()];
      const column = cell.column - 1;
      if (name !== null || number !== null) {
        const unit = unitIn(text);
        const other = otherUnit(unit, this.options.unit);
        if (other !== null) this.#refuse("unit", cell, other);
        this.#unitOfHeadings ??= unit;
      }
      if (name !== null) {
        if (this.#columns.has(name)) this.#refuse("headings", cell, `a second column is called ${name}`);
        else this.#columns.set(name, column);
      } else if (number !== null) {
        const same = this.#numbered.find((other) => numberIn(headings[other]!) === number);
        if (same !== undefined) this.#refuse("headings", cell, `a second column is headed ${number}`);
        this.#numbered.push(column);
      } else if (text !== "") {
        const message = `the column ${quoted(text)} is not read${nearestWords(text, NAMES)}`;
        this.#tell("column-not-read", "warning", cell, message);
      }
    }
  }

  #isLaidOut(headings: Row): boolean {
    this.isRowAReading = this.#columns.has("reading");
    if (this.isRowAReading === this.#numbered.length > 0) {
      const why = this.isRowAReading
        ? "there is a column reading and there are columns headed by numbers; one of them is expected"
        : `there is no column of readings; ${EXPECTED}`;
      this.#refuse("headings", headings[0]!, why);
      return false;
    }
    if (!this.isRowAReading && this.#columns.has("cycle")) {
      this.#refuse(
        "headings",
        headings[0]!,
        "a column cycle goes with a column reading only: a numbered column is a cycle",
      );
      return false;
    }
    return true;
  }

  /** Sums below a table are none of its elements. */
  #isTotal(row: Row): boolean {
    const cell = row[this.#columns.get("element")!];
    if (cell === undefined || !/^(?:grand\s+)?(?:total|sum)s?$/iu.test(cell.text.trim())) return false;
    this.#tell(
      "total-left-out",
      "warning",
      cell,
      `${quoted(cell.text.trim())} is taken for a sum and left out`,
    );
    return true;
  }

  #findDecimals(rows: readonly Row[]): void {
    const rating = this.#columns.get("rating");
    const columns = [...this.#numbered, this.#columns.get("reading"), rating];
    const found = findDecimalMark(
      rows
        .flatMap((row) => columns.flatMap((column) => row[column ?? -1] ?? []))
        .filter(
          // A rating of more than a thousand is none, so 1.125 is no question there.
          (cell) => cell.column - 1 !== rating || !/[.,]\d{3}(?!\d)/u.test(cell.text),
        ),
      this.options.decimals,
    );
    const asked = askOfDecimals(found);
    if (asked !== null) this.#refuse("decimal-mark", asked.cell, asked.message);
    // What is left to be found is read with a point, so that one question is not asked of every cell.
    this.decimals = found.undecided === null ? found : { ...found, mark: "." };
  }

  #readRow(row: Row, columns: number): void {
    const further = row.slice(columns).find(({ text }) => text.trim() !== "");
    if (further !== undefined)
      this.#refuse("headings", further, "the row has more cells than there are headings");
    const cell = this.#cell(row, "element");
    if (cell === null) {
      this.#refuse("element", row[0]!, "the element is missing in this row; write its name in every row");
      return;
    }
    const id = readId(cell.text);
    if (!id.ok) {
      this.#refuse("element", cell, id.problem);
      return;
    }
    const element = this.#elementOf(cell, row);
    const unit = this.#read(row, "unit", readUnit) ?? this.#unitOfHeadings ?? this.options.unit;
    const rating = this.#read(row, "rating", readRating);
    const observer = this.#cell(row, "observer")?.text.trim() ?? null;
    if (!this.isRowAReading && element.readings.some((other) => other.observer === observer)) {
      this.#refuse("element-twice", cell, `${quoted(cell.text.trim())} stands here a second time`);
      return;
    }
    this.#units.add(unit);
    if (this.isRowAReading) {
      const reading = this.#cell(row, "reading");
      if (reading === null) {
        this.#refuse("reading", row[0]!, "the reading is missing in this row (blank is never 0)");
        return;
      }
      const before = element.readings.filter((other) => other.observer === observer).length;
      const cycle = this.#cycleOf(row, observer) ?? before;
      this.#take(element, reading, unit, { rating, observer, cycle, turn: row[0]!.row });
      return;
    }
    for (const [cycle, column] of this.#numbered.entries()) {
      const reading = row[column];
      if (reading === undefined || reading.text.trim() === "") continue;
      this.#take(element, reading, unit, { rating, observer, cycle, turn: element.number });
    }
  }

  #elementOf(cell: Cell, row: Row): Growing {
    const [task, every] = [this.#cell(row, "task"), this.#read(row, "every", readEvery)];
    const known = this.#elements.get(idKey(cell.text));
    if (known === undefined) {
      const fresh: Growing = {
        name: idKey(cell.text),
        number: this.#elements.size,
        cell,
        task: task?.text.trim() ?? null,
        every: every ?? 1,
        written: 0,
        readings: [],
      };
      this.#elements.set(idKey(cell.text), fresh);
      return fresh;
    }
    const at = addressOf(known.cell);
    if (task !== null && known.task !== null && idKey(task.text) !== idKey(known.task))
      this.#refuse(
        "element-twice",
        task,
        `${quoted(known.name)} is a part of ${quoted(known.task)} in ${at}`,
      );
    if (every !== null && every !== known.every)
      this.#refuse(
        "element-twice",
        cell,
        `${quoted(known.name)} is done on every ${known.every} units in ${at}`,
      );
    known.task ??= task?.text.trim() ?? null;
    return known;
  }

  /** The number of the cycle in the order in which cycles come; null without a column for it. */
  #cycleOf(row: Row, observer: string | null): number | null {
    const cell = this.#cell(row, "cycle");
    if (cell === null) return null;
    const key = JSON.stringify([observer, cell.text.trim()]);
    const known = this.#cycles.get(key) ?? this.#cycles.size;
    this.#cycles.set(key, known);
    return known;
  }

  #take(
    element: Growing,
    cell: Cell,
    unit: TimeUnit | null,
    beside: Pick<TakenReading, "rating" | "observer" | "cycle" | "turn">,
  ): void {
    element.written += 1;
    if (unit === null && cell.kind !== "date" && isBare(cell.text.replace(",", "."), this.options.leaveOut)) {
      if (!this.#isUnitMissed) this.#refuse("unit", cell, UNIT_MISSING);
      this.#isUnitMissed = true;
      return;
    }
    const read = this.#readText(cell, (text) => readWritten(text, unit, this.options.leaveOut));
    if (read === null) return;
    const { table } = this;
    const { rounded, ...taken } = read;
    if (rounded !== null && this.#rounded !== null) this.#rounded.more += 1;
    else if (rounded !== null) this.#rounded = { cell, to: rounded, more: 0 };
    element.readings.push({
      ...taken,
      ...beside,
      // Only what is told of is looked for in the text.
      get place() {
        return table.whereIs(cell);
      },
      address: addressOf(cell),
    });
  }

  #read<T>(row: Row, name: Name, reader: (text: string) => Reading<T>): T | null {
    const cell = this.#cell(row, name);
    return cell === null ? null : this.#readText(cell, reader);
  }

  #readText<T>(cell: Cell, reader: (text: string) => Reading<T>): T | null {
    if (cell.kind === "date" || cell.kind === "yes-no") {
      this.#refuse(
        "reading",
        cell,
        `the spreadsheet keeps ${cell.text} here, which is no number; type it again as text`,
      );
      return null;
    }
    const text = withPoint(cell, this.decimals);
    const read = text.ok ? reader(text.value) : text;
    if (read.ok) return read.value;
    this.#refuse("reading", cell, read.problem);
    return null;
  }

  /** The cell of a row in that column; null where it is blank or there is no such column. */
  #cell(row: Row, name: Name): Cell | null {
    const cell = row[this.#columns.get(name) ?? -1];
    return cell === undefined || cell.text.trim() === "" ? null : cell;
  }

  #refuse(rule: string, cell: Cell, message: string): void {
    this.#tell(rule, "error", cell, message);
  }

  #tell(rule: string, severity: "error" | "warning", cell: Cell, message: string): void {
    this.findings.push(findingAt(this.table, cell, { rule, severity, message }));
  }
}

const EXPECTED =
  "a table with a row for each element has the columns element, 1, 2, 3, ...; one with a row for each reading has element and reading; both may have rating, unit, task, every and observer";

/** The column that a heading names, whatever its case and what stands in brackets behind it; null for none. */
function nameIn({ text }: Cell): Name | null {
  const word = bareWords(text);
  return (
    NAMES.find((name) => name === word) ?? (/^(?:work|job|task) elements?$/u.test(word) ? "element" : null)
  );
}

/** The number of a reading that a heading names, as `3`, `Reading 3 (s)`, `Cycle 3`, `Obs. 3` and `R3` do; null for none. */
function numberIn({ text }: Cell): string | null {
  const found = /^(?:(?:readings?|cycles?|obs|observations?|no|r|c|#)[\s._-]*)?(\d+)$/u.exec(bareWords(text));
  return found?.[1] ?? null;
}

const bareWords = (text: string): string => idKey(text).toLowerCase().split(/[([]/u, 1)[0]!.trimEnd();

/** The unit in brackets behind a heading, as in `reading (cmin)`. */
const unitIn = (text: string): TimeUnit | null => unitNamed(/[([]\s*(\w+)\s*[)\]]/u.exec(text)?.[1] ?? "");

function readUnit(text: string): Reading<TimeUnit> {
  const unit = unitNamed(text.trim());
  if (unit !== null) return { ok: true, value: unit };
  const units = TIME_UNITS.join(", ");
  return { ok: false, problem: `${quoted(text.trim())} is no unit; units are ${units}` };
}
