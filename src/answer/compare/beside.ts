import { compare, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import type { RowKey, RowOfFigures } from "./rows.js";

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
