import { shiftsOf } from "../../benches/bench-hours.js";
import { stockOfBenches } from "../../benches/bench-stock.js";
import type { BenchFigures } from "../../benches/measure-bench.js";
import { withoutScrapOf } from "../../benches/without-scrap.js";
import { tells } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { cycleOfPlan, slowestPost } from "../../plan/figures/cycle.js";
import { efficiencyAtPace } from "../../plan/figures/efficiency.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import { ONE_PERSON, type Plan, type Station } from "../../plan/plan.js";
import { type Post, postsOf } from "../../plan/post.js";
import { verifyRules } from "../../plan/verify-plan.js";
import type { Pace } from "../../time/pace.js";
import { compare, type Ratio } from "../../time/ratio.js";
import type { Obstacle } from "../balance/obstacle.js";
import type { RestOfLine } from "./balance-rest.js";
import type { RankedFigures } from "./rank-order.js";

/** A line with benches beside it: who works where, and what that costs; times in microseconds. Without benches, the line alone. */
export interface OffLinePlan {
  readonly benches: readonly BenchFigures[];
  /** Stations of the line and benches, with task numbers of the whole line; null where there is no plan that keeps its rules. */
  readonly plan: Plan | null;
  /** What stays on the line and no station can hold, and rules that the benches break beside it; mostly empty. */
  readonly obstacles: readonly Obstacle[];
  readonly outcome: RestOfLine["outcome"];
  /** Stations of the line alone; null without a plan, like every figure below. */
  readonly stations: number | null;
  readonly leastStations: number | null;
  /** Of the stations of the line alone. */
  readonly linePeople: number | null;
  /** Who repairs beside the line, at a time: benches change nothing about that. */
  readonly repairPeople: number;
  /** People of line and benches and for repairs, in the busiest shift. */
  readonly people: number | null;
  readonly leastPeople: number | null;
  /** The same people in all shifts of a day; without a calendar the same as `people`. */
  readonly peopleOfDay: number | null;
  readonly slowestStation: string | null;
  readonly cycleOfPlan: Ratio | null;
  /** At the pace, over all people, of line and benches; null where a station is overloaded. */
  readonly efficiency: Ratio | null;
  /** Units' parts between benches and line. */
  readonly stock: number | null;
  /** Places where such parts lie: one for each task that a bench hands to. */
  readonly stockPoints: number;
}

/** The figures of a line of which benches build a part. */
export function planWithBenches(
  whole: Line,
  pace: Pace,
  rest: RestOfLine,
  benches: readonly BenchFigures[],
): OffLinePlan {
  const repairPeople = peopleAtRepairs(whole, pace);
  const common = {
    benches,
    repairPeople,
    outcome: rest.outcome,
    obstacles: [],
    stock: stockOfBenches(benches),
    stockPoints: benches.reduce((sum, each) => sum + each.joinsAt.length, 0),
  };
  if (rest.plan === null || rest.least === null)
    return { ...common, ...WITHOUT_PLAN, obstacles: rest.obstacles };
  const { plan, line } = rest;
  const stations = plan.stations.map((station) => renumber(station, rest.numbers));
  const shown = { stations, benches: benches.flatMap(asStations) };
  const obstacles = benches.length === 0 ? [] : obstaclesOf(whole, pace, shown, benches);
  if (obstacles.length > 0) return { ...common, ...WITHOUT_PLAN, outcome: "stopped", obstacles };
  const atBenches = benches.reduce((sum, each) => sum + each.people, 0);
  const linePeople = peopleOf(plan);
  const posts = [...postsOf(line, pace, plan), ...benches.flatMap(postsAtBench)];
  return {
    ...common,
    plan: shown,
    stations: plan.stations.length,
    leastStations: rest.least.stations,
    linePeople,
    people: linePeople + atBenches + repairPeople,
    leastPeople: rest.least.people + atBenches + repairPeople,
    peopleOfDay: benches.reduce(
      (sum, each) => sum + each.peopleOfDay,
      (linePeople + repairPeople) * shiftsOf(whole),
    ),
    slowestStation: slowestPost(posts).id,
    cycleOfPlan: cycleOfPlan(posts),
    efficiency: efficiencyAtPace(posts, pace.lineCycle),
  };
}

const WITHOUT_PLAN = {
  plan: null,
  stations: null,
  leastStations: null,
  linePeople: null,
  people: null,
  leastPeople: null,
  peopleOfDay: null,
  slowestStation: null,
  cycleOfPlan: null,
  efficiency: null,
} as const;

const renumber = (station: Station, numbers: readonly number[]): Station => ({
  ...station,
  tasks: station.tasks.map((task) => numbers[task]!),
});

/** The stations of a bench as a plan names them: B1, B2, ... where it has no name of its own. */
function postsAtBench({ id, posts }: BenchFigures, at: number): Post[] {
  const name = id ?? `B${at + 1}`;
  return posts.map((post, each) => ({ ...post, id: posts.length === 1 ? name : `${name}-${each + 1}` }));
}

const asStations = (bench: BenchFigures, at: number): Station[] =>
  postsAtBench(bench, at).map(({ id, tasks, places, crew }) => ({ ...ONE_PERSON, id, tasks, places, crew }));

/** What the verifier says of line and benches together: what is short, none where the plan holds. */
export function obstaclesOf(
  whole: Line,
  pace: Pace,
  plan: Plan,
  benches: readonly BenchFigures[],
): Obstacle[] {
  const line = withoutScrapOf(whole, plan.benches?.flatMap(({ tasks }) => tasks) ?? []);
  const faults = verifyRules(line, pace, plan);
  // What may be short once benches need it too; anything else that the verifier finds is a fault of this program.
  const wrong = faults.find((each) => !tells(each, "short-of"));
  if (wrong !== undefined) throw new Error(`the verifier refused a plan with benches: ${wrong.message}`);
  // It holds the machines of benches against the line cycle; those with a takt of their own were held against that.
  const isPaced = benches.every(({ takt }) => compare(takt, pace.lineCycle) === 0);
  return faults
    .filter(({ fact }) => isPaced || fact?.kind !== "short-of" || fact.what !== "machines")
    .map((fault) => ({ kind: "fault", fault }));
}

/** The figures of a plan that ranking looks at. Throws a RangeError for a line that has no plan. */
export function rankedOf({ peopleOfDay, stations, stock, stockPoints }: OffLinePlan): RankedFigures {
  if (peopleOfDay === null || stations === null) throw new RangeError("a line without a plan has no rank");
  return { people: peopleOfDay, stations, stock: stock ?? 0, stockPoints };
}

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
