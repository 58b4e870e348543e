import { peopleLeft, shortageOf } from "../../benches/people-at-benches.js";
import type { Line, Person } from "../../line/line.js";
import { peopleOf } from "../../plan/figures/people.js";
import type { Plan } from "../../plan/plan.js";
import { type SkilledPlace, seatPeople, skilledPlaces } from "../../plan/verify/skilled-places.js";
import type { Obstacle } from "../balance/obstacle.js";

type Outcome = "proved" | "found" | "infeasible" | "stopped";

/** What a search says of the line that stays. */
export interface Solved {
  readonly plan: Plan | null;
  readonly outcome: Outcome;
}

/** The line beside its benches, each of the people at one place only. */
export interface Staffed<Answer extends Solved> {
  /** The best that was found; the one with everybody on the line where there is no plan beside the benches. */
  readonly answer: Answer;
  readonly outcome: Outcome;
  /** With everybody on the line: no choice of people for the benches has a better plan than the bounds of this one. */
  readonly everybody: Answer;
  /** Why nobody can be left for the line; null where there is a plan, or the line has none by itself. */
  readonly obstacle: Obstacle | null;
}

/**
 * Solves the line that stays with the people who are not at the benches. With everybody it is no worse; where its people and those
 * of the benches are the same, every choice of people for the benches is taken off in turn.
 *
 * @param solve a rest as one of so many, which share the partial plans allowed
 * @param order below 0 where the first plan is the better
 */
export async function solveBeside<Answer extends Solved>(
  rest: Line,
  benchPlaces: readonly SkilledPlace[],
  solve: (rest: Line, shares: number) => Promise<Answer>,
  order: (one: Plan, two: Plan) => number = byPeople,
): Promise<Staffed<Answer>> {
  const everybody = await solve(rest, 1);
  const none = { answer: everybody, everybody };
  if (everybody.plan === null || isStaffed(rest, everybody.plan, benchPlaces)) {
    return { ...none, outcome: everybody.outcome, obstacle: null };
  }
  const short = shortageOf(rest.people, benchPlaces);
  if (short !== null)
    return { ...none, outcome: "infeasible", obstacle: { kind: "unstaffed-benches", ...short } };
  const left = peopleLeft(rest.people, benchPlaces);
  const answers: Answer[] = [];
  for (const people of left.choices) {
    answers.push(await solve(withPeople(rest, people), left.choices.length));
  }
  const best = answers
    .filter(({ plan }) => plan !== null)
    .reduce<Answer | null>((one, two) => (one === null || order(two.plan!, one.plan!) < 0 ? two : one), null);
  const isDone =
    left.isWhole && answers.every(({ outcome }) => outcome === "proved" || outcome === "infeasible");
  if (best !== null) {
    const isLeast = isDone || (everybody.outcome === "proved" && order(best.plan!, everybody.plan) === 0);
    return { answer: best, everybody, outcome: isLeast ? "proved" : "found", obstacle: null };
  }
  return isDone
    ? { ...none, outcome: "infeasible", obstacle: { kind: "unstaffed-line" } }
    : { ...none, outcome: "stopped", obstacle: { kind: "staffing-open" } };
}

/** Whether line and benches can be staffed together. */
function isStaffed(line: Line, { stations }: Plan, benchPlaces: readonly SkilledPlace[]): boolean {
  if (benchPlaces.length === 0) return true;
  return seatPeople([...benchPlaces, ...skilledPlaces(line, stations)], line.people) !== null;
}

/** Somebody without skills stands for nobody: a line on which no people are listed asks for none. */
const withPeople = (line: Line, people: readonly Person[]): Line => ({
  ...line,
  people: people.length === 0 ? [{ id: "", skills: [] }] : people,
});

/** Fewer people first, then fewer stations. */
const byPeople = (one: Plan, two: Plan): number =>
  peopleOf(one) - peopleOf(two) || one.stations.length - two.stations.length;
