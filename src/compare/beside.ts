import { compare, type Ratio, subtract, toDecimal, ZERO } from "../time/ratio.js";
import { decimal } from "../time/show-values.js";
import type { OptionAnswer } from "./option-answer.js";
import type { RowOfFigures } from "./rows.js";

/** The figures of one option beside those of the first, by the key of the row. */
export interface Beside {
  readonly value: (key: string) => Ratio | null;
  readonly first: (key: string) => Ratio | null;
  readonly change: (key: string) => Ratio | null;
  /** An amount in the currency of the option's rates. */
  readonly money: (amount: Ratio) => string;
}

export function besideOf({ asked }: OptionAnswer, rows: readonly RowOfFigures[], at: number): Beside {
  const currency = asked.line.rates?.currency ?? null;
  const row = new Map(rows.map((each) => [each.key, each]));
  return {
    value: (key) => row.get(key)?.values[at] ?? null,
    first: (key) => row.get(key)?.values[0] ?? null,
    change: (key) => row.get(key)?.differences[at] ?? null,
    money: (amount) => `${toDecimal(amount, 2)}${currency === null ? "" : ` ${currency}`}`,
  };
}

export const whole = (amount: Ratio): number => Number(decimal(amount, 0));
export const minus = (amount: Ratio): Ratio => subtract(ZERO, amount);
export const isAbove = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) > 0;
export const isBelow = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) < 0;
export const isOther = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) !== 0;

export const peopleWords = (amount: Ratio): string =>
  whole(amount) === 1 ? "1 person" : `${whole(amount)} people`;

export function listOf(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
