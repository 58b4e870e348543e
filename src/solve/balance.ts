import type { Line } from "../line/line.js";
import { allFollowers } from "../line/reach.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import { peopleOf } from "../plan/figures/people.js";
import { smoothness } from "../plan/figures/smoothness.js";
import { type Plan, planOf } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { verifyPlan } from "../plan/verify-plan.js";
import type { Pace } from "../time/pace.js";
import { compare } from "../time/ratio.js";
import { type Bound, staticBounds } from "./bounds/bound.js";
import { type FillingStep, fillStations } from "./fill-stations.js";
import { type LevelAnswer, levelStations } from "./level/level-stations.js";
import { loadsInParts } from "./parts.js";
import type { StationProblem, Stations } from "./problem.js";
import { type Ranking, rankTasks } from "./rank-tasks.js";
import { RULES } from "./rules/register.js";
import type { RankedTasks, Rule } from "./rules/rule.js";
import { fewestStations, type SearchAnswer } from "./search/fewest-stations.js";
import { toStationProblem } from "./station-problem.js";
import { verifyBound } from "./verify-bound.js";
import { verifyLimitBound } from "./verify-limit-bound.js";
import { type Watch, watchTimes } from "./watch-times.js";

export interface BalancingOptions {
  /** A rule's name, "exact" or "best". */
  readonly method: string;
  /** Partial plans that the search may look at; null where only the checkpoint ends it. */
  readonly nodes: number | null;
  /** No task may exceed the station limit, not even alone. */
  readonly strictLimit: boolean;
  /** With "best": even out the loads once the stations are as few as they get. */
  readonly level: boolean;
  /** Keep every step of station filling, for people who check it by hand. */
  readonly explain: boolean;
  /** Asked now and then whether to go on. */
  readonly checkpoint: Watch;
}

/** A rule at work: its ranking and every step of filling the stations by it. */
export interface RuleRun extends Ranking {
  readonly stations: Stations;
  /** Empty unless asked for. */
  readonly steps: readonly FillingStep[];
}

/** A verified balance of a line whose tasks all fit a station. */
export interface Balance {
  readonly plan: Plan;
  /** The method that gave the plan shown. */
  readonly method: string;
  /** The bound says that no fewer stations are possible. */
  readonly proved: boolean;
  readonly bound: Bound;
  /** Bounds known before any search, best first. */
  readonly rootBounds: readonly Bound[];
  readonly rules: readonly RuleRun[];
  /** What the rules looked at. */
  readonly ranked: RankedTasks;
  /** What each method that ran got, in the order of the register, "exact" last. */
  readonly methods: readonly {
    readonly method: string;
    readonly stations: number;
    readonly people: number;
  }[];
  /** The search, where one was asked for. */
  readonly search: SearchAnswer | null;
  /** How far the loads were evened out; null where that was not asked for. */
  readonly level: LevelAnswer | null;
  /** Whether evening out moved any task. */
  readonly evened: boolean;
}

/**
 * Balances a line by the methods asked for and keeps the best plan: fewest stations, then the shortest cycle of the plan,
 * then the smoothest, then the order of the register; "best" then evens out its loads. Every plan passes the verifier first.
 *
 * @throws Error when the verifier refuses a plan: a fault of this program, never of the input
 */
export async function balance(line: Line, pace: Pace, options: BalancingOptions): Promise<Balance> {
  const problem = toStationProblem(line, pace);
  const rootBounds = staticBounds(problem);
  const asked = RULES.filter((rule) => rule.name === options.method);
  const ranked = lookAtTasks(line);
  const rules = runRules(ranked, problem, asked.length > 0 ? asked : RULES, options.explain);
  const plans = rules.map((run) => ({ method: run.rule.name, plan: planOf(run.stations) }));
  for (const { plan } of plans) refuseUnverified(line, pace, plan, options.strictLimit);

  let search: SearchAnswer | null = null;
  if (asked.length === 0) {
    const first = best(line, pace, plans).plan.stations.map((station) => station.tasks);
    search = await fewestStations(problem, first, { nodes: nodesOf(options) }, options.checkpoint);
    const found = { method: "exact", plan: planOf(search.stations) };
    refuseUnverified(line, pace, found.plan, options.strictLimit);
    if (options.method === "exact") plans.length = 0;
    plans.push(found);
  }
  const fewest = best(line, pace, plans);
  const level =
    options.level && options.method === "best" && search?.ended !== "interrupted"
      ? await levelStations(
          problem,
          fewest.plan.stations.map((station) => station.tasks),
          { nodes: nodesOf(options) },
          watchTimes(line, options.checkpoint, "even loads"),
        )
      : null;
  const shown = level === null ? fewest : { ...fewest, plan: planOf(level.stations) };
  refuseUnverified(line, pace, shown.plan, options.strictLimit);
  const bound = search?.bound ?? rootBounds[0]!;
  const ofLevel = level === null ? [] : verifyLimitBound(problem.times, problem.before, level.certificate);
  const wrong = [...verifyBound(problem, bound), ...ofLevel];
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  return {
    ...shown,
    proved: shown.plan.stations.length === bound.stations,
    bound,
    rootBounds,
    ranked,
    rules: options.method === "exact" ? [] : rules,
    methods: plans.map(({ method, plan }) => ({
      method,
      stations: plan.stations.length,
      people: peopleOf(plan),
    })),
    search,
    level,
    evened: contents(shown.plan) !== contents(fewest.plan),
  };
}

/** Which tasks stand where, whatever their order of work. */
function contents(plan: Plan): string {
  return plan.stations.map((station) => station.tasks.toSorted((one, two) => one - two).join()).join("|");
}

const nodesOf = ({ nodes }: BalancingOptions): number => nodes ?? Number.MAX_SAFE_INTEGER;

/** The true task times, also of tasks that the stations treat as full ones. */
function lookAtTasks(line: Line): RankedTasks {
  const times = loadsInParts(line);
  const followers = allFollowers(line.before);
  return { times, before: line.before, followers: times.map((_, task) => followers.list(task)) };
}

function runRules(
  ranked: RankedTasks,
  problem: StationProblem,
  rules: readonly Rule[],
  explain: boolean,
): RuleRun[] {
  return rules.map((rule) => {
    const ranking = rankTasks(rule, ranked);
    const steps: FillingStep[] = [];
    const stations = fillStations(problem, ranking.order, explain ? (step) => steps.push(step) : null);
    return { ...ranking, stations, steps };
  });
}

interface Candidate {
  readonly method: string;
  readonly plan: Plan;
}

function best(line: Line, pace: Pace, candidates: readonly Candidate[]): Candidate {
  return candidates.reduce((one, two) => (isBetter(line, pace, two.plan, one.plan) ? two : one));
}

function isBetter(line: Line, pace: Pace, one: Plan, two: Plan): boolean {
  if (one.stations.length !== two.stations.length) return one.stations.length < two.stations.length;
  const [ofOne, ofTwo] = [postsOf(line, pace, one), postsOf(line, pace, two)];
  const [cycle, other] = [cycleOfPlan(ofOne), cycleOfPlan(ofTwo)];
  const slower = compare(cycle, other);
  return slower !== 0 ? slower < 0 : smoothness(ofOne, cycle) < smoothness(ofTwo, other);
}

function refuseUnverified(line: Line, pace: Pace, plan: Plan, strictLimit: boolean): void {
  const faults = verifyPlan(line, pace, plan, strictLimit);
  if (faults.length > 0) {
    throw new Error(`the verifier refused a plan: ${faults.map((each) => each.message).join("; ")}`);
  }
}
