import type { Comparison } from "../answer/compare/compare-options.js";
import type { Payback } from "../answer/compare/payback.js";
import type { RowOfFigures, RowUnit, Unmarked } from "../answer/compare/rows.js";
import type { Ratio } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { difference, numberShown, shownDifference, signOf, sizeOf } from "../time/show-numbers.js";
import { decimal, money, percent } from "../time/show-values.js";
import { daysShown, savingShown } from "./words/payback-words.js";

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
  /** The figure that the cells show; null where they are of another kind. */
  readonly of: RowOfFigures | null;
  readonly cells: readonly Cell[];
}

/**
 * The table for people; rows in which no option has a value are left out, those of a day where every shift of every option is like the
 * others, and places where they are as many as stations.
 */
export function cellRows(comparison: Comparison): CellRow[] {
  const rows = comparison.rows
    .filter((row) => row.values.some((value) => value !== null) && !isAllZero(comparison, row))
    .filter((row) => !isToldElsewhere(comparison, row))
    .flatMap((row) => [
      cellRow(comparison, row),
      ...(row.key === "slowestCycle" ? [slowestRow(comparison)] : []),
    ]);
  return [...rows, ...paybackRows(comparison)];
}

/** Rows that say of a day what others say of a shift. */
const OF_DAY: readonly string[] = ["wantedPerDay", "idleHoursPerDay", "outputPerDay"];

function isToldElsewhere(
  { rows, options, hasOtherHours }: Comparison,
  { key, values }: RowOfFigures,
): boolean {
  if (OF_DAY.includes(key)) return !hasOtherHours;
  if (key === "wantedPerHour")
    return !hasOtherHours && options.every(({ asked }) => asked.line.calendar !== null);
  const others = key === "places" ? rows.find((row) => row.key === "stations")?.values : undefined;
  return others?.every((other, at) => isSame(other, values[at] ?? null)) ?? false;
}

const isSame = (one: Ratio | null, two: Ratio | null): boolean =>
  one === null || two === null ? one === two : difference(one, two) === 0;

/** The names of the lines that are shown, each once: options of other files may be of other lines. */
export const titleOf = ({ options }: Comparison): string =>
  [...new Set(options.map(({ asked }) => asked.line.name))].join(", ");

/** That the line as its file has it is no column, where only options of it were asked for. */
export function absentWords({ absent }: Comparison): string {
  return absent === null
    ? ""
    : `; "${absent.name}" is not named, so the line of ${absent.file} is not among them`;
}

/**
 * What the sign of the best value means, or that there is none; which options have none, and which rows. "" where nothing stands beside
 * the one option.
 */
export function signWords({ options, facts, rows, ...comparison }: Comparison, sign: string): string {
  if (options.length < 2) return "";
  const names = (why: Unmarked) =>
    options.flatMap(({ asked }, at) => (facts[at]!.unmarked === why ? [asked.name] : []));
  const none = (why: Unmarked, one: string, several: string) => {
    const found = names(why);
    if (found.length === 0) return "";
    return `; none for ${found.join(", ")}, which ${found.length === 1 ? one : several}`;
  };
  const missed = none("misses its demand", "misses its demand", "miss their demand");
  const other = none("other demand", "is for another demand", "are for another demand");
  const has = (why: RowOfFigures["unranked"]) => rows.some(({ unranked }) => unranked === why);
  const shifts = has("other shifts")
    ? "; none by the shift, as the options work different numbers of shifts a day: compare by the day"
    : "";
  const days = has("other days")
    ? "; none by the shift or the day, as the options work different numbers of days"
    : "";
  const currencies = comparison.currencies.map((currency) => currency ?? "one not named");
  const money = has("other currencies")
    ? `; none for the cost, nor a difference, as the currencies differ (${currencies.join(", ")})`
    : "";
  const isAny = rows.some(({ isBest }) => isBest.includes(true));
  const best = isAny ? `${sign} the best of its row` : "no value is marked as the best of its row";
  return `${best}${missed}${other}${shifts}${days}${money}`;
}

/** Overtime that nobody works is no row, and neither is stock where nothing is built at a bench. */
const isAllZero = ({ options }: Comparison, { key, values }: RowOfFigures): boolean =>
  (key === "overtimeHours" || (key === "stock" && options.every(({ benches }) => benches.length === 0))) &&
  values.every((value) => value === null || signOf(value) === 0);

function cellRow({ line, options }: Comparison, row: RowOfFigures): CellRow {
  const cells = row.values.map((value, at) => {
    const show = showAs(row.unit, line.unit, options[at]!.asked.line.rates?.currency ?? null);
    if (row.isUnstated[at]) return { value: "not stated", difference: "", isBest: false };
    return {
      value: value === null ? NOTHING : `${row.isAtMost[at] ? "at most " : ""}${show(value)}`,
      difference: differenceText(row, at, show),
      isBest: row.isBest[at]!,
    };
  });
  return { label: row.label, of: row, cells };
}

function slowestRow({ facts }: Comparison): CellRow {
  const cells = facts.map(({ slowest: id }) => ({ value: id ?? NOTHING, difference: "", isBest: false }));
  return { label: "slowest station", of: null, cells };
}

/** What options cost once and when that is paid back; none where no option has such a cost. */
function paybackRows({ facts }: Comparison): CellRow[] {
  if (facts.every(({ payback }) => payback === null)) return [];
  const rowOf = (label: string, show: (payback: Payback) => string): CellRow => ({
    label,
    of: null,
    cells: facts.map(({ payback }) => ({
      value: payback === null ? NOTHING : show(payback),
      difference: "",
      isBest: false,
    })),
  });
  return [
    rowOf("one-off cost", ({ once, currency }) => money(once, currency)),
    rowOf("saving per working day", (each) =>
      each.outcome === "not stated" ? each.outcome : savingShown(each),
    ),
    rowOf("payback, working days", (each) =>
      each.outcome === "pays back" ? daysShown(each.workingDays) : each.outcome,
    ),
  ];
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
      return (value) => money(value, currency);
    default:
      return (value) => decimal(value, 2);
  }
}

/** "=" where nothing differs, "≈" where it differs by less than is shown; else what one takes from the other as both are shown. */
function differenceText(
  { unit, values, differences }: RowOfFigures,
  at: number,
  show: (value: Ratio) => string,
): string {
  const [first, value, change] = [values[0] ?? null, values[at] ?? null, differences[at] ?? null];
  if (first === null || value === null || change === null) return "";
  if (signOf(change) === 0) return "=";
  const [before, now] = [show(first), show(value)];
  const by = shownDifference(numberShown(now), numberShown(before));
  if (signOf(by) === 0) return "≈";
  const [, ...name] = now.split(" ");
  const number = unit === "money" ? money(sizeOf(by), null) : decimal(sizeOf(by), MOST_DECIMALS);
  return `${signOf(by) > 0 ? "+" : "-"}${[number, ...(unit === "share" ? ["pt"] : name)].join(" ")}`;
}

/** More than any figure is shown with. */
const MOST_DECIMALS = 9;
