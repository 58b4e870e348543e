import { compare, multiply, type Ratio, ratio, subtract } from "../../time/ratio.js";
import type { OptionAnswer, OptionMoves } from "./option-answer.js";
import { type Payback, paybackOf } from "./payback.js";
import { type Beside, isAbove, isBelow, isOther, minus, type RowKey } from "./rows.js";
import { type DaysBeside, daysBeside, shiftsBeside, shiftsOf } from "./terms.js";

/*
 * What an option gains over the first one and what it costs, both for the same demand. Who works in other hours is counted over the
 * day: fewer people in each of more shifts are nobody's gain.
 */

/** Rows of which an option has less, or more, and nothing else is to be said. */
type PlainKey = Extract<RowKey, "places" | "benchPlaces" | "stock" | "overtimeHours">;

/** How an option differs from the first in one thing; `by` is the size of the difference, above 0. */
type Differs =
  | { readonly kind: PlainKey; readonly by: Ratio }
  | {
      readonly kind: "stations";
      readonly by: Ratio;
      /** What it then has; places are more where some are parallel. */
      readonly now: Ratio;
      readonly places: Ratio;
    }
  | {
      readonly kind: "costPerUnit";
      readonly before: Ratio;
      readonly now: Ratio;
      readonly currency: string | null;
    };

/** What the option does with less of. */
export type Gain =
  | {
      readonly kind: "people-of-shift";
      readonly by: Ratio;
      readonly before: Ratio;
      readonly now: Ratio;
      /** What becomes of the people of a day; null without a calendar. */
      readonly overDay: "fewer" | "as many" | "more" | null;
      /** The people of the day, where they are fewer, and not as many in each shift: a bench works some shifts only. Else null. */
      readonly ofDay: { readonly by: Ratio; readonly now: Ratio } | null;
    }
  | { readonly kind: "people-of-day"; readonly by: Ratio; readonly now: Ratio }
  | { readonly kind: "nobody"; readonly over: "shift" | "day" }
  | {
      readonly kind: "stocks";
      readonly by: number;
      /** Units in stock fewer than before; null where they are not. */
      readonly units: Ratio | null;
    }
  | Differs;

/** What the option needs more of, and the moves to it. */
export type Cost =
  | { readonly kind: "shifts"; readonly by: number }
  | ({ readonly kind: "days"; readonly by: Ratio } & Pick<DaysBeside, "count">)
  | {
      readonly kind: "people-of-shift";
      readonly by: Ratio;
      readonly now: Ratio;
      /** "busiest shift": the day takes no more people, or not as many in each shift; "shift": other shifts are worked. */
      readonly within: "busiest shift" | "shift" | null;
    }
  | { readonly kind: "people-of-day"; readonly by: Ratio; readonly now: Ratio }
  | {
      readonly kind: "stocks";
      readonly by: number;
      /** The first option has none. */
      readonly areFirst: boolean;
      /** Units in stock more than before, where they are those of the first stocks; else null. */
      readonly units: Ratio | null;
    }
  | ({ readonly kind: "moves"; readonly by: Ratio } & Pick<OptionMoves, "outcome">)
  | { readonly kind: "once"; readonly payback: Payback }
  | Differs;

export function gainsOf(first: OptionAnswer, option: OptionAnswer, beside: Beside): Gain[] {
  const { change } = beside;
  const less = (key: RowKey): readonly Ratio[] => (isBelow(change(key)) ? [minus(change(key)!)] : []);
  const plain = (kind: PlainKey): Gain[] => less(kind).map((by) => ({ kind, by }));
  const stocks = stockPoints(first) - stockPoints(option);
  return [
    ...peopleGains(first, option, beside),
    ...less("stations").map((by) => stationsBy(by, beside)),
    ...(isOther(change("stations")) ? [] : plain("places")),
    ...plain("benchPlaces"),
    ...(stocks > 0
      ? [{ kind: "stocks", by: stocks, units: less("stock")[0] ?? null } as const]
      : plain("stock")),
    ...plain("overtimeHours"),
    ...less("costPerUnit").map(() => costOf(option, beside)),
  ];
}

function peopleGains(
  first: OptionAnswer,
  option: OptionAnswer,
  { change, value, first: before }: Beside,
): Gain[] {
  const [perShift, perDay] = [change("peoplePerShift"), change("peoplePerDay")];
  if (perShift === null) return [];
  const isAlike = shiftsBeside(option, first) === 0;
  if (isAlike && isBelow(perShift)) {
    const overDay = perDay === null ? null : isBelow(perDay) ? "fewer" : isOther(perDay) ? "more" : "as many";
    const [was, now] = [before("peoplePerShift")!, value("peoplePerShift")!];
    const isApart = overDay === "fewer" && !isOfEachShift(option, perShift, perDay!);
    const ofDay = isApart ? { by: minus(perDay!), now: value("peoplePerDay")! } : null;
    return [{ kind: "people-of-shift", by: minus(perShift), before: was, now, overDay, ofDay }];
  }
  if (isBelow(perDay)) return [{ kind: "people-of-day", by: minus(perDay!), now: value("peoplePerDay")! }];
  if (!isAlike) return isAbove(perDay) ? [] : [{ kind: "nobody", over: "day" }];
  return isOther(perShift) ? [] : [{ kind: "nobody", over: "shift" }];
}

