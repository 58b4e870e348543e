import type { Comparison } from "../compare/compare-options.js";
import type { RowOfFigures, RowUnit, Unmarked } from "../compare/rows.js";
import { shiftsDiffer } from "../compare/shift-notes.js";
import { compare, multiply, type Ratio, ratio, toDecimal, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { decimal, percent } from "../time/show-values.js";

/** What stands where a value is missing. */
const NOTHING = "-";

/** One value of the table for people: its text, its difference to the first option, and whether it is the best of its row. */
export interface Cell {
  readonly value: string;
  readonly difference: string;
  readonly isBest: boolean;
}

export interface CellRow {
  readonly label: string;
  readonly cells: readonly Cell[];
}

/** The table for people; rows in which no option has a value are left out, and those of a day where every shift is like the others. */
export function cellRows(comparison: Comparison): CellRow[] {
  return comparison.rows
    .filter((row) => row.values.some((value) => value !== null) && !isAllZero(row))
    .filter(({ key }) => !OF_DAY.includes(key) || comparison.options.some(shiftsDiffer))
    .flatMap((row) => [
      cellRow(comparison, row),
      ...(row.key === "slowestCycle" ? [slowestRow(comparison)] : []),
    ]);
}

/** Rows that say of a day what others say of a shift. */
const OF_DAY: readonly string[] = ["wantedPerDay", "idleHoursPerDay", "outputPerDay"];

/** What the sign of the best value means, and which options have none. */
export function signWords({ options, unmarked }: Comparison): string {
  const names = (why: Unmarked) =>
    options.flatMap(({ asked }, at) => (unmarked[at] === why ? [asked.name] : []));
  const none = (why: Unmarked, one: string, several: string) => {
    const found = names(why);
    if (options.length < 2 || found.length === 0) return "";
    return `; none for ${found.join(", ")}, which ${found.length === 1 ? one : several}`;
  };
  const missed = none("misses its demand", "misses its demand", "miss their demand");
  const other = none("other demand", "is for another demand", "are for another demand");
  return `the best of its row${missed}${other}`;
}

/** Overtime that nobody works is no row. */
const isAllZero = ({ key, values }: RowOfFigures): boolean =>
  key === "overtimeHours" && values.every((value) => value === null || compare(value, ZERO) === 0);

function cellRow({ line }: Comparison, row: RowOfFigures): CellRow {
  const show = showAs(row.unit, line.unit, line.rates?.currency ?? null);
  const cells = row.values.map((value, at) => ({
    value: value === null ? NOTHING : `${row.isAtMost[at] ? "at most " : ""}${show(value)}`,
    difference: differenceText(row, at, show),
    isBest: row.isBest[at]!,
  }));
  return { label: row.label, cells };
}

function slowestRow({ slowest }: Comparison): CellRow {
  const cells = slowest.map((id) => ({ value: id ?? NOTHING, difference: "", isBest: false }));
  return { label: "slowest station", cells };
}

/** How a figure is written for people. */
function showAs(
  unit: RowUnit,
  timeUnit: Comparison["line"]["unit"],
  currency: string | null,
): (value: Ratio) => string {
  switch (unit) {
    case "time":
      return showTimesIn(timeUnit);
    case "share":
      return (value) => percent(value);
    case "hours":
      return (value) => `${decimal(value, 2)} h`;
    case "minutes":
      return (value) => `${decimal(value, 2)} min`;
    case "money":
      return (value) => `${toDecimal(value, 2)}${currency === null ? "" : ` ${currency}`}`;
    default:
      return (value) => decimal(value, 2);
  }
}

/** "=" where nothing differs; shares differ by points of a hundred. */
function differenceText(row: RowOfFigures, at: number, show: (value: Ratio) => string): string {
  const difference = row.differences[at] ?? null;
  if (difference === null) return "";
  if (compare(difference, ZERO) === 0) return "=";
  const sign = compare(difference, ZERO) > 0 ? "+" : "-";
  const size = compare(difference, ZERO) > 0 ? difference : multiply(difference, ratio(-1));
  if (row.unit === "share") return `${sign}${decimal(multiply(size, ratio(100)), 1)} pt`;
  return `${sign}${show(size)}`;
}
