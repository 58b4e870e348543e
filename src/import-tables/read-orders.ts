import { addTo } from "../findings/add-to.js";
import { type Finding, hasErrors } from "../findings/finding.js";
import { listOf } from "../findings/list-of.js";
import { nearestNames, nearestWordsAmong } from "../findings/nearest.js";
import { idKey } from "../line/ids.js";
import { addressOf, type Cell, columnLetters, findingAt, type Row, type Table } from "../table/table.js";
import { quoted } from "../time/quoted.js";
import { accept, type Reading, refuse } from "../time/reading.js";
import { isDate, withoutMark } from "./read-neighbours.js";
import { meantByHeading } from "./task-columns.js";

/** A task that orders may name, by its id or by its name. */
export interface NamedTask {
  readonly id: string;
  readonly name: string | null;
}

/** A task of a unit, and the cell that names it. */
export interface Step {
  readonly task: number;
  readonly cell: Cell;
}

/** A unit that was really built. */
export interface BuiltUnit {
  readonly name: string;
  /** In the order in which they were done, each task once. */
  readonly steps: readonly Step[];
  readonly table: Table;
}

/** How a table tells orders: a row a task; the same with a column that names the unit; a column a unit; a row a task with its number in each unit. */
export type OrderLayout = "row a task" | "row a task and unit" | "column a unit" | "numbers by unit";

/** A file of orders, and how it was understood. */
export interface ReadFile {
  readonly file: string;
  readonly layout: OrderLayout;
  readonly units: number;
}

export interface OrdersReading {
  /** Null where an error keeps the table from telling orders. */
  readonly orders: { readonly layout: OrderLayout; readonly units: readonly BuiltUnit[] } | null;
  readonly findings: readonly Finding[];
}

/**
 * Reads the orders in which units were really built, in the four layouts above. A table without headings has a task in every cell, and is
 * read down its columns. Every cell that is no task, and every task that a unit has twice, is an error with its row and column.
 */
export function readOrders(table: Table, tasks: readonly NamedTask[]): OrdersReading {
  const reader = new OrdersReader(table, finderOf(tasks), tasks);
  const orders = reader.read();
  const { findings } = reader;
  return { orders: hasErrors(findings) ? null : orders, findings };
}

type Find = (cell: Cell) => Reading<number>;

/** The task that a cell names: by its id, or else by a name that no other task has. */
function finderOf(tasks: readonly NamedTask[]): Find {
  const ids = new Map(tasks.map(({ id }, task) => [idKey(id), task]));
  const names = new Map<string, number[]>();
  for (const [task, { name }] of tasks.entries()) {
    if (name === null) continue;
    const key = nameKey(name);
    addTo(names, key, task);
  }
  let nearest: ((wanted: string) => string) | null = null;
  return ({ text, kind }) => {
    const typed = withoutMark(text);
    const task = ids.get(idKey(typed));
    if (task !== undefined) return accept(task);
    const named = names.get(nameKey(typed)) ?? [];
    if (named.length === 1) return accept(named[0]!);
    if (named.length > 1) {
      const own = named.map((each) => tasks[each]!.id);
      return refuse(`${quoted(typed)} is the name of ${listOf(own)}; write the id of the one that is meant`);
    }
    if (kind === "date" || kind === "duration" || isDate(typed))
      return refuse(
        `${quoted(typed)} looks like a date that a spreadsheet made out of an id; format the column as text and type it again`,
      );
    nearest ??= nearestWordsAmong(tasks.flatMap(({ id, name }) => [id, ...(name === null ? [] : [name])]));
    return refuse(
      `no task is called ${quoted(typed)}${nearest(typed) || "; the id or the name of a task is expected"}`,
    );
  };
}

const nameKey = (text: string): string => idKey(text).replace(/\s+/gu, " ").toLowerCase();

const UNIT =
  /^(?:built )?(?:unit|serial|vehicle|product|order)(?: (?:id|no|nr|number|code))?$|^(?:sn|s\/n)$/u;
const PLACE = /^(?:sequence|seq|position|pos|rank|order|turn)(?: (?:no|nr|number))?$|^done as$/u;
const WHOLE = /^\d{1,7}$/u;

/** What a column tells. */
interface Column {
  readonly at: number;
  readonly heading: Cell;
  readonly cells: readonly Cell[];
  readonly meant: ReturnType<typeof meantByHeading>;
  readonly isUnit: boolean;
  /** Headed as the place of a task in the order, or as a number and filled with such. */
  readonly isPlace: boolean;
  readonly isNumbers: boolean;
  /** Cells that name a task. */
  readonly named: number;
}

