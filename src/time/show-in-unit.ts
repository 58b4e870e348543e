import type { Ratio } from "./ratio.js";
import { floor, multiply, ratio } from "./ratio.js";
import { decimal } from "./show-values.js";
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

/** The same rounded down, for what may be added to a time: what is shown is never too much. */
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