/** Whether what a day differs by is what each of its shifts differs by. */
const isOfEachShift = (option: OptionAnswer, perShift: Ratio, perDay: Ratio): boolean =>
  compare(perDay, multiply(perShift, ratio(shiftsOf(option)!))) === 0;

export function costsOf(first: OptionAnswer, option: OptionAnswer, beside: Beside): Cost[] {
  const { change } = beside;
  const more = (key: RowKey): readonly Ratio[] => (isAbove(change(key)) ? [change(key)!] : []);
  const plain = (kind: PlainKey): Cost[] => more(kind).map((by) => ({ kind, by }));
  return [
    ...hoursCosts(first, option),
    ...peopleCosts(first, option, beside),
    ...more("stations").map((by) => stationsBy(by, beside)),
    ...(isOther(change("stations")) ? [] : plain("places")),
    ...plain("benchPlaces"),
    ...stockCosts(first, option, more("stock")),
    ...plain("overtimeHours"),
    ...more("costPerUnit").map(() => costOf(option, beside)),
    ...onceOf(first, option),
    ...movesTo(option, beside),
  ];
}

/** What the option costs once, where it does. */
export function onceOf(first: OptionAnswer, option: OptionAnswer): Extract<Cost, { kind: "once" }>[] {
  const payback = paybackOf(first, option);
  return payback === null ? [] : [{ kind: "once", payback }];
}

/** The moves from today's plan, where there are any. */
export function movesTo({ moves }: OptionAnswer, { value }: Beside): Extract<Cost, { kind: "moves" }>[] {
  const count = value("moves");
  return moves === null || !isAbove(count) ? [] : [{ kind: "moves", by: count!, outcome: moves.outcome }];
}

function hoursCosts(first: OptionAnswer, option: OptionAnswer): Cost[] {
  const shifts = shiftsBeside(option, first);
  const days = daysBeside(option, first);
  const moreDays = days === null ? null : subtract(days.now, days.before);
  return [
    ...(shifts > 0 ? [{ kind: "shifts", by: shifts } as const] : []),
    ...(isAbove(moreDays) ? [{ kind: "days", by: moreDays!, count: days!.count } as const] : []),
  ];
}

function peopleCosts(first: OptionAnswer, option: OptionAnswer, { change, value }: Beside): Cost[] {
  const [perShift, perDay] = [change("peoplePerShift"), change("peoplePerDay")];
  const isAlike = shiftsBeside(option, first) === 0;
  const isApart =
    isAlike && isAbove(perShift) && isAbove(perDay) && !isOfEachShift(option, perShift!, perDay!);
  const isBusiest = perDay !== null && (!isAbove(perDay) || isApart);
  const within = isAlike ? (isBusiest ? "busiest shift" : null) : "shift";
  const ofShift: Cost[] = isAbove(perShift)
    ? [{ kind: "people-of-shift", by: perShift!, now: value("peoplePerShift")!, within }]
    : [];
  const isOfDay = isAbove(perDay) && (!isAbove(perShift) || !isAlike || isApart);
  const ofDay: Cost[] = isOfDay ? [{ kind: "people-of-day", by: perDay!, now: value("peoplePerDay")! }] : [];
  return [...ofShift, ...ofDay];
}

function stockCosts(first: OptionAnswer, option: OptionAnswer, units: readonly Ratio[]): Cost[] {
  const by = stockPoints(option) - stockPoints(first);
  const [more = null] = units;
  if (by > 0 && stockPoints(first) === 0) return [{ kind: "stocks", by, areFirst: true, units: more }];
  const inStock = units.map((each): Cost => ({ kind: "stock", by: each }));
  return by > 0 ? [{ kind: "stocks", by, areFirst: false, units: null }, ...inStock] : inStock;
}

/** Where parts lie between benches and line: one for each task that they join at. */
const stockPoints = ({ benches }: OptionAnswer): number =>
  benches.reduce((sum, { joinsAt }) => sum + joinsAt.length, 0);

const stationsBy = (by: Ratio, { value }: Beside) =>
  ({ kind: "stations", by, now: value("stations")!, places: value("places")! }) as const;

const costOf = ({ asked }: OptionAnswer, { value, first }: Beside) =>
  ({
    kind: "costPerUnit",
    before: first("costPerUnit")!,
    now: value("costPerUnit")!,
    currency: asked.line.rates?.currency ?? null,
  }) as const;
