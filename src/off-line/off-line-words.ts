import { countOf, countPeople } from "../findings/count-of.js";
import type { Line } from "../line/line.js";
import { shiftsOf } from "./bench-hours.js";
import type { OffLinePlan } from "./plan-with-benches.js";

/** People before and after, counted so that they compare. */
export interface PeopleCompared {
  readonly before: number | null;
  readonly after: number | null;
  /** Of a day, because some bench of the file works other shifts than the line; otherwise at a time. */
  readonly isOfDay: boolean;
  /** Below 0 where it costs people; null where one of the lines has no plan. */
  readonly freed: number | null;
}

export function comparePeople(line: Line, before: OffLinePlan, after: OffLinePlan): PeopleCompared {
  const isOfDay = countsByDay(line);
  const [one, two] = isOfDay ? [before.peopleOfDay, after.peopleOfDay] : [before.people, after.people];
  return { before: one, after: two, isOfDay, freed: one === null || two === null ? null : one - two };
}

/** Whether some bench works other shifts than the line; people are then counted of a day, the same way in every answer. */
export function countsByDay(line: Line): boolean {
  const { calendar, benches } = line;
  return calendar !== null && benches.some(({ shifts }) => shifts !== null && shifts !== shiftsOf(line));
}

/** What benches change, in plain words: people first, then the length of the line, then what must be looked after. */
export function verdictWords(line: Line, before: OffLinePlan, after: OffLinePlan): string {
  if (after.people === null || after.stations === null) return noPlanWords(after);
  const stock = stockWords(after);
  if (before.people === null || before.stations === null) {
    return `makes a balance possible: ${countOf(after.stations, "station")} and ${inAllWords(after.people, after)}; ${stock}`;
  }
  return `${peopleVerdict(line, before, after)}; ${lengthWords(before.stations - after.stations)}; ${stock}${doubtWords(before, after)}`;
}

/** Everybody, and how many of them repair where no other figure says so. */
function inAllWords(people: number, { repairPeople }: OffLinePlan): string {
  const repairs = repairPeople === 0 ? "" : `, ${repairPeople} of them for repairs`;
  return `${countPeople(people)} in all${repairs}`;
}

function noPlanWords({ obstacles, outcome }: OffLinePlan): string {
  const why = obstacles.length === 0 ? "" : `: ${obstacles.join("; ")}`;
  return outcome === "infeasible"
    ? `what stays on the line cannot be balanced${why}`
    : `no plan was found that keeps every rule with this bench${why}`;
}

function peopleVerdict(line: Line, before: OffLinePlan, plan: OffLinePlan): string {
  const { before: one, after: two, isOfDay, freed } = comparePeople(line, before, plan);
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
  const places = stockPoints === 1 ? "one stock" : `${stockPoints} stocks`;
  return stock === 0 ? places : `${places} of ${countOf(stock, "unit")}`;
}

/** A difference of two numbers is certain only where both are proved. */
function doubtWords(before: OffLinePlan, after: OffLinePlan): string {
  const unproved = [before, after].flatMap((plan, at) =>
    plan.outcome === "proved" ? [] : [at === 0 ? "before" : "after"],
  );
  if (unproved.length === 0) return "";
  return `; ${unproved.join(" and ")} not proved least, so the change is not certain`;
}

/** What is known of a block that was not balanced again. */
export function boundWords(
  before: OffLinePlan,
  least: { readonly people: number; readonly stations: number },
): string {
  const needs = `at least ${countPeople(least.people)} and ${countOf(least.stations, "station")}`;
  const gainsNobody = before.people !== null && least.people >= before.people;
  return gainsNobody ? `frees nobody: ${needs}, by bounds` : `not balanced again; ${needs}, by bounds`;
}
