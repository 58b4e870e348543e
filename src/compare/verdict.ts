import { countOf } from "../findings/count-of.js";
import { compare, multiply, type Ratio, ratio, subtract, toDecimal, ZERO } from "../time/ratio.js";
import { decimal, longTime } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import type { OptionAnswer } from "./option-answer.js";
import { paysWords } from "./pays-words.js";
import type { RowOfFigures } from "./rows.js";
import { missWords } from "./shortfall-words.js";

/** The figures of one option beside those of the first, by the key of the row. */
interface Beside {
  readonly value: (key: string) => Ratio | null;
  readonly first: (key: string) => Ratio | null;
  readonly change: (key: string) => Ratio | null;
  /** An amount in the currency of the rates. */
  readonly money: (amount: Ratio) => string;
}

/**
 * One sentence from the numbers: what each option gains over the first, and what it costs; a further one for tables. No word that no
 * number carries. What an option saves by missing its demand is no gain, and what it needs to make up what the first misses no cost.
 */
export function verdictOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string {
  const [first] = options;
  if (first === undefined) return "";
  return [`${clausesOf(options, rows).join("; ")}.`, ...options.map(paysWords)]
    .filter((each) => each !== "")
    .join(" ");
}

function clausesOf([first, ...others]: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string[] {
  if (others.length === 0) return [absolute(first!, besideOf(first!, rows, 0))];
  const isMissed = missWords(first!) !== "";
  const clauses = others.map((option, at) => {
    const beside = besideOf(option, rows, at + 1);
    if (option.posts.length === 0) return `${option.asked.name} ${withoutPlan(option)}`;
    if (first!.posts.length === 0) return absolute(option, beside);
    if (missWords(option) !== "") return missing(first!, option, beside);
    return isMissed ? meeting(first!, option, beside) : against(first!, option, beside);
  });
  if (first!.posts.length === 0) return [`${first!.asked.name} ${withoutPlan(first!)}`, ...clauses];
  return isMissed ? [`${first!.asked.name} ${missWords(first!)}`, ...clauses] : clauses;
}

function besideOf({ asked }: OptionAnswer, rows: readonly RowOfFigures[], at: number): Beside {
  const currency = asked.line.rates?.currency ?? null;
  const row = new Map(rows.map((each) => [each.key, each]));
  return {
    value: (key) => row.get(key)?.values[at] ?? null,
    first: (key) => row.get(key)?.values[0] ?? null,
    change: (key) => row.get(key)?.differences[at] ?? null,
    money: (amount) => `${toDecimal(amount, 2)}${currency === null ? "" : ` ${currency}`}`,
  };
}

function withoutPlan({ outcome, findings }: OptionAnswer): string {
  if (outcome === "stopped") return "was not worked out";
  const reason = findings.find(({ severity }) => severity === "error")?.message;
  return `has no balance${reason === undefined ? "" : ` (${reason})`}`;
}

function absolute(option: OptionAnswer, { value }: Beside): string {
  const people = value("peoplePerShift");
  if (people === null) return `${option.asked.name} ${withoutPlan(option)}`;
  const [perShift, perDay] = [value("outputPerShift"), value("outputPerDay")];
  const output = perShift ?? perDay;
  const period = perShift === null ? "day" : "shift";
  const units = output === null ? "" : `, output ${decimal(output, 0)} units a ${period}`;
  const miss = missWords(option);
  return `${option.asked.name} needs ${peopleWords(people)}${units}${miss === "" ? "" : ` and ${miss}`}`;
}

/** An option that makes less than it is asked for: whatever it does with, it is no gain. */
function missing(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const changes = listOf(changesOf(beside));
  const withChanges = changes === "" ? "" : ` with ${changes}`;
  return `${option.asked.name}${demandWords(beside)} ${missWords(option)} and is no gain${withChanges}${doubtWords(first, option)}`;
}

/** An option beside a first one that misses its demand: what it needs, and not what it costs. */
function meeting(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const asked = option.asked.takt === null ? "keeps its line cycle" : "meets its demand";
  const changes = listOf(changesOf(beside));
  const needs = changes === "" ? "the same people and stations" : changes;
  return `${option.asked.name}${demandWords(beside)} ${asked} with ${needs}${doubtWords(first, option)}`;
}

/** What differs, as it is beside as it was, with no word for better or worse. */
function changesOf({ value, first, change, money }: Beside): string[] {
  const instead = (key: string, words: (amount: Ratio) => string, bare: (amount: Ratio) => string): string =>
    isOther(change(key)) ? `${words(value(key)!)} instead of ${bare(first(key)!)}` : "";
  const counted = (key: string, what: string, after = "") =>
    instead(
      key,
      (amount) => `${countOf(whole(amount), what)}${after}`,
      (amount) => decimal(amount, 0),
    );
  const people = (key: string, after: string) =>
    instead(
      key,
      (amount) => `${peopleWords(amount)}${after}`,
      (amount) => decimal(amount, 0),
    );
  const [perShift, perDay] = [people("peoplePerShift", ""), people("peoplePerDay", " a day")];
  return [
    perShift === "" ? perDay : perShift,
    counted("stations", "station"),
    counted("benchPlaces", "bench place"),
    counted("stock", "unit", " in stock"),
    instead("costPerUnit", (amount) => `${money(amount)} a unit`, money),
  ].filter((each) => each !== "");
}

function against(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const gains = [peopleGain(beside), ...otherGains(beside)].filter((each) => each !== "");
  const costs = costsOf(first, option, beside).filter((each) => each !== "");
  const gained = gains.length > 0 ? listOf(gains) : "";
  const cost = costs.length > 0 ? `costs ${listOf(costs)}` : "";
  const both = gained !== "" && cost !== "" ? `${gained}, and ${cost}` : gained + cost;
  return `${option.asked.name}${demandWords(beside)} ${both}${doubtWords(first, option)}`;
}

const doubtWords = (first: OptionAnswer, option: OptionAnswer): string =>
  first.outcome === "proved" && option.outcome === "proved" ? "" : " (fewest people not proved)";

/** An option for another demand is no gain or cost by itself. */
function demandWords({ change, value, first }: Beside): string {
  const [key, period] =
    change("wantedPerShift") === null ? ["wantedPerDay", "day"] : ["wantedPerShift", "shift"];
  if (!isOther(change(key!))) return "";
  const [now, before] = [value(key!)!, first(key!)!];
  return `, for ${decimal(now, 1)} units a ${period} instead of ${decimal(before, 1)},`;
}

function peopleGain({ change, value, first }: Beside): string {
  const [perShift, perDay] = [change("peoplePerShift"), change("peoplePerDay")];
  if (perShift === null) return "";
  const now = decimal(value("peoplePerShift")!, 0);
  if (isBelow(perShift)) {
    const freed = `frees ${peopleWords(minus(perShift))} of ${decimal(first("peoplePerShift")!, 0)} (${now})`;
    if (perDay === null || isBelow(perDay)) return freed;
    return isOther(perDay) ? `${freed} in a shift` : `${freed} in the busiest shift but nobody over the day`;
  }
  if (perDay !== null && isBelow(perDay))
    return `frees ${peopleWords(minus(perDay))} over the day (${decimal(value("peoplePerDay")!, 0)})`;
  return isOther(perShift) ? "" : "frees nobody";
}

function otherGains({ change, value, money }: Beside): string[] {
  const [stations, benches, cost] = [change("stations"), change("benchPlaces"), change("costPerUnit")];
  return [
    isBelow(stations) ? `takes ${countOf(whole(minus(stations!)), "station")} off the line` : "",
    isBelow(benches) ? `gives back ${countOf(whole(minus(benches!)), "bench place")}` : "",
    isBelow(cost)
      ? `takes ${money(minus(cost!))} off the cost per unit (${money(value("costPerUnit")!)})`
      : "",
  ];
}

function costsOf(first: OptionAnswer, option: OptionAnswer, { change, value, money }: Beside): string[] {
  const more = (key: string, words: (amount: Ratio) => string): string => {
    const amount = change(key);
    return isAbove(amount) ? words(amount!) : "";
  };
  const perDay = change("peoplePerDay");
  const perShift = change("peoplePerShift");
  const stocks = option.benches.length - first.benches.length;
  const stock = value("stock");
  const moreStock = change("stock");
  const ofUnits = isAbove(stock) ? ` of ${countOf(whole(stock!), "unit")}` : "";
  return [
    more(
      "peoplePerShift",
      (amount) => `${peopleWords(amount)} more (${decimal(value("peoplePerShift")!, 0)})`,
    ),
    isAbove(perDay) && !isAbove(perShift) ? `${peopleWords(perDay!)} more over the day` : "",
    more("stations", (amount) => countMore(amount, "station")),
    more("benchPlaces", (amount) => countOf(whole(amount), "bench place")),
    stocks > 0 ? `${stocks === 1 ? "one stock" : `${stocks} stocks`}${ofUnits}` : "",
    stocks <= 0 && isAbove(moreStock) ? `${countOf(whole(moreStock!), "unit")} more in stock` : "",
    more("overtimeHours", (amount) => `${longTime(multiply(amount, ratio(MICROS_IN.h)))} of overtime a day`),
    more("costPerUnit", (amount) => `${money(amount)} more per unit (${money(value("costPerUnit")!)})`),
    isAbove(value("moves"))
      ? `${option.moves?.outcome === "found" ? "at most " : ""}${countOf(whole(value("moves")!), "move")} from today's plan`
      : "",
  ];
}

const whole = (amount: Ratio): number => Number(decimal(amount, 0));
const minus = (amount: Ratio): Ratio => subtract(ZERO, amount);
const isAbove = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) > 0;
const isBelow = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) < 0;
const isOther = (amount: Ratio | null): boolean => amount !== null && compare(amount, ZERO) !== 0;
const peopleWords = (amount: Ratio): string => (whole(amount) === 1 ? "1 person" : `${whole(amount)} people`);
const countMore = (amount: Ratio, what: string): string =>
  `${whole(amount)} more ${what}${whole(amount) === 1 ? "" : "s"}`;

function listOf(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
