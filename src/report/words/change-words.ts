import type { Cost, Gain } from "../../answer/compare/gains-and-costs.js";
import type { DaysBeside } from "../../answer/compare/terms.js";
import type { Change } from "../../answer/compare/verdict.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import type { Ratio } from "../../time/ratio.js";
import { numberShown, shownDifference, sizeOf } from "../../time/show-numbers.js";
import { decimal, longTimeOfHours, money } from "../../time/show-values.js";
import { onceWords } from "./payback-words.js";

/** What an option gains over the first: "takes 2 stations off the line". */
export function gainWords(gain: Gain): string {
  switch (gain.kind) {
    case "people-of-shift":
      return freesWords(gain);
    case "people-of-day":
      return `frees ${peopleWords(gain.by)} over the day, leaving ${decimal(gain.now, 0)}`;
    case "nobody":
      return gain.over === "day" ? "frees nobody over the day" : "frees nobody";
    case "stations":
      return `takes ${counted(gain.by, "station")} off the line${placesWords(gain)}`;
    case "places":
      return `takes ${counted(gain.by, "place")} off the line`;
    case "benchPlaces":
      return `gives back ${counted(gain.by, "bench place")}`;
    case "stocks":
      return `needs ${stocksWords(gain.by)} less${gain.units === null ? "" : ` (${counted(gain.units, "unit")})`}`;
    case "stock":
      return `needs ${counted(gain.by, "unit")} less in stock`;
    case "overtimeHours":
      return `gives back ${longTimeOfHours(gain.by)} of overtime a day`;
    case "costPerUnit":
      return `takes ${moneyBetween(gain)} off the cost per unit (${money(gain.now, gain.currency)})`;
  }
}

/** By how much two costs differ as they are shown. */
const moneyBetween = ({ before, now, currency }: Extract<Gain, { readonly kind: "costPerUnit" }>): string => {
  const [was, is] = [before, now].map((each) => numberShown(money(each, null)));
  return money(sizeOf(shownDifference(is!, was!)), currency);
};

/** How a shift needs fewer people, and how the day takes that. */
function freesWords({ by, before, now, overDay, ofDay }: Extract<Gain, { kind: "people-of-shift" }>): string {
  const [frees, leaving] = [
    `frees ${decimal(by, 0)} of ${peopleWords(before)}`,
    `leaving ${decimal(now, 0)}`,
  ];
  switch (overDay ?? "fewer") {
    case "fewer":
      return ofDay === null
        ? `${frees}, ${leaving}`
        : `${frees} in the busiest shift, ${leaving}, and ${decimal(ofDay.by, 0)} over the day, leaving ${decimal(ofDay.now, 0)}`;
    case "more":
      return `${frees} in a shift, ${leaving}`;
    case "as many":
      return `${frees} in the busiest shift, ${leaving}, but nobody over the day`;
  }
}

/** What an option needs more of than the first: "2 more stations". */
export function costWords(cost: Cost): string {
  switch (cost.kind) {
    case "shifts":
      return `${countOf(cost.by, "more shift")} a day`;
    case "days": {
      const { what, period } = daysOf(cost);
      return `${countWords(cost.by, `more ${what}`)} a ${period}`;
    }
    case "people-of-shift":
      return `${peopleWords(cost.by)} more${cost.within === null ? "" : WITHIN[cost.within]} (${decimal(cost.now, 0)})`;
    case "people-of-day":
      return `${peopleWords(cost.by)} more over the day (${decimal(cost.now, 0)})`;
    case "stations":
      return `${counted(cost.by, "more station")}${placesWords(cost)}`;
    case "places":
      return `${counted(cost.by, "more place")} on the line`;
    case "benchPlaces":
      return counted(cost.by, "bench place");
    case "stocks":
      return cost.areFirst
        ? `${stocksWords(cost.by)}${cost.units === null ? "" : ` of ${counted(cost.units, "unit")}`}`
        : cost.by === 1
          ? "one more buffer stock"
          : `${cost.by} more buffer stocks`;
    case "stock":
      return `${counted(cost.by, "unit")} more in stock`;
    case "overtimeHours":
      return `${longTimeOfHours(cost.by)} of overtime a day`;
    case "costPerUnit":
      return `${moneyBetween(cost)} more per unit (${money(cost.now, cost.currency)})`;
    case "once":
      return onceWords(cost.payback);
    case "moves":
      return `${cost.outcome === "found" ? "at most " : ""}${counted(cost.by, "move")} from today's plan`;
  }
}

const WITHIN = { "busiest shift": " in the busiest shift", shift: " in a shift" };

/** What differs, beside as it was: "8 stations instead of 9". */
export function changeWords(change: Change): string {
  const instead = (words: string, bare: string) => `${words} instead of ${bare}`;
  switch (change.kind) {
    case "peoplePerShift":
      return instead(peopleWords(change.now), decimal(change.before, 0));
    case "peoplePerDay":
      return instead(`${peopleWords(change.now)} a day`, decimal(change.before, 0));
    case "stations":
      return instead(counted(change.now, "station"), decimal(change.before, 0));
    case "benchPlaces":
      return instead(counted(change.now, "bench place"), decimal(change.before, 0));
    case "stock":
      return instead(`${counted(change.now, "unit")} in stock`, decimal(change.before, 0));
    case "overtimeHours":
      return instead(`${longTimeOfHours(change.now)} of overtime a day`, longTimeOfHours(change.before));
    case "costPerUnit":
      return instead(`${money(change.now, change.currency)} a unit`, money(change.before, change.currency));
    case "once":
      return `${money(change.payback.once, change.payback.currency)} once`;
    case "moves":
      return costWords(change);
  }
}

/** A count in a calendar in words: "days-per-week" are days of a week. */
export function daysOf({ count }: Pick<DaysBeside, "count">): {
  readonly what: string;
  readonly period: string;
} {
  return DAYS[count];
}

const DAYS = {
  "days-per-week": { what: "day", period: "week" },
  "days-per-month": { what: "day", period: "month" },
  "days-per-year": { what: "day", period: "year" },
  "weeks-per-year": { what: "week", period: "year" },
} as const;

/** A number that may have a fraction, such as 21.67 days. */
export const countWords = (amount: Ratio, what: string): string =>
  `${decimal(amount, 2)} ${what}${decimal(amount, 2) === "1" ? "" : "s"}`;

/** People of a figure: "1 person", "12 people". */
export const peopleWords = (amount: Ratio): string => countPeople(whole(amount));

const whole = (amount: Ratio): number => Number(decimal(amount, 0));
const counted = (amount: Ratio, what: string): string => countOf(whole(amount), what);
const stocksWords = (stocks: number): string =>
  stocks === 1 ? "one buffer stock" : `${stocks} buffer stocks`;

/** What is left, where parallel places make it more than its stations. */
function placesWords({ now, places }: Extract<Gain, { kind: "stations" }>): string {
  return whole(places) > whole(now) ? ` (${whole(now)} with ${whole(places)} places)` : "";
}