class OrdersReader {
  readonly findings: Finding[] = [];

  constructor(
    readonly table: Table,
    readonly find: Find,
    readonly tasks: readonly NamedTask[],
  ) {}

  read(): OrdersReading["orders"] {
    const { rows } = this.table;
    const used = usedColumns(rows);
    const hasHeadings = this.#hasHeadings(used);
    const turned = this.#unitInRow(used, hasHeadings ? rows.slice(1) : rows);
    if (turned !== null) {
      const message = `the table has a row for each unit, as that of ${quoted(turned.text.trim())} shows; a column for each unit is read: turn rows into columns, as "paste special, transposed" of spreadsheets does, with one task in each cell`;
      this.#refuse("row-a-unit", turned, message);
      return null;
    }
    if (!hasHeadings) {
      const whole = baseName(this.table.file);
      const units = used.map((at) =>
        this.#unit(
          used.length === 1 ? whole : `${whole}, column ${columnLetters(at + 1)}`,
          cellsOf(rows, at),
        ),
      );
      return { layout: used.length === 1 ? "row a task" : "column a unit", units };
    }
    const [headings, ...body] = rows as [Row, ...Row[]];
    const columns = used.map((at) => this.#column(at, headings, cellsOf(body, at)));
    for (const { heading } of columns)
      if (heading.text.trim() === "")
        this.#refuse("headings", heading, "the column has no heading; a heading says which unit it is");
    if (body.length === 0) this.#refuse("no-tasks", headings[0]!, "no task stands below the headings");
    if (hasErrors(this.findings)) return null;
    const ofTasks = columns.filter(({ meant, isPlace }) => !isPlace && isOfTasks(meant));
    // Ids and names may stand side by side: the column is read that names the most tasks.
    const [task] = ofTasks.toSorted((one, two) => two.named - one.named);
    if (task === undefined) return this.#readColumns(columns);
    const rest = columns.filter((each) => !ofTasks.includes(each) && !each.isUnit && !each.isPlace);
    const unit = columns.find((each) => each.isUnit);
    const place = columns.find((each) => each.isPlace);
    const numbered = rest.filter(({ meant, isNumbers }) => meant === null && isNumbers);
    const isNumbered = unit === undefined && place === undefined && numbered.length > 0;
    const neighbours = rest.find(({ meant }) => meant === "after");
    if (neighbours !== undefined && unit === undefined && place === undefined && !isNumbered) {
      this.#refuseTasks(neighbours);
      return null;
    }
    for (const each of rest) if (!isNumbered || !numbered.includes(each)) this.#leaveOut(each);
    if (isNumbered) return this.#readNumbers(task, numbered, body);
    const units = this.#readRows(task, unit, place, body);
    return { layout: unit === undefined ? "row a task" : "row a task and unit", units };
  }

