import { countOf, thousands } from "../findings/count-of.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { idKey, readId } from "../line/ids.js";
import { askOfDecimals, findDecimalMark, withPoint } from "../table/decimal-mark.js";
import { addressOf, type Cell, findingAt, MOST_NAMED, type Row, type Table } from "../table/table.js";
import { unitMeant } from "../time/duration-slips.js";
import { readNumber } from "../time/exact-number.js";
import { quoted } from "../time/quoted.js";
import { add, ratio, ZERO } from "../time/ratio.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { TIME_UNITS, type TimeUnit } from "../time/units.js";
import {
  type CellValue,
  type ImportedTask,
  type ImportedTasks,
  type ImportedTime,
  type TasksReading,
  TEXT_KEYS,
  type TextKey,
} from "./imported-tasks.js";
import { checkAsLine } from "./line-of-tasks.js";
import { isDate, type Neighbours, neighboursReader, quotedParts, withoutMark } from "./read-neighbours.js";
import { readPieces } from "./read-pieces.js";
import { readTaskTime, type TaskTime } from "./read-task-time.js";
import {
  type ColumnKey,
  findColumns,
  type GivenColumns,
  type TaskColumn,
  type TaskColumns,
  timeColumns,
} from "./task-columns.js";

/** What the user says of a table of tasks. */
export interface TaskTableOptions {
  /** Of bare numbers; null where the table says it. */
  readonly unit: TimeUnit | null;
  readonly columns: GivenColumns;
  readonly ranges: boolean;
  readonly nothing: readonly string[];
  /** Ids of tasks that may be named besides those of the table. */
  readonly others: readonly string[];
  /** Models of the line that takes the tasks. */
  readonly models: readonly string[];
  /** What decimals take; null for what the cells show. */
  readonly decimals: "," | "." | null;
  /** Whether orders of work tell precedences besides the table. */
  readonly hasOrders: boolean;
}

/** Reads a table of tasks, one a row. Each doubtful cell is a finding with its row and column; no cell is guessed at. */
export function readTaskTable(table: Table, options: TaskTableOptions): TasksReading {
  const reader = new TaskTableReader(table, options);
  const read = reader.read();
  const { findings } = reader;
  const imported = hasErrors(findings) ? null : read;
  let line: ReturnType<TasksReading["asLine"]> | null = null;
  // Where cells are refused, the others are judged all the same, so that every fault is told at once.
  const asLine = () => {
    const isListed = read !== null && read.tasks.length > 0;
    line ??= isListed
      ? checkAsLine(read, options.others, table, (cell) => reader.refused.has(cell))
      : { line: null, findings: [] };
    return imported === null ? { ...line, line: null } : line;
  };
  return { imported, findings, asLine };
}

/** A task whose neighbours are not read yet. */
interface TaskRow {
  readonly row: Row;
  /** Of a row whose own id is refused, one that says where it stands: its other cells are judged all the same. */
  readonly id: string;
  readonly cell: Cell;
  readonly isNamed: boolean;
}

class TaskTableReader {
  readonly findings: Finding[] = [];
  /** Cells that are errors. */
  readonly refused = new Set<Cell>();
  #columns: TaskColumns = new Map();
  #times: readonly TaskColumn[] = [];
  #decimals = findDecimalMark([]);
  #isUnitMissed = false;
  /** The first cell of each form that is read in one of two ways, and how many there are. */
  readonly #forms = new Map<string, { readonly cell: Cell; readonly told: string; count: number }>();

  constructor(
    readonly table: Table,
    readonly options: TaskTableOptions,
  ) {}

