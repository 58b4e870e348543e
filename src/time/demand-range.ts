import { type Period, readDemand } from "./demand.js";
import { LONGEST_TEXT, NUMBER, readNumber } from "./exact-number.js";
import { explainNumberSlip } from "./number-slips.js";
import { quoted } from "./quoted.js";
import { add, ceiling, compare, divide, floor, multiply, type Ratio, ratio, subtract } from "./ratio.js";
import { accept, type Reading, refuse } from "./reading.js";
import { plainDecimal } from "./show-values.js";

/** Demands from one to another in equal steps; the last one is always `to`, whatever is left of the step before it. */
export interface DemandRange {
  readonly from: Ratio;
  readonly to: Ratio;
  readonly step: Ratio;
  /** The smallest difference between demands that is looked at: 1, or 0.1 where the range has tenths. */
  readonly grain: Ratio;
  readonly period: Period;
}

/** The most demands of a range. */
export const MOST_DEMANDS = 1000;

const PLAIN = "\\d+(?:\\.\\d+)?";
const RANGE = new RegExp(`^(${PLAIN})\\s*\\.\\.\\s*(${PLAIN})\\s*/\\s*(${PLAIN})$`, "u");
/** What people write in place of a range. */
const NEARLY = new RegExp(
  `^(${PLAIN})\\s*(?:\\.{1,4}|…|[-‐-―−:;,]|\\bto\\b|\\btill\\b|\\buntil\\b)\\s*(${PLAIN})(?:\\s*(?:[/:;,]|\\bby\\b|\\bstep\\b|\\bin steps of\\b|\\bevery\\b)\\s*(${PLAIN}))?$`,
  "iu",
);
const FORM = "write FROM..TO/STEP, such as 120..240/20 or 120..240/20 per day";

/**
 * A range of demands, such as `120..240/20` or `120..240/20 per day`: numbers in plain digits above 0, FROM not above TO, at most
 * 1,000 demands.
 *
 * @param period what the demands are per where the text does not say; null: it must
 */
export function readDemandRange(text: string, period: Period | null): Reading<DemandRange> {
  const trimmed = text.trim();
  if (trimmed === "") return refuse(`a range of demands is missing: ${FORM}`);
  if (trimmed.length > LONGEST_TEXT) return refuse(`${quoted(trimmed)} is too long a text for a range`);
  const problem = (why: string) => refuse(`${quoted(trimmed)} is not a range of demands: ${why}`);
  const [, numbers = "", per = null] = /^(.*?)(\s+per\s+\S+)?$/isu.exec(trimmed) ?? [];
  const found = RANGE.exec(numbers);
  if (!found) return problem(explainSlip(numbers, per ?? ""));
  const [from, to, step] = found.slice(1).map((each) => readNumber(each)!) as [Ratio, Ratio, Ratio];
  const wrong = explainNumbers({ from, to, step }, per ?? "");
  if (wrong !== null) return problem(wrong);
  if (per === null && period === null) {
    return problem(
      `it needs a period, as the line file has no demand; write ${numbers} per day, or another period`,
    );
  }
  if (per === null) return accept({ from, to, step, grain: grainOf(found.slice(1)), period: period! });
  const demand = readDemand(`${found[1]}${per}`);
  return demand.ok
    ? accept({ from, to, step, grain: grainOf(found.slice(1)), period: demand.value.period })
    : problem(demand.problem);
}

/** Every demand of a range, ascending. */
export function demandsOf({ from, to, step }: Pick<DemandRange, "from" | "to" | "step">): Ratio[] {
  const steps = Number(floor(divide(subtract(to, from), step)));
  const demands = Array.from({ length: steps + 1 }, (_, at) => add(from, multiply(step, ratio(at))));
  return compare(demands.at(-1)!, to) < 0 ? [...demands, to] : demands;
}

/** A power of ten that divides every number as it was written. */
function grainOf(written: readonly string[]): Ratio {
  const decimals = Math.max(...written.map((each) => each.split(".")[1]?.length ?? 0));
  return ratio(1n, 10n ** BigInt(decimals));
}

type Ends = Pick<DemandRange, "from" | "to" | "step">;

const shown = ({ from, to, step }: Ends, per: string): string =>
  `${plainDecimal(from, 6)}..${plainDecimal(to, 6)}/${plainDecimal(step, 6)}${per}`;

/** A step that gives about ten demands. */
function tenth({ from, to }: Pick<Ends, "from" | "to">): Ratio {
  const whole = ceiling(divide(subtract(to, from), ratio(10)));
  return ratio(whole < 1n ? 1n : whole);
}

function explainNumbers(ends: Ends, per: string): string | null {
  const { from, to, step } = ends;
  if (to.num === 0n) return "demands above 0 are expected";
  if (step.num === 0n)
    return `a step above 0 is expected; write ${shown({ ...ends, step: tenth(ends) }, per)}`;
  if (compare(from, to) > 0)
    return `it starts above its end; write ${shown({ from: to, to: from, step }, per)}`;
  if (from.num === 0n) {
    const first = compare(step, to) <= 0 ? step : to;
    return `it starts at a demand of 0, which needs no line; write ${shown({ from: first, to, step }, per)}`;
  }
  const steps = floor(divide(subtract(to, from), step));
  if (steps < BigInt(MOST_DEMANDS) && demandsOf(ends).length <= MOST_DEMANDS) return null;
  const wider = ratio(ceiling(divide(subtract(to, from), ratio(MOST_DEMANDS - 1))));
  return `that is more than ${MOST_DEMANDS} demands; write ${shown({ ...ends, step: wider }, per)} or a longer step`;
}

function explainSlip(numbers: string, per: string): string {
  if (new RegExp(`^(?:${NUMBER})$`, "u").test(numbers)) return `it is one demand, not a range; ${FORM}`;
  const nearly = NEARLY.exec(numbers);
  if (nearly) {
    const [from, to, step] = nearly.slice(1).map((each) => (each === undefined ? null : readNumber(each)));
    const ends = compare(from!, to!) > 0 ? { from: to!, to: from! } : { from: from!, to: to! };
    const near = shown({ ...ends, step: step ?? tenth(ends) }, per);
    const why =
      step === null ? "it needs a step after a /" : "two points go between FROM and TO, a / before STEP";
    return `${why}; write ${near}`;
  }
  const parts = numbers.split(/\.\.|\/(?=[^/]*$)/u).map((each) => each.trim());
  const wrong = parts.find((each) => !new RegExp(`^${PLAIN}$`, "u").test(each));
  const slip = wrong === undefined || wrong === numbers ? null : explainNumberSlip(wrong);
  return slip === null ? FORM : `${quoted(wrong!)}: ${slip}; ${FORM}`;
}