  /** Headings name no task. A single column has some only where they say what it holds: a slip in the first task is not taken for one. */
  #hasHeadings(used: readonly number[]): boolean {
    const cells = used.map((at) => this.table.rows[0]![at]).filter((cell) => cell !== undefined);
    const written = cells.filter(({ text }) => text.trim() !== "");
    if (written.some((cell) => this.find(cell).ok)) return false;
    if (used.length > 1) {
      const near = written.flatMap((cell) => {
        const [task] = nearestNames(
          cell.text,
          this.tasks.map(({ id }) => id),
        );
        return task === undefined || isOfTasks(meantByHeading(cell)) ? [] : [{ cell, task }];
      });
      const [first] = near;
      if (first !== undefined && near.length === written.length) {
        const message = `this row is taken for headings, each a unit; if ${quoted(first.cell.text.trim())} is a slip for ${first.task}, mend it`;
        this.#warn("headings", first.cell, message);
      }
      return true;
    }
    const [cell] = written;
    return cell !== undefined && (isOfTasks(meantByHeading(cell)) || isUnitHeading(cell));
  }

  /**
   * The first cell of a table that has a row a unit: what heads the rows is no task and several tasks follow it, in one cell or more; or the rows
   * all have the same tasks, which some column has twice. Null for any other table.
   */
  #unitInRow([front, ...behind]: readonly number[], body: readonly Row[]): Cell | null {
    if (front === undefined || body.length === 0) return null;
    const heads = body.flatMap((row) => row[front] ?? []).filter(({ text }) => !isNothing(text));
    const [first] = heads;
    if (first === undefined) return null;
    const tasksAt = (row: Row, columns: readonly number[]) => columns.flatMap((at) => this.#tasksIn(row[at]));
    if (!heads.some((cell) => WHOLE.test(cell.text.trim()) || this.#tasksIn(cell).length > 0)) {
      const isUnit = (row: Row) => new Set(tasksAt(row, behind)).size > 1;
      return body.filter(isUnit).length * 2 > body.length && body.every((row) => isOnce(tasksAt(row, behind)))
        ? first
        : null;
    }
    const rows = body.map((row) => tasksAt(row, [front, ...behind]));
    const isSame = rows.every((tasks) => isOnce(tasks) && hasSame(tasks, rows[0]!));
    const isTwice = [front, ...behind].some((at) => !isOnce(body.flatMap((row) => this.#tasksIn(row[at]))));
    return rows[0]!.length > 1 && isSame && isTwice ? first : null;
  }

  /** The tasks that a cell names, one or several. */
  #tasksIn(cell: Cell | undefined): number[] {
    if (cell === undefined || isNothing(cell.text)) return [];
    const whole = this.find(cell);
    if (whole.ok) return [whole.value];
    for (const sign of [/[;,|>\u2192]+/u, /\s+/u]) {
      const parts = cell.text.trim().split(sign);
      const found = parts.map((text) => this.find({ ...cell, text }));
      if (parts.length > 1 && found.every((each) => each.ok)) return found.map((each) => each.value);
    }
    return [];
  }

  #column(at: number, headings: Row, cells: readonly Cell[]): Column {
    const heading = headings[at] ?? { ...headings[0]!, text: "", column: at + 1 };
    const meant = meantByHeading(heading);
    const named = cells.filter((cell) => this.find(cell).ok).length;
    const isNumbers = cells.every(({ text }) => WHOLE.test(text.trim()) || isNothing(text));
    const isPlace =
      isNumbers && named === 0 && (PLACE.test(heading.text.trim().toLowerCase()) || isOfTasks(meant));
    return {
      at,
      heading,
      cells,
      meant,
      named,
      isNumbers,
      isPlace,
      isUnit: !isPlace && isUnitHeading(heading),
    };
  }

  #readColumns(columns: readonly Column[]): OrdersReading["orders"] {
    const names = new Map<string, Cell>();
    const units: BuiltUnit[] = [];
    for (const column of columns) {
      if (column.isPlace) {
        this.#leaveOut(column);
        continue;
      }
      units.push(this.#unit(this.#nameOf(column.heading, names), column.cells));
    }
    return { layout: "column a unit", units };
  }

  /** The name of a unit in a heading; no two have the same. */
  #nameOf(heading: Cell, names: Map<string, Cell>): string {
    const name = heading.text.trim();
    const before = names.get(idKey(name));
    if (before !== undefined)
      this.#refuse(
        "headings",
        heading,
        `${quoted(name)} heads ${addressOf(before)} as well; give each unit a name of its own`,
      );
    names.set(idKey(name), heading);
    return name;
  }

  /** A row a task and a number for each unit: its place in the order. */
  #readNumbers(task: Column, numbered: readonly Column[], body: readonly Row[]): OrdersReading["orders"] {
    const names = new Map<string, Cell>();
    const units = numbered.map(({ at, heading }) => {
      const cells = body.flatMap((row) => {
        const [place, cell] = [row[at], row[task.at]];
        return place === undefined || cell === undefined || isNothing(place.text) ? [] : [{ place, cell }];
      });
      return this.#unit(this.#nameOf(heading, names), this.#inPlace(cells));
    });
    return { layout: "numbers by unit", units };
  }

  #readRows(
    task: Column,
    unit: Column | undefined,
    place: Column | undefined,
    body: readonly Row[],
  ): BuiltUnit[] {
    const groups = new Map<
      string,
      { readonly name: string; readonly cells: { cell: Cell; place: Cell }[] }
    >();
    for (const row of body) {
      const first = row.find(({ text }) => text.trim() !== "")!;
      const cell = row[task.at];
      if (cell === undefined || isNothing(cell.text)) {
        this.#refuse("no-task", cell ?? first, "the task is missing in this row");
        continue;
      }
      const name = unit === undefined ? baseName(this.table.file) : (row[unit.at]?.text.trim() ?? "");
      if (name === "")
        this.#refuse(
          "unit",
          cell,
          "the unit is missing in this row; where cells are merged, write it in every row",
        );
      const key = idKey(name);
      if (!groups.has(key)) groups.set(key, { name, cells: [] });
      groups.get(key)!.cells.push({ cell, place: (place && row[place.at]) ?? cell });
    }
    return [...groups.values()].map(({ name, cells }) =>
      this.#unit(name, place === undefined ? cells.map(({ cell }) => cell) : this.#inPlace(cells)),
    );
  }

  /** The cells in the order of their numbers, each of which stands once. */
  #inPlace(cells: readonly { readonly cell: Cell; readonly place: Cell }[]): Cell[] {
    const taken = new Map<number, Cell>();
    for (const { place } of cells) {
      const text = place.text.trim();
      if (!WHOLE.test(text)) {
        this.#refuse("place", place, `${quoted(text)} is no place in an order; a whole number is expected`);
        continue;
      }
      const before = taken.get(Number(text));
      if (before !== undefined)
        this.#refuse(
          "place",
          place,
          `the number ${text} stands in ${addressOf(before)} as well; each place in an order is taken once`,
        );
      else taken.set(Number(text), place);
    }
    return cells
      .toSorted((one, two) => Number(one.place.text) - Number(two.place.text))
      .map(({ cell }) => cell);
  }

  #unit(name: string, cells: readonly Cell[]): BuiltUnit {
    const steps = new Map<number, Cell>();
    const written = cells.filter(({ text }) => !isNothing(text));
    const [first] = written;
    if (first !== undefined && written.length > 1 && written.every((cell) => !this.find(cell).ok)) {
      const message = `${quoted(name)}: none of ${written.length} cells names a task, beginning with ${quoted(first.text.trim())}; the id or the name of a task is expected in each`;
      this.#refuse("unknown-task", first, message);
      return { name, steps: [], table: this.table };
    }
    for (const cell of written) {
      const found = this.find(cell);
      if (!found.ok) {
        this.#refuse("unknown-task", cell, found.problem);
        continue;
      }
      const before = steps.get(found.value);
      if (before !== undefined)
        this.#refuse(
          "task-twice",
          cell,
          `${name}: ${this.tasks[found.value]!.id} is done in ${addressOf(before)} already; leave the one out that does not count`,
        );
      else steps.set(found.value, cell);
    }
    return { name, steps: [...steps].map(([task, cell]) => ({ task, cell })), table: this.table };
  }

  /** The rows of a table of tasks stand in any order: read as that of a unit, they would make precedences that nobody has seen. */
  #refuseTasks({ heading }: Column): void {
    const message = `the column ${quoted(heading.text.trim())} tells what comes before each task, and no column tells of a unit: the table seems to hold tasks, not the order in which a unit was built; try: linepoise import ${this.table.file}`;
    this.#refuse("headings", heading, message);
  }

  #leaveOut({ heading }: Column): void {
    this.#warn("column-not-read", heading, `the column ${quoted(heading.text.trim())} is not read`);
  }

  #warn(rule: string, cell: Cell, message: string): void {
    this.findings.push(findingAt(this.table, cell, { rule, severity: "warning", message }));
  }

  #refuse(rule: string, cell: Cell, message: string): void {
    this.findings.push(findingAt(this.table, cell, { rule, severity: "error", message }));
  }
}