  read(): ImportedTasks | null {
    const { table, options } = this;
    const found = findColumns(table.rows, options.columns, options.models, (rule, severity, cell, message) =>
      this.#tell(rule, severity, cell, message),
    );
    if (found === null) return null;
    this.#columns = found.columns;
    this.#times = timeColumns(found.columns);
    const [time] = this.#times;
    if (time === undefined || !found.columns.has("id")) return null;
    for (const each of this.#times)
      if (each.unit !== null && options.unit !== null && each.unit !== options.unit)
        this.#refuse(
          "unit",
          each.cell,
          `the heading ${quoted(each.heading)} says ${each.unit}, and --unit says ${options.unit}`,
        );
    this.#skipAbove(found.headings);
    const width = table.rows[found.headings]!.length;
    const body = table.rows.slice(found.headings + 1).filter((row) => !this.#isTotal(row));
    if (body.length > MOST_NAMED) {
      const message = `${thousands(body.length)} tasks stand below the headings; at most ${thousands(MOST_NAMED)} are read`;
      this.#refuse("table-size", table.rows[found.headings]![0]!, message);
      return null;
    }
    this.#findDecimals(body);
    const rows = this.#readIds(body, width);
    if (rows.length === 0 && !hasErrors(this.findings))
      this.#refuse("no-tasks", table.rows[found.headings]![0]!, "no task stands below the headings");
    const after = this.#readAfter(rows);
    const unit = time.unit ?? options.unit;
    const tasks = rows.map((each) => this.#readTask(each, unit, after.get(each.id)!));
    this.#tellForms();
    this.#tellBlanks(body);
    const named = new Set(tasks.flatMap((each) => each.after));
    const imported: ImportedTasks = {
      file: table.file,
      tasks,
      columns: found.columns,
      unit: unit && { unit, from: time.unit === null ? "option" : "heading" },
      decimalMark: this.#decimals.mark,
      models: this.#times.flatMap(({ model }) => model ?? []),
      totals: this.#times.map((_, at) =>
        tasks.reduce((sum, { times }) => add(sum, ratio(times[at]!.micros ?? 0)), ZERO),
      ),
      orders: null,
      starts: tasks.filter((each) => each.after.length === 0).map(({ id }) => id),
      ends: tasks.filter(({ id }) => !named.has(id)).map(({ id }) => id),
      table: table.understood,
    };
    if (imported.models.length > 0 && options.models.length === 0)
      this.#tell(
        "model-shares",
        "warning",
        time.cell,
        "no table says how many of each model are built: a new line file has as many of each",
      );
    return imported;
  }

