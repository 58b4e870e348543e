import type { Comparison } from "../../answer/compare/compare-options.js";
import type { Payback } from "../../answer/compare/payback.js";
import type { RowOfFigures } from "../../answer/compare/rows.js";
import type { Sheet, SheetCell } from "../../table/sheet.js";
import type { Ratio } from "../../time/ratio.js";
import { plainNumber } from "../../time/show-numbers.js";
import { CAUTION, cautionsOfOptions, cautionsOfPlan, cautionWords } from "../cautions.js";
import { plainValue } from "../json/compare-json.js";

/** The unit of a figure in a column of its own, so that the cells are plain numbers. */
const UNITS: Readonly<Record<RowOfFigures["unit"], string>> = {
  people: "people",
  stations: "stations",
  places: "places",
  kits: "kits",
  time: "s",
  share: "fraction",
  hours: "h",
  units: "units",
  minutes: "min",
  money: "",
  moves: "tasks",
};

/**
 * One row a figure; for each option its value, its difference to the first, and "best" where it is that. Money has a row for each
 * currency. A row below them tells what is proved, and the cautions follow.
 */
export function compareSheet({ options, rows, facts, currencies }: Comparison): Sheet {
  const heads = options.flatMap(({ asked }, at) => [
    text(asked.name),
    ...(at === 0 ? [] : [text(`${asked.name}: difference`)]),
    text(`${asked.name}: best`),
  ]);
  const body = rows.flatMap((row) =>
    row.unit === "money" && currencies.length > 0
      ? currencies.map((currency) =>
          bodyRow(row, currency ?? "", (at) => options[at]!.asked.line.rates?.currency === currency),
        )
      : [bodyRow(row, UNITS[row.unit], () => true)],
  );
  const outcomes = options.flatMap(({ outcome }, at) => [text(outcome), ...(at === 0 ? [] : [null]), null]);
  return [
    [text("figure"), text("unit"), ...heads],
    ...body,
    ...paybackRows(facts, currencies),
    [text("outcome"), text(""), ...outcomes],
    ...cautionRows(options),
  ];
}

/** What options cost once and when that is paid back, money in a row for each currency; none where no option has such a cost. */
function paybackRows(facts: Comparison["facts"], currencies: Comparison["currencies"]): SheetCell[][] {
  const all = facts.map(({ payback }) => payback);
  if (all.every((each) => each === null)) return [];
  const row = (
    label: string,
    unit: string,
    show: (payback: Payback) => readonly SheetCell[],
  ): SheetCell[] => [
    text(label),
    text(unit),
    ...all.flatMap((each, at) => {
      const [value = null, mark = null] = each === null ? [] : show(each);
      return [value, ...(at === 0 ? [] : [null]), mark];
    }),
  ];
  const cell = (value: Ratio): SheetCell => ({ number: String(plainNumber(value)) });
  const inMoney = (label: string, of: (payback: Payback) => Ratio | null) =>
    currencies.map((currency) =>
      row(label, currency ?? "", (each) => {
        const amount = each.currency === currency ? of(each) : null;
        return amount === null ? [] : [cell(amount)];
      }),
    );
  return [
    ...inMoney("one-off cost", ({ once }) => once),
    ...inMoney("saving per working day", (each) =>
      each.outcome === "not stated" ? null : each.savingPerDay,
    ),
    row("payback", "working days", (each) =>
      each.outcome === "pays back" ? [cell(each.workingDays)] : [null, text(each.outcome)],
    ),
  ];
}

/** What needs caution, with the station or bench of each option, and what no balance says in the first column. */
function cautionRows(options: Comparison["options"]): SheetCell[][] {
  const row = (label: string, cells: readonly (string | null)[]): SheetCell[] => [
    text(label),
    text(""),
    ...cells.flatMap((cell, at) => [cell === null ? null : text(cell), ...(at === 0 ? [] : [null]), null]),
  ];
  const told = options.map(({ asked, plan }) => cautionsOfPlan(asked.line, plan));
  const ids = [...new Set(cautionsOfOptions(options).map(({ task }) => task.id))];
  const rows = ids.map((id) =>
    row(
      `caution: ${id}`,
      told.map((each) => {
        const found = each.find(({ task }) => task.id === id);
        return found === undefined ? null : cautionWords(found);
      }),
    ),
  );
  return [...rows, row("caution", [CAUTION, ...options.slice(1).map(() => null)])];
}

const text = (words: string): SheetCell => ({ text: words });

/** A row with the values of some of the options, the others left empty. */
function bodyRow(row: RowOfFigures, unit: string, has: (at: number) => boolean): SheetCell[] {
  const isKnown = (at: number) => has(at) && !row.isUnstated[at];
  const cells = row.values.flatMap((value, at) => [
    numberCell(row, isKnown(at) ? value : null),
    ...(at === 0 ? [] : [numberCell(row, isKnown(at) ? (row.differences[at] ?? null) : null)]),
    has(at) ? markOf(row, at) : null,
  ]);
  return [text(row.label), text(unit), ...cells];
}

/** Numbers stay plain: that a value may be lower is told beside it. */
function markOf({ isBest, isAtMost, isUnstated }: RowOfFigures, at: number): SheetCell {
  const words = [
    ...(isBest[at] ? ["best"] : []),
    ...(isAtMost[at] ? ["at most"] : []),
    ...(isUnstated[at] ? ["not stated"] : []),
  ];
  return words.length === 0 ? null : { text: words.join(", ") };
}

function numberCell(row: RowOfFigures, value: Ratio | null): SheetCell {
  return value === null ? null : { number: String(plainNumber(plainValue(row, value))) };
}