const isOnce = (tasks: readonly number[]): boolean => new Set(tasks).size === tasks.length;

const hasSame = (one: readonly number[], other: readonly number[]): boolean =>
  one.length === other.length && new Set([...one, ...other]).size === one.length;

const isOfTasks = (meant: Column["meant"]): boolean => meant === "id" || meant === "work" || meant === "name";

const isUnitHeading = ({ text }: Cell): boolean =>
  UNIT.test(
    text
      .trim()
      .toLowerCase()
      .replace(/[._:-]+/gu, " "),
  );

/** Whether the first row of a table heads units and the tasks done on them. */
export const holdsOrders = ([headings = []]: readonly Row[]): boolean =>
  headings.some(isUnitHeading) && headings.some((cell) => isOfTasks(meantByHeading(cell)));

const isNothing = (text: string): boolean => /^[-\u2010-\u2015\u2212]*$/u.test(text.trim());

/** Columns, from 0, in which something is written. */
function usedColumns(rows: readonly Row[]): number[] {
  const used = new Set<number>();
  for (const row of rows) for (const { text, column } of row) if (text.trim() !== "") used.add(column - 1);
  return [...used].sort((one, two) => one - two);
}

const cellsOf = (rows: readonly Row[], at: number): Cell[] => rows.flatMap((row) => row[at] ?? []);

/** The file's name without its folders and endings. */
const baseName = (file: string): string => {
  const last = file.split(/[/\\]/u).at(-1)!;
  return last.replace(/(?:\.order)?\.[a-z]{1,5}$/iu, "") || last;
};
