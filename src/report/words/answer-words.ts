import type { ShownBalance } from "../../answer/balance/shown-balance.js";
import type { Comparison } from "../../answer/compare/compare-options.js";
import type { RowKey, RowOfFigures } from "../../answer/compare/rows.js";
import type { OffLineAnswer, RatedBlock } from "../../answer/off-line/off-line-answer.js";
import type { OffLinePlan } from "../../answer/off-line/plan-with-benches.js";
import type { AtBenches } from "../../answer/rebalance/keep-benches.js";
import type { RebalanceAnswer } from "../../answer/rebalance/rebalance-line.js";
import type { SeveralDemandsAnswer } from "../../answer/rebalance/several-demands.js";
import type { StaffAnswer } from "../../answer/staff/staff-answer.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import { listOf } from "../../findings/list-of.js";
import type { Ratio } from "../../time/ratio.js";
import { showTimesIn } from "../../time/show-in-unit.js";
import { difference } from "../../time/show-numbers.js";
import { decimal, money, percent, toMinutes } from "../../time/show-values.js";
import { daysShown } from "./payback-words.js";
import { splitInShort } from "./people-words.js";

/** "12 stations, 13 people, 188 good units a shift possible, 165 wanted; slowest S3 (135 s)."; empty without a plan. */
export function answerWords({ line, measures, shown }: ShownBalance): string {
  if (measures === null || shown.people === null) return "";
  const { outputPerShift, slowestStation, cycleOfPlan } = measures;
  const whole = outputPerShift ?? shown.outputPerDay;
  const made = whole ?? shown.outputPerHour;
  const period = outputPerShift === null ? (whole === null ? "an hour" : "a day") : "a shift";
  const units = made === null ? [] : [`${decimal(made, 2)} good units ${period} possible`];
  const wanted =
    made === null || shown.wanted === null ? [] : [`${decimal(shown.wanted, whole === null ? 2 : 1)} wanted`];
  const counts = [
    countOf(measures.stations, "station"),
    countPeople(shown.people.atATime),
    ...units,
    ...wanted,
  ];
  const held =
    shown.heldTo === null ? "" : `; waits hold the line to ${showTimesIn(line.unit)(shown.heldTo)}`;
  return `${counts.join(", ")}${held}; slowest ${slowestStation} (${showTimesIn(line.unit)(cycleOfPlan)}).`;
}

/** "The plan fails: work runs up to 30 s past the end of S2, and `drift-room` allows 10 s."; empty for one that holds, and without one. */
export function failsWords({ plan, findings }: Pick<ShownBalance, "plan" | "findings">): string {
  const [first, ...others] = findings.filter(({ severity }) => severity === "error");
  if (plan === null || first === undefined) return "";
  const more = others.length === 0 ? "" : ` (${countOf(others.length, "more error")})`;
  return `The plan fails: ${first.message}${more}.`;
}

/** "Line cycle 154 s; efficiency 83.9 % at the pace, 97.5 % at the slowest station.", then idle time and who the people are; empty without a plan. */
export function figuresWords({ line, pace, measures, shown }: ShownBalance): string[] {
  if (measures === null || shown.people === null) return [];
  const show = showTimesIn(line.unit);
  const { efficiencyAtPace, efficiencyAtSlowest, idlePerUnit, idlePerShift, ofUnequalShifts } = measures;
  const shares = [
    ...(efficiencyAtPace === null ? [] : [`${percent(efficiencyAtPace)} at the pace`]),
    ...(efficiencyAtSlowest === null ? [] : [`${percent(efficiencyAtSlowest)} at the slowest station`]),
  ];
  const efficiency = shares.length === 0 ? "" : `; efficiency ${shares.join(", ")}`;
  const idle = [
    `${show(idlePerUnit)} per unit`,
    ...(idlePerShift === null ? [] : [`${toMinutes(idlePerShift)} per shift`]),
    ...(ofUnequalShifts === null ? [] : [`${toMinutes(ofUnequalShifts.idlePerDay)} per day`]),
  ];
  const split = splitInShort(line, shown.people);
  const who = split === "" ? "" : ` People: ${split}.`;
  return [`Line cycle ${show(pace.lineCycle)}${efficiency}.`, `Idle ${idle.join(", ")}.${who}`];
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
        ? ` With as many${shown.people !== null && bound.isOfPeople ? " people and stations" : ""}, none has a shorter cycle.`
        : " With as many, a shorter cycle may exist.";
  return `${first}${even} --proof shows more.`;
}

