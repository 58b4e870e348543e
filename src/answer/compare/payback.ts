import { compare, divide, multiply, type Ratio, subtract, ZERO } from "../../time/ratio.js";
import { costPerUnit, wantedPerDay } from "./figures.js";
import type { OptionAnswer } from "./option-answer.js";
import { shortfallOf } from "./shortfall.js";
import { currencyOf, demandBeside } from "./terms.js";

/** Why nothing tells what an option saves over the first one. */
export type NoSaving =
  | "it is the first"
  | "no plan"
  | "no rates"
  | "no demand"
  | "other currency"
  | "other demand"
  | "misses its demand"
  | "first costs once too";

/** What an option costs once, and the working days after which its saving has paid for that. */
export type Payback = {
  readonly once: Ratio;
  /** Null where the file names none. */
  readonly currency: string | null;
} & (
  | { readonly outcome: "pays back"; readonly savingPerDay: Ratio; readonly workingDays: Ratio }
  /** A working day costs as much as before, or more; the saving is 0 or less. */
  | { readonly outcome: "never"; readonly savingPerDay: Ratio }
  | { readonly outcome: "not stated"; readonly why: NoSaving }
);

/**
 * Payback in working days of the option = one-off cost / saving per working day, exactly; the saving = (cost per unit of the first -
 * cost per unit of the option) x good units wanted in a working day. Null where the option costs nothing once.
 */
export function paybackOf(first: OptionAnswer, option: OptionAnswer): Payback | null {
  const once = option.asked.option?.once ?? null;
  if (once === null) return null;
  const cost = { once: once.amount, currency: once.currency };
  const [before, now, units] = [costPerUnit(first), costPerUnit(option), wantedPerDay(option)];
  const why = whyNoSaving(first, option);
  if (why !== null || before === null || now === null || units === null)
    return { ...cost, outcome: "not stated", why: why ?? "no demand" };
  const savingPerDay = multiply(subtract(before, now), units);
  if (compare(savingPerDay, ZERO) <= 0) return { ...cost, outcome: "never", savingPerDay };
  return { ...cost, outcome: "pays back", savingPerDay, workingDays: divide(once.amount, savingPerDay) };
}

/** Costs are compared for the same demand, which both meet, in the same money; null where they may be. */
function whyNoSaving(first: OptionAnswer, option: OptionAnswer): NoSaving | null {
  const both = [first, option];
  if (first === option) return "it is the first";
  if (both.some(({ posts }) => posts.length === 0)) return "no plan";
  if (both.some(({ asked }) => asked.line.rates === null)) return "no rates";
  if (currencyOf(first) !== currencyOf(option)) return "other currency";
  if (first.asked.option?.once != null) return "first costs once too";
  if (both.some(({ asked }) => asked.takt === null)) return "no demand";
  if (demandBeside(option, first) !== 0) return "other demand";
  return both.some((each) => shortfallOf(each) !== null) ? "misses its demand" : null;
}
