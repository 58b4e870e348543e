import { cycleOfPost } from "../plan/figures/cycle.js";
import type { Period } from "../time/demand.js";
import { ceiling, compare, divide, multiply, type Ratio, ratio, subtract, ZERO } from "../time/ratio.js";
import { showTimesIn } from "../time/show-in-unit.js";
import { decimal } from "../time/show-values.js";
import type { OptionAnswer } from "./option-answer.js";
import { type Shortfall, shortfallOf } from "./shortfall.js";

/** What an option misses of what it is asked for, and for tables how many would do; "" where it misses nothing. */
export function missWords(option: OptionAnswer): string {
  const shortfall = shortfallOf(option);
  return shortfall === null ? "" : amountWords(option, shortfall);
}

function amountWords(option: OptionAnswer, { period, wanted, made }: Shortfall): string {
  if (period === null) {
    const show = showTimesIn(option.asked.line.unit);
    return `misses the line cycle of ${show(wanted)} (its slowest cycle is ${show(made)}${tablesWords(option)})`;
  }
  const lacking = subtract(wanted, made);
  const units = compare(lacking, ratio(1, 20)) < 0 ? "less than 0.1 units" : unitWords(lacking);
  return `misses its demand by ${units} ${perWords(period)} (${decimal(made, 1)} of ${decimal(wanted, 1)}${tablesWords(option)})`;
}

export const perWords = (period: Period): string => (period === "hour" ? "an hour" : `a ${period}`);

const unitWords = (amount: Ratio): string => {
  const shown = decimal(amount, 1);
  return `${shown} ${shown === "1" ? "unit" : "units"}`;
};

function tablesWords({ asked: { pace }, posts }: OptionAnswer): string {
  const [post] = posts;
  if (post?.kind !== "tables" || compare(pace.lineCycle, ZERO) <= 0) return "";
  const needed = ceiling(divide(multiply(cycleOfPost(post), ratio(post.places)), pace.lineCycle));
  return `; ${needed} people at tables would keep up`;
}
