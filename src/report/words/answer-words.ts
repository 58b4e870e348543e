import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import { countOf, countPeople, thousands } from "../../findings/count-of.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { decimal } from "../../time/show-values.js";

/** "12 stations, 13 people, 188 good units a shift possible, 165 wanted; slowest S3 (135 s)."; empty without a plan. */
export function answerWords({ line, measures, shown }: ShownBalance): string {
  if (measures === null || shown.people === null) return "";
  const { outputPerShift, slowestStation, cycleOfPlan } = measures;
  const made = outputPerShift ?? shown.outputPerDay;
  const period = outputPerShift === null ? "a day" : "a shift";
  const units = made === null ? [] : [`${thousands(made)} good units ${period} possible`];
  const wanted = made === null || shown.wanted === null ? [] : [`${decimal(shown.wanted, 1)} wanted`];
  const counts = [
    countOf(measures.stations, "station"),
    countPeople(shown.people.atATime),
    ...units,
    ...wanted,
  ];
  return `${counts.join(", ")}; slowest ${slowestStation} (${showTimesIn(line.unit)(cycleOfPlan)}).`;
}

/** What is proved of a plan, in a sentence or two without reasons; empty without a plan. */
export function provedWords({ plan, outcome, bound, level, rates, shown }: ShownBalance): string {
  if (plan === null || bound === null) return "";
  const what = rates !== null ? "shorter cycle" : bound.isOfPeople ? "fewer people" : "fewer stations";
  const has = rates !== null ? "has a" : "has";
  const first =
    outcome === "proved" ? `Proved: no plan ${has} ${what}.` : `Not proved: a plan with ${what} may exist.`;
  const even =
    level === null || plan.stations.length === 1
      ? ""
      : level.outcome === "proved"
        ? ` With as many ${shown.people !== null && bound.isOfPeople ? "people and stations" : "stations"}, none has a shorter cycle.`
        : " With as many stations, a shorter cycle may exist.";
  return `${first}${even} --proof shows why, the sums of the pace and what each method got.`;
}
