import { type Demand, type Period, readDemand } from "./demand.js";
import { demandsOf, readDemandRange } from "./demand-range.js";
import { quoted } from "./quoted.js";
import { compare, divide, ratio } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { decimal } from "./show-values.js";

/** The most demands of a list. */
export const MOST_LISTED = 20;
/** Two numbers around a comma alone are two demands where one is no more than so many times the other; else a slip of one number. */
const WIDEST_PAIR = ratio(4);

/** Whether a text names several demands: numbers with commas between them, or a range. `1,400 per day` is one demand, badly written. */
export function namesSeveral(text: string): boolean {
  if (text.includes("..")) return true;
  const parts = text.split(",");
  if (parts.length < 2) return false;
  if (parts.length > 2 || /,\s/u.test(text)) return true;
  const [one, two] = parts.map((part) => part.split(/\s+per\s/iu)[0]!.trim());
  const [first, second] = [one, two].map((each) => readDemand(`${each} per day`));
  if (!first?.ok || !second?.ok) return false;
  const isUp = compare(first.value.units, second.value.units) < 0;
  // Going down, "9615,38" is a number with decimals; "190,140" is none that anybody writes.
  if (!isUp && one!.length !== two!.length) return false;
  const [less, more] = isUp ? [first.value, second.value] : [second.value, first.value];
  return compare(divide(more.units, less.units), WIDEST_PAIR) <= 0;
}

/**
 * Several demands, such as `140, 165, 190 per day` or `140..190/25`: each above 0 and given once, all of one period, 2 to 20 of them;
 * in the order given.
 *
 * @param period what the demands are per where the text does not say; null: it must
 */
export function readDemandList(text: string, period: Period | null): Reading<Demand[]> {
  const problem = (why: string) => refuse(`${quoted(text.trim())} is no list of demands: ${why}`);
  const isRange = text.includes("..");
  const read = isRange ? readRange(text, period) : readEach(text, period);
  // What is wrong with a range names it already.
  if (!read.ok) return isRange ? read : problem(read.problem);
  const demands = read.value;
  if (new Set(demands.map((each) => each.period)).size > 1)
    return problem("all of them are per the same period; write it once, at the end");
  const [twice] = demands.filter(
    ({ units }, at) => demands.findIndex((each) => compare(each.units, units) === 0) < at,
  );
  if (twice !== undefined) return problem(`${decimal(twice.units, 6)} is there twice`);
  if (demands.length < 2) return problem("it is one demand; write two or more, such as 140, 165 per day");
  if (demands.length > MOST_LISTED)
    return problem(`it has ${demands.length} demands, and ${MOST_LISTED} are the most`);
  return accept(demands);
}

function readRange(text: string, period: Period | null): Reading<Demand[]> {
  const range = readDemandRange(text, period);
  if (!range.ok) return range;
  return accept(demandsOf(range.value).map((units) => ({ units, period: range.value.period })));
}

function readEach(text: string, period: Period | null): Reading<Demand[]> {
  const [, last = null] = /\s+per\s+(\S+)\s*$/iu.exec(text) ?? [];
  const per = last ?? period;
  const demands: Demand[] = [];
  for (const part of text.split(",").map((each) => each.trim())) {
    if (part === "") return refuse("a demand is missing between two commas");
    const whole = /\sper\s/iu.test(part) || per === null ? part : `${part} per ${per}`;
    const demand = readDemand(whole);
    if (!demand.ok) return demand;
    demands.push(demand.value);
  }
  return accept(demands);
}
