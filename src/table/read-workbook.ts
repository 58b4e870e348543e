import readSheets from "read-excel-file/universal";
import { type Finding, finding } from "../findings/finding.js";
import { nearestWords } from "../findings/nearest.js";
import { quoted } from "../time/quoted.js";
import { type LostCell, lookIntoWorkbook } from "./look-into-workbook.js";
import { nothing, tooLarge } from "./read-csv.js";
import { addressOf, type Cell, type Row, type TableOptions, type TableReading } from "./table.js";

/** A number as the file has it, kept apart from text. */
interface Digits {
  readonly digits: string;
}

/**
 * Reads one sheet of a workbook: the one that is asked for, or the first with anything in it. Numbers, dates and durations are what the
 * file says they are; of a formula the value that was worked out last is read.
 */
export async function readWorkbook(
  file: string,
  bytes: Uint8Array,
  options: TableOptions,
): Promise<TableReading> {
  // A copy with memory of its own, as the library takes all of it.
  const own = new Uint8Array(bytes);
  const looked = await lookIntoWorkbook(own);
  if (!looked.ok) return refuse(file, "workbook", looked.problem);
  let sheets: Awaited<ReturnType<typeof readSheets<Digits>>>;
  try {
    sheets = await readSheets<Digits>(own.buffer, {
      trim: false,
      parseNumber: (digits) => ({ digits }),
    });
  } catch (error) {
    return refuse(file, "workbook", explain(error));
  }
  const torn = sheets.find(({ data }) => (data as unknown) === undefined);
  if (torn !== undefined)
    return refuse(
      file,
      "workbook",
      `the workbook is damaged: the cells of sheet ${quoted(torn.sheet)} are missing; save it anew`,
    );
  const read = sheets.map(({ sheet, data }, at) => ({
    name: sheet,
    lost: looked.lost[at] ?? [],
    rows: data.flatMap((values, at) => toRow(values, at + 1)),
  }));
  const { sheet: wanted } = options;
  const found = read.find(({ name, rows, lost }) =>
    wanted === undefined ? rows.length > 0 || lost.length > 0 : name === wanted,
  );
  if (found === undefined) {
    if (wanted === undefined) return { table: null, findings: [nothing(file)] };
    const names = read.map(({ name }) => name);
    const near = nearestWords(wanted, names) || `; the workbook has ${names.map(quoted).join(", ")}`;
    return refuse(file, "sheet", `no sheet is called ${quoted(wanted)}${near}`);
  }
  const { name, rows, lost } = found;
  const findings = lost.map((cell) => refuseLost(file, cell));
  const fault = tooLarge(file, rows) ?? (rows.length === 0 ? nothing(file) : null);
  if (fault !== null) return { table: null, findings: findings.length > 0 ? findings : [fault] };
  const others = read.filter((each) => each !== found && each.rows.length > 0);
  return {
    table: {
      file,
      understood: {
        kind: "workbook",
        encoding: null,
        delimiter: null,
        sheet: name,
        otherSheets: others.map((each) => each.name),
      },
      rows,
      source: null,
      whereIs: ({ row, column }) => ({ line: row, column, endColumn: column + 1 }),
    },
    findings,
  };
}

const refuse = (file: string, rule: string, message: string): TableReading => ({
  table: null,
  findings: [finding({ rule, severity: "error", message, file })],
});

/** What the library says of a cell that it cannot read, in our words. */
function explain(error: unknown): string {
  const cell = /row (\d+),? col (\d+)/u.exec(error instanceof Error ? error.message : "");
  if (cell === null) return "the workbook is damaged and cannot be read; save it anew, or as CSV";
  const address = addressOf({ row: Number(cell[1]), column: Number(cell[2]) });
  return `${address}: the cell is damaged and cannot be read; save the workbook anew, or as CSV`;
}

type Value = string | boolean | Date | Digits | null;

function toRow(values: readonly unknown[], row: number): Row[] {
  const cells = (values as readonly Value[]).map((value, at) => toCell(value, row, at + 1));
  return cells.every(({ text }) => text.trim() === "") ? [] : [cells];
}

function toCell(value: Value, row: number, column: number): Cell {
  const at = { row, column };
  if (value === null) return { kind: "text", text: "", ...at };
  if (typeof value === "string") return { kind: "text", text: value, ...at };
  if (typeof value === "boolean") return { kind: "yes-no", text: String(value), ...at };
  if (value instanceof Date) return { ...dateOrDuration(value), ...at };
  return { kind: "number", text: plainDigits(value.digits), ...at };
}

/** Spreadsheets show 15 digits that count: calculated values carry 33.2 as 33.199999999999996, and typed ones 0.1 as 0.10000000000000001. */
function plainDigits(digits: string): string {
  const number = Number(digits);
  if (!Number.isFinite(number)) return digits;
  const shown = Number(number.toPrecision(15));
  const shortest = String(shown);
  return shortest.includes("e-") ? shown.toFixed(20).replace(/\.?0+$/u, "") : shortest;
}

/** Day 0 of workbooks; what is kept as a time of day is a part of it. */
const DAY_NOUGHT = Date.UTC(1899, 11, 30);
/** A date of so early a year is none: it is a duration of some days. */
const FIRST_YEAR = 1901;

/** Parts of a day are kept in binary and cut to milliseconds, so that 4:17 may come as 4:16.999. */
function dateOrDuration(date: Date): Pick<Cell, "kind" | "text"> {
  const milliseconds = date.getTime() - DAY_NOUGHT;
  const whole =
    Math.ceil(milliseconds / 1000) * 1000 - milliseconds <= 1
      ? Math.ceil(milliseconds / 1000) * 1000
      : milliseconds;
  if (date.getUTCFullYear() < FIRST_YEAR && whole >= 0) return { kind: "duration", text: clock(whole) };
  const told = new Date(DAY_NOUGHT + whole).toISOString();
  return {
    kind: "date",
    text: told.endsWith("T00:00:00.000Z") ? told.slice(0, 10) : told.slice(0, 19).replace("T", " "),
  };
}

function clock(milliseconds: number): string {
  const two = (number: number) => String(number).padStart(2, "0");
  const [seconds, rest] = [Math.floor(milliseconds / 1000), milliseconds % 1000];
  const parts = [Math.floor(seconds / 3600), two(Math.floor(seconds / 60) % 60), two(seconds % 60)];
  return parts.join(":") + (rest === 0 ? "" : `.${String(rest).padStart(3, "0").replace(/0+$/u, "")}`);
}

function refuseLost(file: string, { row, column, error }: LostCell): Finding {
  const why =
    error === null
      ? "the formula has no value in the file; open it in a spreadsheet and save it again"
      : `the spreadsheet itself shows ${error} here; mend its formula`;
  const place = { line: row, column, endColumn: column + 1 };
  const message = `${addressOf({ row, column })}: ${why}`;
  return finding({ rule: "cell-error", severity: "error", message, file, place });
}