  #skipAbove(headings: number): void {
    if (headings === 0) return;
    const cell = this.table.rows[0]!.find(({ text }) => text.trim() !== "")!;
    const message = `${countOf(headings, "row")} above the headings ${headings === 1 ? "is" : "are"} not read`;
    this.#tell("rows-not-read", "warning", cell, message);
  }

  /** Sums below a table are none of its tasks. */
  #isTotal(row: Row): boolean {
    const id = this.#cell(row, "id");
    const cell = id ?? row.find(({ text }) => text.trim() !== "")!;
    const text = cell.text.trim();
    if (!/^(?:grand\s+|sub-?\s*)?(?:total|sum)s?(?:\s+(?:time|work|work content))?\s*:?$/iu.test(text))
      return false;
    if (this.#cell(row, "after") !== null || this.#cell(row, "before") !== null) return false;
    this.#tell("total-left-out", "warning", cell, `${quoted(text)} is taken for a sum and left out`);
    return true;
  }

  #findDecimals(rows: readonly Row[]): void {
    const keys = [
      ...this.#times.map(({ key }) => key),
      "quantity",
      "walking",
      "machine-time",
      "training",
      "spread",
      "lift",
    ] as const;
    this.#decimals = findDecimalMark(
      rows.flatMap((row) => keys.flatMap((key) => this.#cell(row, key) ?? [])),
      this.options.decimals,
    );
    // 1.033 where nothing shows the mark is read with decimals, and told of beside the time.
    const asked = askOfDecimals({ ...this.#decimals, undecided: null });
    if (asked !== null) this.#refuse("decimal-mark", asked.cell, asked.message);
  }

  #readIds(body: readonly Row[], width: number): TaskRow[] {
    const known = new Map<string, Cell>();
    const rows: TaskRow[] = [];
    let typed: { readonly number?: Cell; readonly zeros?: Cell } = {};
    for (const row of body) {
      const further = row.slice(width).find(({ text }) => text.trim() !== "");
      if (further !== undefined)
        this.#refuse(
          "headings",
          further,
          "the row has more cells than there are headings; put a cell that holds the delimiter into quotes",
        );
      const read = this.#readRowId(row, known);
      rows.push(read);
      if (!read.isNamed) continue;
      const { id, cell } = read;
      if (cell.kind === "number") typed = { number: cell, ...typed };
      else if (/^0\d+$/u.test(id)) typed = { zeros: cell, ...typed };
      known.set(idKey(id), cell);
    }
    const { number, zeros } = typed;
    if (number !== undefined && zeros !== undefined)
      this.#tell(
        "id",
        "warning",
        number,
        `the spreadsheet keeps ${number.text} as a number, and ${quoted(zeros.text)} as text (${addressOf(zeros)}): leading zeros may be lost`,
      );
    return rows;
  }

  /** The id of a row, or that it has none of its own. */
  #readRowId(row: Row, known: ReadonlyMap<string, Cell>): TaskRow {
    const cell = this.#cell(row, "id");
    const first = row.find(({ text }) => text.trim() !== "")!;
    const where = `row ${first.row}`;
    if (cell === null) {
      // Only what is missing is told of here: what stands in that cell may be at fault itself.
      this.#tell(
        "id",
        "error",
        first,
        "the id is missing in this row; where cells are merged, write it in every row",
      );
      return { row, id: where, cell: first, isNamed: false };
    }
    const id = this.#idOf(cell);
    if (!id.ok) {
      this.#refuse("id", cell, id.problem);
      return { row, id: where, cell, isNamed: false };
    }
    const before = known.get(idKey(id.value));
    if (before === undefined) return { row, id: id.value, cell, isNamed: true };
    this.#refuse(
      "duplicate-id",
      cell,
      `${quoted(id.value)} is already the id in ${addressOf(before)}; one row a task is expected`,
    );
    return { row, id: `${id.value} (${where})`, cell, isNamed: false };
  }

  #idOf(cell: Cell): Reading<string> {
    const typed = cell.text.trim();
    if (cell.kind === "date" || cell.kind === "duration")
      return refuse(
        `${quoted(typed)} looks like a date that a spreadsheet made out of an id; format the column as text and type it again`,
      );
    if (SHORTENED.test(typed))
      return refuse(
        `${quoted(typed)} is how a spreadsheet writes a long number; format the column as text and type the id again`,
      );
    if (this.table.understood.kind === "csv" && isDate(typed))
      this.#note(
        "id",
        cell,
        `${quoted(typed)} is kept as an id, and looks like a date that a spreadsheet made of one`,
      );
    const text = withoutMark(typed);
    if (text !== typed)
      this.#note("apostrophe", cell, `${quoted(typed)} is read as ${text}: a leading apostrophe marks text`);
    return readId(text);
  }

  /** The tasks before each task by its id: from its own cell, or from the cells of those that name it as a successor. */
  #readAfter(rows: readonly TaskRow[]): Map<string, string[]> {
    const after = new Map(rows.map(({ id }) => [id, [] as string[]]));
    const key = this.#columns.has("after") ? "after" : "before";
    if (!this.#columns.has(key)) {
      if (this.options.hasOrders) return after;
      const [{ cell }] = this.#times as [TaskColumn];
      this.#tell(
        "no-precedence",
        "warning",
        cell,
        "no column tells predecessors or successors: the tasks may be done in any order",
      );
      return after;
    }
    const { ranges, nothing, others } = this.options;
    const named = rows.filter(({ isNamed }) => isNamed).map(({ id }) => id);
    const ids = new Map([...others, ...named].map((id) => [idKey(id), id]));
    const reader = neighboursReader({ ids, ranges, nothing });
    for (const { row, id } of rows) {
      const cell = this.#cell(row, key);
      const read = cell === null ? NONE : reader(cell);
      if (!read.ok) {
        this.#refuse(
          "unknown-task",
          cell!,
          `${key === "after" ? "predecessor" : "successor"} of ${id}: ${read.problem}`,
        );
        continue;
      }
      this.#tellNeighbours(cell, read.value);
      for (const each of read.value.ids) {
        if (key === "after") after.get(id)!.push(each);
        else if (after.has(each)) after.get(each)!.push(id);
        else
          this.#refuse(
            "unknown-task",
            cell!,
            `successor of ${id}: ${quoted(each)} has no row of its own here; give it one`,
          );
      }
    }
    return after;
  }

  #tellNeighbours(cell: Cell | null, { word, isDoubled, ids }: Neighbours): void {
    if (word !== null)
      this.#tell(
        "task-called-nothing",
        "warning",
        cell!,
        `${quoted(word)} is taken for the task of that id, not for no task`,
      );
    if (isDoubled)
      this.#tell(
        "named-twice",
        "warning",
        cell!,
        `${quoted(cell!.text.trim())} names a task twice; it counts once (${ids.join(", ")})`,
      );
  }

  #readTask(
    { row, id, cell, isNamed }: TaskRow,
    unit: TimeUnit | null,
    after: readonly string[],
  ): ImportedTask {
    const blank = (key: ColumnKey) => row[(this.#columns.get(key)?.cell.column ?? 0) - 1] ?? cell;
    const own = this.#unitOf(row);
    // A row without an id and times may be no task, such as a heading between tasks.
    const isTimed = isNamed || this.#times.some(({ key }) => this.#cell(row, key) !== null);
    const times = this.#times.map((column): ImportedTime => {
      const found = blank(column.key);
      if (!isTimed) return { model: column.model, cell: found, ...NO_TIME };
      const timeCell = row[column.cell.column - 1] ?? { ...cell, text: "" };
      const said = { model: column.model, cell: found };
      if (column.model !== null && NOT_HAD.test(timeCell.text)) return { ...said, text: "-", micros: null };
      return { ...said, ...this.#readTime(timeCell, column, own ?? column.unit ?? this.options.unit, unit) };
    });
    if (times.every(({ micros }) => micros === null))
      this.#refuse("time", cell, "no model has this task; give a time to one of them");
    return {
      id,
      times: times as [ImportedTime, ...ImportedTime[]],
      after,
      texts: this.#readTexts(row),
      cells: { id: cell, after: blank("after") },
    };
  }

  /** A time in its own unit; it carries that where bare numbers of the table are in another. */
  #readTime(
    cell: Cell,
    { clock }: TaskColumn,
    unit: TimeUnit | null,
    ofTable: TimeUnit | null,
  ): Pick<TaskTime, "text" | "micros"> {
    const bare = cell.text.trim();
    const read = this.#isMissing(bare, unit) ? null : readTaskTime(cell, unit, this.#decimals);
    if (read !== null && !read.ok) this.#refuse("time", cell, read.problem);
    if (read === null && !this.#isUnitMissed) {
      this.#refuse(
        "unit",
        cell,
        `bare numbers need a unit: give --unit ${TIME_UNITS.join(", ")}, or a heading such as Time (s)`,
      );
      this.#isUnitMissed = true;
    }
    const time = read?.ok ? read.value : NO_TIME;
    // Where the heading says the form, nothing is guessed.
    if (time.read === "mm:ss" && clock === "h:mm") this.#refuse("time", cell, hoursWords(bare));
    else if ((time.read === "mm:ss" || time.read === "h:mm:ss") && time.read !== clock) {
      const parts = time.read === "mm:ss" ? "minutes and seconds" : "hours, minutes and seconds";
      this.#note(time.read, cell, `${quoted(bare)} is read as ${parts} (${time.read})`);
    }
    if (time.read === "rounded")
      this.#note(
        "rounded",
        cell,
        `${quoted(bare)} is rounded to ${time.text}, a whole number of microseconds`,
      );
    if (time.read === "point")
      this.#note(
        "decimals",
        cell,
        `${quoted(bare)} is read with decimals; where the point parts thousands, give --decimals comma`,
      );
    const isOwn = unit !== ofTable && readNumber(time.text) !== null;
    return { text: isOwn ? `${time.text} ${unit}` : time.text, micros: time.micros };
  }

  /** Whether a cell holds a bare number that nothing gives a unit. */
  #isMissing(text: string, unit: TimeUnit | null): boolean {
    return unit === null && Number(text) !== 0 && readNumber(text.replace(",", ".")) !== null;
  }

  #unitOf(row: Row): TimeUnit | null {
    const cell = this.#cell(row, "unit");
    if (cell === null) return null;
    const unit = unitMeant(cell.text.trim());
    if (unit === null)
      this.#refuse(
        "unit",
        cell,
        `${quoted(cell.text.trim())} is no unit; units are ${TIME_UNITS.join(", ")}`,
      );
    return unit;
  }

  #readTexts(row: Row): ReadonlyMap<TextKey, CellValue> {
    return new Map(
      TEXT_KEYS.flatMap((key) => {
        const cell = this.#cell(row, key);
        if (cell === null || isNothing(cell.text)) return [];
        const read = this.#textOf(key, cell);
        if (read.ok) return [[key, { text: read.value, cell }] as const];
        this.#refuse(key, cell, read.problem);
        return [];
      }),
    );
  }

  #textOf(key: TextKey, cell: Cell): Reading<CellValue["text"]> {
    const text = cell.text.trim();
    if (cell.kind === "date")
      return refuse(`the spreadsheet keeps the date ${text} here; type it again as text`);
    if (key in DIVIDED) {
      const words = quotedParts(text) ?? wordsOf(text, DIVIDED[key]!);
      return accept(words.length === 1 ? words[0]! : words);
    }
    if (key === "on-base") return accept(readYesNo(text));
    if (TIMES.has(key)) {
      const { heading, unit: own } = this.#columns.get(key)!;
      const unit = own ?? this.#times[0]!.unit ?? this.options.unit;
      const read = readTaskTime(cell, unit, this.#decimals);
      if (!read.ok) return read;
      const isBare = readNumber(read.value.text) !== null;
      // Training takes hours where a task takes seconds: its unit is never that of the times.
      if (isBare && own === null && key === "training")
        return refuse(
          `${quoted(text)} has no unit; write it in the heading, as in "${heading} (h)", or with the number`,
        );
      return accept(isBare && unit !== null ? `${read.value.text} ${unit}` : read.value.text);
    }
    if (key === "lift") {
      const pointed = withPoint(cell, this.#decimals);
      if (!pointed.ok) return pointed;
      const isBare = /^\d+(?:\.\d+)?$/u.test(pointed.value.trim());
      const inKilograms = /\bkg\b/iu.test(this.#columns.get("lift")!.heading);
      return accept(isBare && inKilograms ? `${pointed.value.trim()} kg` : pointed.value.trim());
    }
    if (key === "parts") return readPieces(text);
    // A dash that is meant stands behind an apostrophe.
    return accept(text.startsWith("'") && isNothing(text.replace(/^'+/u, "")) ? text.slice(1) : text);
  }

  /** Merged cells leave blanks below the first; where a column looks like that, it is said that blanks are read as blanks. */
  #tellBlanks(body: readonly Row[]): void {
    const column = this.#columns.get("zone");
    if (column === undefined) return;
    const words = body.map((row) => this.#cell(row, "zone")?.text.trim() ?? null);
    const blank = words.indexOf(null);
    const isRepeated = words.some((word, at) => word !== null && word === words[at - 1]);
    if (blank < 1 || isRepeated) return;
    const cell = body[blank]![column.cell.column - 1] ?? body[blank]![0]!;
    const message = `blank cells below ${quoted(column.heading)} are read as nothing; where cells are merged, write the word in every row`;
    this.#tell("blank-cell", "warning", cell, message);
  }

  #note(form: string, cell: Cell, told: string): void {
    const known = this.#forms.get(form);
    if (known === undefined) this.#forms.set(form, { cell, told, count: 1 });
    else known.count += 1;
  }

  #tellForms(): void {
    for (const [form, { cell, told, count }] of this.#forms) {
      const more =
        count > 1 ? `; so ${count === 2 ? "is" : "are"} ${countOf(count - 1, "further cell")}` : "";
      this.#tell(`read-as-${form.replaceAll(":", "-")}`, "warning", cell, told + more);
    }
  }

  /** The cell of a row in that column; null where it is blank or there is no such column. */
  #cell(row: Row, key: ColumnKey): Cell | null {
    const column = this.#columns.get(key);
    const cell = column === undefined ? undefined : row[column.cell.column - 1];
    return cell === undefined || cell.text.trim() === "" ? null : cell;
  }

  #refuse(rule: string, cell: Cell, message: string): void {
    this.refused.add(cell);
    this.#tell(rule, "error", cell, message);
  }

  #tell(rule: string, severity: Finding["severity"], cell: Cell, message: string): void {
    this.findings.push(findingAt(this.table, cell, { rule, severity, message }));
  }
}

