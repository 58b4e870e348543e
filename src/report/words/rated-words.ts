import type { OffLineAnswer, RatedBlock, RatedSet } from "../../answer/off-line/off-line-answer.js";
import type { OffLinePlan, PeopleCompared } from "../../answer/off-line/plan-with-benches.js";
import { countOf, countPeople } from "../../findings/count-of.js";
import type { Line } from "../../line/line.js";
import { whyWords } from "./obstacle-words.js";

type Answered = Pick<OffLineAnswer, "line" | "before">;
type Rated = Pick<RatedSet, "plan" | "people">;

/** What benches change, in plain words: people first, then the length of the line, then what must be looked after. */
export function setWords({ line, before }: Answered, { plan: after, people }: Rated): string {
  if (after.people === null || after.stations === null) return noPlanWords(line, after);
  const stock = stockWords(after);
  if (before.people === null || before.stations === null) {
    // Only a proof says that nothing else does.
    const gain =
      before.outcome === "infeasible" ? "makes a balance possible" : "gives a balance where none was found";
    return `${gain}: ${countOf(after.stations, "station")} and ${inAllWords(after.people, after)}; ${stock}`;
  }
  return `${peopleVerdict(people, after)}; ${lengthWords(before.stations - after.stations)}; ${stock}${doubtWords(before, after)}`;
}

/** Everybody, and how many of them repair where no other figure says so. */
function inAllWords(people: number, { repairPeople }: OffLinePlan): string {
  const repairs = repairPeople === 0 ? "" : `, ${repairPeople} of them for repairs`;
  return `${countPeople(people)} in all${repairs}`;
}

function noPlanWords({ unit }: Line, { obstacles, outcome }: OffLinePlan): string {
  const why = whyWords(unit, obstacles);
  return outcome === "infeasible"
    ? `what stays on the line cannot be balanced${why}`
    : `no plan was found that keeps every rule with this bench${why}`;
}

function peopleVerdict(
  { before: one, after: two, isOfDay, freed }: PeopleCompared,
  plan: OffLinePlan,
): string {
  const unit = isOfDay ? " a day" : "";
  const busiest = isOfDay ? ` (${plan.people} in the busiest shift)` : "";
  if (freed === 0) return `no gain in people: ${one} and ${two}${unit}${busiest}`;
  const figures = `${one} before, ${two} after${unit}${busiest}`;
  return freed! > 0
    ? `frees ${countPeople(freed!)}: ${figures}`
    : `costs ${countPeople(-freed!)} more: ${figures}`;
}

function lengthWords(fewer: number): string {
  if (fewer === 0) return "the line is no shorter";
  return fewer > 0
    ? `the line is ${countOf(fewer, "station")} shorter`
    : `the line is ${countOf(-fewer, "station")} longer`;
}

function stockWords({ stockPoints, stock }: OffLinePlan): string {
  const places = stockPoints === 1 ? "one buffer stock" : `${stockPoints} buffer stocks`;
  return stock ? `${places} of ${countOf(stock, "unit")}` : places;
}

/** A difference of two numbers is certain only where both are proved. */
function doubtWords(before: OffLinePlan, after: OffLinePlan): string {
  const unproved = [before, after].flatMap((plan, at) =>
    plan.outcome === "proved" ? [] : [at === 0 ? "before" : "after"],
  );
  if (unproved.length === 0) return "";
  return `. Not proved least ${unproved.join(" and ")}, so the change is not certain`;
}

/** The same of one block; of one that was not balanced again what bounds say. */
export function blockWords(answer: Answered, { plan, people, least }: RatedBlock): string {
  if (plan !== null && people !== null) return setWords(answer, { plan, people });
  const { before } = answer;
  const needs = `at least ${countPeople(least.people)} and ${countOf(least.stations, "station")}`;
  const gainsNobody = before.people !== null && least.people >= before.people;
  return gainsNobody ? `frees nobody: ${needs}, by bounds` : `not balanced again; ${needs}, by bounds`;
}
