import { readDuration } from "./duration.js";
import {
  add,
  ceiling,
  compare,
  divide,
  floor,
  multiply,
  ONE,
  type Ratio,
  ratio,
  subtract,
  toDecimal,
  ZERO,
} from "./ratio.js";
import { decimal, showApart } from "./show-values.js";
import { MICROS_IN, type Micros, type TimeUnit } from "./units.js";

/** Decimals that show about a thousandth of a second, or the unit's own habit where that is coarser. */
const DECIMALS: Readonly<Record<TimeUnit, number>> = { s: 3, min: 4, h: 6, cmin: 2, tmu: 1 };

/** Fewer decimals, for columns of figures that are compared and not added up. */
const FEW_DECIMALS: Readonly<Record<TimeUnit, number>> = { s: 1, min: 3, h: 5, cmin: 1, tmu: 0 };

/** Writes a time in microseconds for people, with its unit. */
export type ShowTime = (value: Ratio | Micros) => string;

/** Shows times in the unit the engineer works in; seconds where the file names none. */
export function showTimesIn(unit: TimeUnit | null, decimals = DECIMALS): ShowTime {
  const shown = unit ?? "s";
  return (value) => {
    const exact = typeof value === "number" ? ratio(value) : value;
    return `${decimal(multiply(exact, ratio(1, MICROS_IN[shown])), decimals[shown])} ${shown}`;
  };
}

/** Times that one sentence compares, with as many decimals as tell those apart that differ. */
export function showTimesApart(unit: TimeUnit | null, ...values: readonly (Ratio | Micros)[]): string[] {
  const shown = unit ?? "s";
  const exact = values.map((value) => (typeof value === "number" ? ratio(value) : value));
  const show = (value: Ratio, decimals: number) =>
    showTimesIn(unit, { ...DECIMALS, [shown]: decimals })(value);
  return showApart(exact, show, { fewest: DECIMALS[shown], step: 3 });
}

/** A sum as it is shown: its terms, its total, and the times that the total is compared with. */
export interface ShownSum {
  readonly terms: readonly string[];
  readonly total: string;
  readonly beside: readonly string[];
}

/**
 * A sum with as many decimals as make it come out when what is shown is added up, and as tell the total from what it is compared with.
 * Thirds of a second come out with no number of decimals: the total then says that it is rounded.
 */
export function showSumIn(
  unit: TimeUnit | null,
  terms: readonly Ratio[],
  ...beside: readonly Ratio[]
): ShownSum {
  const shown = unit ?? "s";
  const total = terms.reduce(add, ZERO);
  const [first = "", ...others] = showTimesApart(unit, total, ...beside);
  const fewest = Math.max(DECIMALS[shown], ...[first, ...others].map(decimalsOf));
  const comesOut = [fewest, fewest + 3].find((decimals) => {
    const whole = (value: Ratio) =>
      toDecimal(multiply(value, ratio(1, MICROS_IN[shown])), decimals).replace(".", "");
    return terms.reduce((sum, term) => sum + BigInt(whole(term)), 0n) === BigInt(whole(total));
  });
  const show = showTimesIn(unit, { ...DECIMALS, [shown]: comesOut ?? fewest });
  const rounded = comesOut === undefined ? " (rounded)" : "";
  return { terms: terms.map(show), total: `${show(total)}${rounded}`, beside: beside.map(show) };
}

const decimalsOf = (shown: string): number => /\.\d+/u.exec(shown)?.[0].slice(1).length ?? 0;

/** A product of times as it is shown: a time x a factor / a divisor = the total. */
export interface ShownProduct {
  readonly of: Ratio | Micros;
  readonly by?: Ratio;
  readonly total: Ratio;
}

/**
 * A factor with as many decimals, from `fewest` on, as make the product come out with the times as they are shown. Where none do, as the
 * time itself is rounded, the factor says that it is, too.
 */
export function factorShown(
  factor: Ratio,
  { of, by = ONE, total }: ShownProduct,
  show: ShowTime,
  fewest: number,
): string {
  const time = readShown(show(of));
  const comesOut = (decimals: number) =>
    time.ok && show(divide(multiply(ratio(time.value), rounded(factor, decimals)), by)) === show(total);
  const decimals = Array.from({ length: MOST_MORE }, (_, more) => fewest + more).find(comesOut);
  return decimals === undefined ? `${decimal(factor, fewest)} (rounded)` : decimal(factor, decimals);
}

const MOST_MORE = 8;

/** A time as people see it, its commas left out. */
const readShown = (shown: string) => readDuration(shown.replaceAll(",", ""), null);

const rounded = (value: Ratio, decimals: number): Ratio =>
  ratio(BigInt(toDecimal(value, decimals).replace(".", "")), 10n ** BigInt(decimals));

/** Whether what is shown of a time is all of it. */
export function isShownExactly(value: Ratio, show: ShowTime): boolean {
  const seen = readShown(show(value));
  return seen.ok && compare(ratio(seen.value), value) === 0;
}

/** What is shown of one time less what is shown of another: people subtract what they see. */
export function differenceShown(one: Ratio, other: Ratio, show: ShowTime): string {
  const [from, take] = [one, other].map((each) => readShown(show(each)));
  return show(from!.ok && take!.ok ? from!.value - take!.value : subtract(one, other));
}

/** Rounded down, for what may be added to a time: what is shown is never too much. */
export const showTimesDownIn = (unit: TimeUnit | null): ShowTime => showSteps(unit, DECIMALS, floor);

/** Rounded up to fewer decimals, for what must be saved: what is shown is never too little. */
export const showTimesUpIn = (unit: TimeUnit | null): ShowTime => showSteps(unit, FEW_DECIMALS, ceiling);

function showSteps(
  unit: TimeUnit | null,
  decimals: typeof DECIMALS,
  whole: (value: Ratio) => bigint,
): ShowTime {
  const [shown, scale] = [unit ?? "s", 10n ** BigInt(decimals[unit ?? "s"])];
  return (value) => {
    const exact = typeof value === "number" ? ratio(value) : value;
    const steps = whole(multiply(exact, ratio(scale, MICROS_IN[shown])));
    return `${decimal(ratio(steps, scale), decimals[shown])} ${shown}`;
  };
}

/** Rounded to fewer decimals. */
export const showTimesRoughlyIn = (unit: TimeUnit | null): ShowTime => showTimesIn(unit, FEW_DECIMALS);
