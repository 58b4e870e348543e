import { countOf } from "../findings/count-of.js";
import { multiply, type Ratio, ratio, subtract } from "../time/ratio.js";
import { decimal, longTime } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import { type Beside, isAbove, isBelow, isOther, minus, peopleWords, whole } from "./beside.js";
import type { OptionAnswer } from "./option-answer.js";
import { countWords, daysBeside, shiftsBeside } from "./terms.js";

/*
 * What an option gains over the first one and what it costs, both for the same demand, in words. Who works in other hours is counted
 * over the day: fewer people in each of more shifts are nobody's gain.
 */

/** What the option does with less of. */
export function gainsOf(first: OptionAnswer, option: OptionAnswer, beside: Beside): string[] {
  return [peopleGain(first, option, beside), ...otherGains(first, option, beside)].filter(
    (each) => each !== "",
  );
}

function peopleGain(first: OptionAnswer, option: OptionAnswer, { change, value, first: before }: Beside) {
  const [perShift, perDay] = [change("peoplePerShift"), change("peoplePerDay")];
  const now = (key: string) => decimal(value(key)!, 0);
  if (perShift === null) return "";
  if (shiftsBeside(option, first) === 0 && isBelow(perShift)) {
    const freed = `frees ${peopleWords(minus(perShift))} of ${decimal(before("peoplePerShift")!, 0)} (${now("peoplePerShift")})`;
    if (perDay === null || isBelow(perDay)) return freed;
    return isOther(perDay) ? `${freed} in a shift` : `${freed} in the busiest shift but nobody over the day`;
  }
  if (isBelow(perDay)) return `frees ${peopleWords(minus(perDay!))} over the day (${now("peoplePerDay")})`;
  if (shiftsBeside(option, first) !== 0) return isAbove(perDay) ? "" : "frees nobody over the day";
  return isOther(perShift) ? "" : "frees nobody";
}

function otherGains(first: OptionAnswer, option: OptionAnswer, { change, value, money }: Beside): string[] {
  const less = (key: string, words: (amount: Ratio) => string): string => {
    const amount = change(key);
    return isBelow(amount) ? words(minus(amount!)) : "";
  };
  const stocks = stockPoints(first) - stockPoints(option);
  const unitsLess = less("stock", (amount) => countOf(whole(amount), "unit"));
  return [
    less(
      "stations",
      (amount) => `takes ${countOf(whole(amount), "station")} off the line${placesWords(value)}`,
    ),
    isOther(change("stations"))
      ? ""
      : less("places", (amount) => `takes ${countOf(whole(amount), "place")} off the line`),
    less("benchPlaces", (amount) => `gives back ${countOf(whole(amount), "bench place")}`),
    stocks > 0 ? `needs ${stocksWords(stocks)} less${unitsLess === "" ? "" : ` (${unitsLess})`}` : "",
    stocks <= 0 && unitsLess !== "" ? `needs ${unitsLess} less in stock` : "",
    less("overtimeHours", (amount) => `gives back ${hours(amount)} of overtime a day`),
    less(
      "costPerUnit",
      (amount) => `takes ${money(amount)} off the cost per unit (${money(value("costPerUnit")!)})`,
    ),
  ];
}

/** What the option needs more of, and the moves to it. */
export function costsOf(first: OptionAnswer, option: OptionAnswer, beside: Beside): string[] {
  const { change, value, money } = beside;
  const more = (key: string, words: (amount: Ratio) => string): string => {
    const amount = change(key);
    return isAbove(amount) ? words(amount!) : "";
  };
  return [
    ...hoursCosts(first, option),
    ...peopleCosts(first, option, beside),
    more("stations", (amount) => `${countMore(amount, "station")}${placesWords(value)}`),
    isOther(change("stations"))
      ? ""
      : more("places", (amount) => `${countMore(amount, "place")} on the line`),
    more("benchPlaces", (amount) => countOf(whole(amount), "bench place")),
    ...stockCosts(first, option, beside),
    more("overtimeHours", (amount) => `${hours(amount)} of overtime a day`),
    more("costPerUnit", (amount) => `${money(amount)} more per unit (${money(value("costPerUnit")!)})`),
    isAbove(value("moves")) ? movesWords(option, value("moves")!) : "",
  ].filter((each) => each !== "");
}

/** "at most 3 moves from today's plan". */
export const movesWords = ({ moves }: OptionAnswer, count: Ratio): string =>
  `${moves?.outcome === "found" ? "at most " : ""}${countOf(whole(count), "move")} from today's plan`;

function hoursCosts(first: OptionAnswer, option: OptionAnswer): string[] {
  const shifts = shiftsBeside(option, first);
  const days = daysBeside(option, first);
  return [
    shifts > 0 ? `${countMore(ratio(shifts), "shift")} a day` : "",
    days !== null && isAbove(subtract(days.now, days.before))
      ? `${countWords(subtract(days.now, days.before), `more ${days.what}`)} a ${days.period}`
      : "",
  ];
}

function peopleCosts(first: OptionAnswer, option: OptionAnswer, { change, value }: Beside): string[] {
  const [perShift, perDay] = [change("peoplePerShift"), change("peoplePerDay")];
  const isBusiest = perDay !== null && !isAbove(perDay) ? " in the busiest shift" : "";
  const inShift = shiftsBeside(option, first) === 0 ? isBusiest : " in a shift";
  const ofShift = isAbove(perShift)
    ? `${peopleWords(perShift!)} more${inShift} (${decimal(value("peoplePerShift")!, 0)})`
    : "";
  const isOfDay = isAbove(perDay) && (!isAbove(perShift) || shiftsBeside(option, first) !== 0);
  const ofDay = isOfDay
    ? `${peopleWords(perDay!)} more over the day (${decimal(value("peoplePerDay")!, 0)})`
    : "";
  return [ofShift, ofDay];
}

function stockCosts(first: OptionAnswer, option: OptionAnswer, { change }: Beside): string[] {
  const stocks = stockPoints(option) - stockPoints(first);
  const units = change("stock");
  const more = isAbove(units) ? countOf(whole(units!), "unit") : "";
  if (stocks > 0 && stockPoints(first) === 0) {
    return [`${stocksWords(stocks)}${more === "" ? "" : ` of ${more}`}`];
  }
  return [
    stocks > 0 ? `${stocks === 1 ? "one more stock" : `${stocks} more stocks`}` : "",
    more === "" ? "" : `${more} more in stock`,
  ];
}

/** Where parts lie between benches and line: one for each task that they join at. */
const stockPoints = ({ benches }: OptionAnswer): number =>
  benches.reduce((sum, { figures }) => sum + figures.joinsAt.length, 0);

/** What is left, where parallel places make it more than its stations. */
function placesWords(value: Beside["value"]): string {
  const [stations, places] = [value("stations"), value("places")];
  return isBelow(subtract(stations!, places!)) ? ` (${whole(stations!)} with ${whole(places!)} places)` : "";
}

/** Hours in words, such as "1 h 30 min". */
export const hours = (amount: Ratio): string => longTime(multiply(amount, ratio(MICROS_IN.h)));
const stocksWords = (stocks: number): string => (stocks === 1 ? "one stock" : `${stocks} stocks`);
const countMore = (amount: Ratio, what: string): string =>
  `${whole(amount)} more ${what}${whole(amount) === 1 ? "" : "s"}`;