/** "7 moves from 12 people today: 12 stations, 13 people, ..."; empty without a plan. */
export function rebalanceWords({
  balance,
  chosen,
  fromAnswer,
  peopleAtBenches,
}: RebalanceAnswer & AtBenches): string {
  const then = answerWords(balance);
  if (chosen === null || then === "") return "";
  const today = fromAnswer.shown.people;
  const from = today === null ? "today's plan" : `${countPeople(today.atATime)} today`;
  return `${capital(movesWords(chosen.moves.length))} from ${from}: ${then}${atBenchesWords(peopleAtBenches)}`;
}

/** " 2 people at benches are not counted here."; empty where nobody is at any. */
export const atBenchesWords = (count: number): string =>
  count === 0 ? "" : ` ${countPeople(count)} at benches ${count === 1 ? "is" : "are"} not counted here.`;

/** "12 people at 150 per day, 13 at 165 per day; 2 moves from today, 7 between the demands." */
export function severalDemandsWords({
  demands,
  movesBetween,
  fromToday,
  peopleAtBenches,
}: SeveralDemandsAnswer & AtBenches): string {
  const told = demands.map(({ demand, people }) => {
    const who = people === null ? "no plan" : countPeople(people);
    return `${who} at ${decimal(demand.units, 6)} per ${demand.period}`;
  });
  const today = fromToday === null ? "" : `; ${movesWords(fromToday.moves.length)} from today`;
  const then = demands.some(({ change }) => change !== null)
    ? `; ${movesWords(movesBetween)} between the demands`
    : "";
  return `${capital(firstAndLast(told, "demand"))}${today}${then}.${atBenchesWords(peopleAtBenches)}`;
}

/** "4 people for 600 to 720 good units per day, 5 people for 721 to 900."; empty where no demand was looked at. */
export function staffWords({ steps, range, isCut }: StaffAnswer): string {
  if (steps.length === 0) return "";
  const unit = ` good units per ${range.period}`;
  const told = steps.map(({ people, from, to, outcome }, at) => {
    const [low, high] = [decimal(from, 6), decimal(to, 6)];
    const none = outcome === "infeasible" ? "no plan" : "no plan found";
    const who = people === null ? none : countPeople(people);
    return `${who} for ${low === high ? low : `${low} to ${high}`}${at === 0 ? unit : ""}`;
  });
  const isOpen = steps.some(({ outcome }) => outcome === "found" || outcome === "stopped");
  return `${capital(firstAndLast(told, "step"))}${isOpen ? "; not all proved" : ""}${isCut ? "; stopped before the end" : ""}.`;
}

/** "4 stations and 5 people with everything on the line; the best of 3 blocks (lace, true) frees 1 person." */
export function offLineWords(answer: OffLineAnswer): string {
  const { before } = answer;
  const whole =
    before.stations === null || before.people === null
      ? `No plan ${before.outcome === "infeasible" ? "exists" : "was found"} with everything on the line`
      : `${countOf(before.stations, "station")} and ${countPeople(before.people)} with everything on the line`;
  return `${whole}; ${benchesWords(answer)}.`;
}

function benchesWords({ line, asked, stated, together, blocks, before }: OffLineAnswer): string {
  const answers = asked ?? stated;
  if (answers === null) {
    const [best] = blocks ?? [];
    if (best === undefined) return "no block may go";
    const tasks = best.bench.stations.flatMap((each) => each.tasks.map((task) => line.tasks[task]!.id));
    if (blocks!.length > 1 && blocks!.every(({ plan }) => plan?.people === null))
      return `none of ${countOf(blocks!.length, "block")} that may go leaves a line with a plan`;
    const named = tasks.length > 3 ? [...tasks.slice(0, 2), `${tasks.length - 2} more`] : tasks;
    const which = `the best of ${countOf(blocks!.length, "block")}`;
    return `${blocks!.length === 1 ? "the only block" : which} (${named.join(", ")}) ${effectWords(best, before)}`;
  }
  const rated = answers.flatMap((each) => (each.rated === null ? [] : [each.rated]));
  const [single, several] = asked === null ? ["bench", "benches"] : ["block asked for", "blocks asked for"];
  const may =
    answers.length === 1
      ? `the ${single} may ${rated.length === 1 ? "" : "not "}be`
      : `${rated.length} of ${answers.length} ${several} may be`;
  const one = rated.length === 1 ? `: it ${effectWords(rated[0]!, before)}` : "";
  const all = together === null ? one : `; together they ${effectWords(together, before, "")}`;
  return `${may} built beside it${all}`;
}