/** Stands for a time that is not known, so that the other cells can be judged. */
const NO_TIME: TaskTime = { text: "1 s", micros: 1_000_000, read: null };

/** A dash alone is no value. */
/** What to write for a:b where the heading says hours and minutes; a line file always reads it as minutes and seconds. */
function hoursWords(text: string): string {
  const [hours, minutes] = text.split(":").map(Number);
  return `${quoted(text)} stands below hours and minutes, but a:b is always minutes and seconds; write ${60 * hours! + minutes!} min`;
}

const isNothing = (text: string): boolean => /^[-\u2013\u2014]$/u.test(text.trim());

/** Keys that take a list, and what divides one in a cell: what is to be checked is told in sentences, which have commas. */
const DIVIDED: { readonly [Key in TextKey]?: RegExp } = {
  skill: /[,;\n]/u,
  equipment: /[,;\n]/u,
  station: /[,;\n]/u,
  check: /[;\n]/u,
};

/** Keys that are times beside that of the task. */
const TIMES: ReadonlySet<TextKey> = new Set(["walking", "machine-time", "training", "spread"]);

/** TRUE, Yes and x as a line file has them; it judges any other word. */
const readYesNo = (text: string): string =>
  /^(?:true|yes|y|x)$/iu.test(text) ? "true" : /^(?:false|no|n)$/iu.test(text) ? "false" : text;

const wordsOf = (text: string, divider: RegExp): string[] =>
  text
    .split(divider)
    .map((word) => word.trim())
    .filter((word) => word !== "");

/** What says that a model does not have a task. */
const NOT_HAD = /^\s*(?:[-\u2010-\u2015\u2212]|n\/a)\s*$/iu;

/** 1.23E+15, with the sign that people do not type. */
const SHORTENED = /^\d(?:[.,]\d+)?E\+\d+$/iu;

const NONE: Reading<Neighbours> = { ok: true, value: { ids: [], word: null, isDoubled: false } };
