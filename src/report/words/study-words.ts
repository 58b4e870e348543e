import { thousands } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Study } from "../../study/study-elements.js";
import type { ShowTime } from "../../time/show-in-unit.js";
import { decimal, percent } from "../../time/show-values.js";

const STATISTIC = { mean: "mean", median: "median", "lowest-repeated": "lowest repeated" } as const;

/** What the observed time of an element is. */
export const statisticWords = ({ terms }: Study): string => STATISTIC[terms.statistic];

/** How the readings were read: what is not said otherwise and could be taken wrongly. */
export function readWords({ read, terms }: Study): string {
  const clock = terms.clock === "continuous" ? "continuous clock" : "snapback watch";
  const unit = read.unit === null ? "each reading with its own unit" : `bare numbers in ${read.unit}`;
  const marks = { ",": "decimals take a comma", ".": "decimals take a point" };
  const mark = read.decimalMark === null ? [] : [marks[read.decimalMark]];
  const layout = read.layout === "YAML" ? "YAML" : `one ${read.layout}`;
  const others = read.table?.otherSheets ?? [];
  const sheet = others.length === 0 ? [] : [`sheet ${read.table!.sheet}, not ${listOf(others)}`];
  return [layout, ...sheet, clock, unit, ...mark].join("; ");
}

/** How standard times come from normal times. */
export function allowanceWords({ terms, allowance, factor }: Study): string {
  if (terms.allowances.length === 0) return "No allowance is given: the standard time is the normal time.";
  const parts = listOf(terms.allowances.map(({ name, share }) => `${name} ${percent(share, 4)}`));
  const sum = percent(allowance, 4);
  const rule =
    terms.allowanceBase === "shift"
      ? `normal / (1 - ${sum}), as allowances are shares of the shift`
      : `normal x (1 + ${sum}), as allowances are shares of the job time`;
  const about = 10_000n % factor.den === 0n ? "" : "about ";
  return `Standard = ${rule}: ${parts}. That is ${about}normal x ${decimal(factor, 4)}.`;
}

/** What the readings needed are needed for, and by which distribution they are counted. */
export function neededWords({ terms, elements }: Study, show: ShowTime): string {
  const { within } = terms;
  const near = "share" in within ? percent(within.share, 4) : show(within.time);
  const used = elements.flatMap(({ needed }) => needed ?? []);
  const byT = used.some(({ by }) => by === "t");
  const z = used.find(({ by }) => by === "z");
  const ways = [
    ...(byT
      ? ["by Student's t with n - 1 degrees of freedom, n being the readings taken (not iterated)"]
      : []),
    ...(z === undefined ? [] : [`by z = ${decimal(z.quantile, 4)}`]),
  ];
  if (ways.length === 0) return "One reading alone does not say how many are needed.";
  return `Needed: readings until the mean is within ${near} with ${percent(terms.confidence, 4)} confidence, ${listOf(ways)}.`;
}

/** The elements of which more readings are needed, and those whose only one does not say how many; empty where none are. */
export function moreNeededWords({ elements }: Study): string {
  const isCounted = elements.some(({ needed }) => needed !== null);
  const words = elements.flatMap(({ name, readings, needed }) => {
    if (needed === null) return isCounted && readings === 1 ? [`${name} (1 alone shows no spread)`] : [];
    return needed.readings > readings ? [`${name} (${readings} of ${thousands(needed.readings)})`] : [];
  });
  return words.length === 0 ? "" : `More readings are needed of ${listOf(words)}.`;
}
