import { countOf } from "../findings/count-of.js";
import { compare, multiply, type Ratio, ratio, subtract, toDecimal, ZERO } from "../time/ratio.js";
import { decimal, longTime } from "../time/show-values.js";
import { MICROS_IN } from "../time/units.js";
import type { OptionAnswer, WhereLinePays } from "./option-answer.js";
import type { RowOfFigures } from "./rows.js";

/** The figures of one option beside those of the first, by the key of the row. */
interface Beside {
  readonly value: (key: string) => Ratio | null;
  readonly first: (key: string) => Ratio | null;
  readonly change: (key: string) => Ratio | null;
  /** An amount in the currency of the rates. */
  readonly money: (amount: Ratio) => string;
}

/** One sentence from the numbers: what each option gains over the first, and what it costs. No word that no number carries. */
export function verdictOf(options: readonly OptionAnswer[], rows: readonly RowOfFigures[]): string {
  const [first] = options;
  if (first === undefined) return "";
  if (options.length === 1) return `${absolute(first, besideOf(first, rows, 0))}.`;
  const clauses = options.slice(1).map((option, at) => {
    const beside = besideOf(option, rows, at + 1);
    if (option.posts.length === 0) return `${option.asked.name} ${withoutPlan(option)}`;
    if (first.posts.length === 0) return absolute(option, beside);
    return `${against(first, option, beside)}${paysWords(option.pays)}`;
  });
  const head = first.posts.length === 0 ? [`${first.asked.name} ${withoutPlan(first)}`] : [];
  return `${[...head, ...clauses].join("; ")}.`;
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
  const output = value("outputPerShift");
  const units = output === null ? "" : `, output ${decimal(output, 0)} units a shift`;
  return `${option.asked.name} needs ${peopleWords(people)}${units}${paysWords(option.pays)}`;
}

function against(first: OptionAnswer, option: OptionAnswer, beside: Beside): string {
  const gains = [peopleGain(beside), ...otherGains(beside)].filter((each) => each !== "");
  const costs = costsOf(first, option, beside).filter((each) => each !== "");
  const gained = gains.length > 0 ? listOf(gains) : "";
  const cost = costs.length > 0 ? `costs ${listOf(costs)}` : "";
  const both = gained !== "" && cost !== "" ? `${gained}, and ${cost}` : gained + cost;
  const open = first.outcome === "proved" && option.outcome === "proved" ? "" : " (fewest people not proved)";
  return `${option.asked.name}${demandWords(beside)} ${both}${open}`;
}

/** An option for another demand is no gain or cost by itself. */
function demandWords({ change, value, first }: Beside): string {
  if (!isOther(change("wantedPerShift"))) return "";
  const [now, before] = [value("wantedPerShift")!, first("wantedPerShift")!];
  return `, for ${decimal(now, 1)} units a shift instead of ${decimal(before, 1)},`;
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
    shortOf(value),
    more("overtimeHours", (amount) => `${longTime(multiply(amount, ratio(MICROS_IN.h)))} of overtime a day`),
    more("costPerUnit", (amount) => `${money(amount)} more per unit (${money(value("costPerUnit")!)})`),
    isAbove(value("moves")) ? `${countOf(whole(value("moves")!), "move")} from today's plan` : "",
  ];
}

/** What an option gives less than it is asked for. */
function shortOf(value: Beside["value"]): string {
  const [wanted, output] = [value("wantedPerShift"), value("outputPerShift")];
  if (wanted === null || output === null) return "";
  const lacking = subtract(wanted, output);
  return compare(lacking, ratio(1)) < 0
    ? ""
    : `${decimal(lacking, 1)} of the ${decimal(wanted, 1)} units wanted a shift`;
}

function paysWords(pays: WhereLinePays | null): string {
  if (pays === null) return "";
  const { line, period, first, always, most, outcome } = pays;
  const doubt = outcome === "proved" ? "" : " (fewest people not proved)";
  if (first === null)
    return `, and ${line} needs no fewer people than tables at any demand up to ${most} units a ${period}${doubt}`;
  const people = `(${first.onLine} instead of ${first.atTables})`;
  const since =
    always === null
      ? `but not at every higher one up to ${most}`
      : always === first.units
        ? `and at every higher one up to ${most}`
        : `and at every one from ${always} to ${most}`;
  return `, and ${line} needs fewer people than tables at ${first.units} units a ${period} ${people} ${since}${doubt}`;
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