/** "frees 1 person", with the doubt where a number is not proved; `ending` is that of the verb. */
function effectWords(
  { plan, people }: Pick<RatedBlock, "plan" | "people">,
  before: OffLinePlan,
  ending = "s",
): string {
  if (plan === null) return "is not balanced again";
  if (plan.people === null) return `leave${ending} a line without a plan`;
  const freed = people?.freed ?? null;
  if (freed === null) return `take${ending} ${countPeople(plan.people)}`;
  const doubt = [before, plan].every(({ outcome }) => outcome === "proved") ? "" : " (not proved)";
  if (freed === 0) return `free${ending} nobody${doubt}`;
  const who = `${countPeople(Math.abs(freed))}${freed > 0 ? "" : " more"}${people!.isOfDay ? " a day" : ""}`;
  return `${freed > 0 ? "free" : "cost"}${ending} ${who}${doubt}`;
}

/** "Fewest people a day: jig (3, as it is 4); least cost per unit: jig (1.50 EUR, as it is 2.00 EUR)."; empty without a plan. */
export function compareWords({ options, rows, facts }: Comparison): string {
  const rowOf = (key: RowKey) => rows.find((row) => row.key === key)!;
  const names = options.map(({ asked }) => asked.name);
  const perDay = rowOf("peoplePerDay");
  const people = perDay.values.some((each) => each !== null) ? perDay : rowOf("peoplePerShift");
  const period = people === perDay ? " a day" : "";
  const showPeople = (value: Ratio) => decimal(value, 0);
  const best = [
    bestWords(`fewest people${period}`, names, people, showPeople),
    bestWords("least cost per unit", names, rowOf("costPerUnit"), (value, at) =>
      money(value, options[at]!.asked.line.rates?.currency ?? null),
    ),
    soonestWords(names, facts),
  ].filter((each) => each !== "");
  const known = people.values.flatMap((value, at) =>
    value === null ? [] : [`${names[at]} ${showPeople(value)}`],
  );
  if (known.length === 0) return "";
  const told = people.isBest.includes(true)
    ? best
    : [`people${people === perDay ? " a day" : ""}: ${firstAndLast(known, "option")}`, ...best];
  return `${capital(told.join("; "))}.`;
}

/** Which options are the best of a row, beside the first where that is none of them. */
function bestWords(
  what: string,
  names: readonly string[],
  { values, isBest }: RowOfFigures,
  show: (value: Ratio, at: number) => string,
): string {
  const at = isBest.indexOf(true);
  if (at < 0) return "";
  const best = names.filter((_, option) => isBest[option]);
  const which = best.length > 3 ? `${best.length} options` : listOf(best);
  const first = values[0] ?? null;
  const beside = isBest[0] || first === null ? "" : `, ${names[0]} ${show(first, 0)}`;
  return `${what}: ${which} (${show(values[at]!, at)}${best.length > 1 ? " each" : ""}${beside})`;
}

/** The option that is paid back first. */
function soonestWords(names: readonly string[], facts: Comparison["facts"]): string {
  const paid = facts.flatMap(({ payback }, at) =>
    payback?.outcome === "pays back" ? [{ name: names[at]!, days: payback.workingDays }] : [],
  );
  const [soonest] = paid.toSorted((one, two) => difference(one.days, two.days));
  return soonest === undefined
    ? ""
    : `${paid.length > 1 ? "first paid back" : "paid back"}: ${soonest.name} (${daysShown(soonest.days)} working days)`;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const movesWords = (moves: number): string => (moves === 0 ? "no moves" : countOf(moves, "move"));

/** All of a few, else the first and the last of them, and how many stand between. */
function firstAndLast(told: readonly string[], what: string): string {
  return told.length <= 3
    ? told.join(", ")
    : `${told[0]}, ${countOf(told.length - 2, what)} between, ${told.at(-1)}`;
}
