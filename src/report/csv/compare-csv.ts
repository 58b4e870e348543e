import type { Comparison } from "../../compare/compare-options.js";
import type { RowOfFigures } from "../../compare/rows.js";
import { type Ratio, toNumber } from "../../time/ratio.js";
import { plainValue } from "../json/compare-json.js";
import { type CsvCell, csvText } from "./csv.js";

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

/** One row a figure; for each option its value, its difference to the first, and "best" where it is that. */
export function compareCsv({ line, options, rows }: Comparison): string {
  const text = (words: string): CsvCell => ({ text: words });
  const heads = options.flatMap(({ asked }, at) => [
    text(asked.name),
    ...(at === 0 ? [] : [text(`${asked.name}: difference`)]),
    text(`${asked.name}: best`),
  ]);
  const body = rows.map((row) => [
    text(row.label),
    text(row.unit === "money" ? (line.rates?.currency ?? "") : UNITS[row.unit]),
    ...options.flatMap((_, at) => [
      numberCell(row, row.values[at] ?? null),
      ...(at === 0 ? [] : [numberCell(row, row.differences[at] ?? null)]),
      markOf(row, at),
    ]),
  ]);
  return csvText([[text("figure"), text("unit"), ...heads], ...body]);
}

/** Numbers stay plain: that a value may be lower is told beside it. */
function markOf({ isBest, isAtMost }: RowOfFigures, at: number): CsvCell {
  const words = [...(isBest[at] ? ["best"] : []), ...(isAtMost[at] ? ["at most"] : [])];
  return words.length === 0 ? null : { text: words.join(", ") };
}

function numberCell(row: RowOfFigures, value: Ratio | null): CsvCell {
  return value === null ? null : { number: String(toNumber(plainValue(row, value))) };
}
