import { compare, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import * as figures from "./figures.js";
import type { OptionAnswer } from "./option-answer.js";
import { shortfallOf } from "./shortfall.js";
import { currenciesOf, daysBeside, demandBeside, shiftsBeside } from "./terms.js";

/** What a figure is a number of; reports know how each is written. Times are in microseconds. */
export type RowUnit =
  | "people"
  | "stations"
  | "places"
  | "kits"
  | "time"
  | "share"
  | "hours"
  | "units"
  | "minutes"
  | "money"
  | "moves";

/** Stable names of rows for machines. */
export type RowKey =
  | "wantedPerShift"
  | "wantedPerDay"
  | "wantedPerHour"
  | "peoplePerShift"
  | "peoplePerDay"
  | "stations"
  | "places"
  | "benchPlaces"
  | "kits"
  | "lineCycle"
  | "slowestCycle"
  | "efficiencyAtPace"
  | "efficiencyAtSlowest"
  | "idleHoursPerShift"
  | "idleHoursPerDay"
  | "stock"
  | "outputPerShift"
  | "outputPerDay"
  | "overtimeHours"
  | "labourMinutes"
  | "costPerUnit"
  | "moves";

/** One row of a comparison. */
export interface Row {
  readonly key: RowKey;
  readonly label: string;
  readonly unit: RowUnit;
  /** Which value is the best; null where none is. */
  readonly best: "least" | "most" | null;
  /** What its values are counted by, so that they compare only where options have that alike; null where they always do. */
  readonly by: "shift" | "day" | "currency" | null;
  value(answer: OptionAnswer): Ratio | number | null;
}

const row = (
  key: RowKey,
  label: string,
  unit: RowUnit,
  best: Row["best"],
  value: Row["value"],
  by: Row["by"] = null,
): Row => ({ key, label, unit, best, by, value });

/** Every row, in the order of the table. */
export const ROWS: readonly Row[] = [
  row("wantedPerShift", "wanted per shift", "units", null, figures.wantedPerShift),
  row("wantedPerDay", "wanted per day", "units", null, figures.wantedPerDay),
  row("wantedPerHour", "wanted per hour", "units", null, figures.wantedPerHour),
  row("peoplePerShift", "people per shift", "people", "least", figures.peoplePerShift, "shift"),
  row("peoplePerDay", "people per day", "people", "least", figures.peoplePerDay, "day"),
  row("stations", "stations on the line", "stations", "least", figures.stations),
  row("places", "places on the line", "places", "least", figures.places),
  row("benchPlaces", "bench places", "places", "least", figures.benchPlaces),
  row("kits", "tables, a kit each", "kits", null, figures.kits),
  row("lineCycle", "line cycle", "time", null, figures.lineCycle),
  row("slowestCycle", "cycle of the plan", "time", "least", figures.slowestCycle, "shift"),
  row("efficiencyAtPace", "efficiency at the pace", "share", "most", figures.efficiencyAtPace),
  row("efficiencyAtSlowest", "efficiency at slowest", "share", "most", figures.efficiencyAtSlowest),
  row("idleHoursPerShift", "idle person-hours", "hours", "least", figures.idleHours, "shift"),
  row("idleHoursPerDay", "idle hours per day", "hours", "least", figures.idleHoursPerDay, "day"),
  row("stock", "stock, units", "units", "least", figures.stock),
  row("outputPerShift", "output per shift", "units", "most", figures.outputPerShift, "shift"),
  row("outputPerDay", "output per day", "units", "most", figures.outputPerDay, "day"),
  row("overtimeHours", "overtime per day", "hours", "least", figures.overtimeHours, "day"),
  row("labourMinutes", "labour per unit wanted", "minutes", "least", figures.labourMinutes),
  row("costPerUnit", "cost per unit wanted", "money", "least", figures.costPerUnit, "currency"),
  row("moves", "moves from today", "moves", "least", figures.moves),
];

/** A row with what every option has in it, in the order of the options. */
export interface RowOfFigures extends Omit<Row, "value"> {
  readonly values: readonly (Ratio | null)[];
  /** Value - that of the first option; null for the first, and where one of the two is not known. */
  readonly differences: readonly (Ratio | null)[];
  /**
   * Whether it is the best value of the row among options that may be compared; of equal ones all are. None where only one of those
   * has a value.
   */
  readonly isBest: readonly boolean[];
  /** Why no value of the row is the best; null where one may be. */
  readonly unranked: "other shifts" | "other days" | "other currencies" | null;
  /** Whether the value is only the least that was found, so that it may be lower. */
  readonly isAtMost: readonly boolean[];
  /** Whether the file states nothing that the value could come from, so that it is no merit. */
  readonly isUnstated: readonly boolean[];
}

/** Why an option is the best of nothing; null where it may be. */
export type Unmarked = "no plan" | "misses its demand" | "other demand" | null;

/** What the demand misses, or is for another demand than the first, is cheaper for no merit of its own. */
export function unmarkedOf(answers: readonly OptionAnswer[]): Unmarked[] {
  const [first] = answers;
  return answers.map((answer) => {
    if (answer.posts.length === 0) return "no plan";
    if (shortfallOf(answer) !== null) return "misses its demand";
    return demandBeside(answer, first!) === 0 ? null : "other demand";
  });
}

/** Why the values of a row are not ranked, for those that work other hours or pay in other money. */
function unrankedOf(row: Omit<Row, "value">, answers: readonly OptionAnswer[]): RowOfFigures["unranked"] {
  const [first] = answers;
  if (first === undefined || row.best === null || row.by === null) return null;
  if (row.by === "currency") return currenciesOf(answers).length > 1 ? "other currencies" : null;
  if (answers.some((each) => daysBeside(each, first) !== null)) return "other days";
  return row.by === "shift" && answers.some((each) => shiftsBeside(each, first) !== 0)
    ? "other shifts"
    : null;
}

export function rowsOf(answers: readonly OptionAnswer[]): RowOfFigures[] {
  const unmarked = unmarkedOf(answers);
  const compared = answers.filter((_, at) => unmarked[at] === null);
  return ROWS.map(({ value, ...rest }) => {
    // Money of different kinds is no number to take from another, whoever the best may be.
    const unranked = unrankedOf(rest, rest.by === "currency" ? answers : compared);
    const values = answers.map((answer) => exact(value(answer)));
    const [first] = values;
    const known = values.filter((each, at) => each !== null && unmarked[at] === null) as Ratio[];
    const isUnstated = answers.map((answer) => rest.key === "stock" && figures.hasUnstatedStock(answer));
    const isStated = isUnstated.every((each, at) => !each || unmarked[at] !== null);
    const isRanked = rest.best !== null && unranked === null && known.length > 1 && isStated;
    const best = isRanked ? known.reduce((one, two) => better(rest.best, one, two)) : null;
    return {
      ...rest,
      values,
      unranked,
      differences: values.map((each, at) =>
        at === 0 || each === null || !first || unranked === "other currencies" ? null : subtract(each, first),
      ),
      isUnstated,
      isAtMost: answers.map(({ moves }) => rest.key === "moves" && moves?.outcome === "found"),
      isBest: values.map(
        (each, at) => each !== null && unmarked[at] === null && best !== null && compare(each, best) === 0,
      ),
    };
  });
}

const exact = (value: Ratio | number | null): Ratio | null =>
  typeof value === "number" ? ratio(value) : value;

function better(best: Row["best"], one: Ratio, two: Ratio): Ratio {
  return (best === "least") === compare(two, one) < 0 ? two : one;
}

/** The figures of one option beside those of the first, by the key of the row. */
export interface Beside {
  readonly value: (key: RowKey) => Ratio | null;
  readonly first: (key: RowKey) => Ratio | null;
  readonly change: (key: RowKey) => Ratio | null;
}

/** @param at the number of the option */
export function besideOf(rows: readonly RowOfFigures[], at: number): Beside {
  const row = new Map(rows.map((each) => [each.key, each]));
  return {
    value: (key) => row.get(key)?.values[at] ?? null,
    first: (key) => row.get(key)?.values[0] ?? null,
    change: (key) => row.get(key)?.differences[at] ?? null,
  };
}

export const minus = (amount: Ratio): Ratio => subtract(ZERO, amount);
export const isAbove = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) > 0;
export const isBelow = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) < 0;
export const isOther = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) !== 0;
