import { add, floor, multiply, type Ratio, ratio, toDecimal, ZERO } from "./ratio.js";
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

/** Rounded down, for what may be added to a time: what is shown is never too much. */
export function showTimesDownIn(unit: TimeUnit | null): ShowTime {
  const [shown, scale] = [unit ?? "s", 10n ** BigInt(DECIMALS[unit ?? "s"])];
  return (value) => {
    const exact = typeof value === "number" ? ratio(value) : value;
    const steps = floor(multiply(exact, ratio(scale, MICROS_IN[shown])));
    return `${decimal(ratio(steps, scale), DECIMALS[shown])} ${shown}`;
  };
}

/** The same with fewer decimals. */
export const showTimesRoughlyIn = (unit: TimeUnit | null): ShowTime => showTimesIn(unit, FEW_DECIMALS);
