import type { Line } from "../../line/line.js";
import { allFollowers } from "../../line/reach.js";
import type { Plan } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { Pace } from "../../time/pace.js";
import { divide, larger, type Ratio, ratio } from "../../time/ratio.js";
import type { BalancingOptions } from "../balance.js";
import { type Bound, staticBounds } from "../bounds/bound.js";
import { type Cost, costOf, isCheaper } from "../cost.js";
import { type FillingStep, fillStations } from "../fill-stations.js";
import { layOutWork, type WorkLimits } from "../lay-out-work.js";
import { fromParts, loadsInParts } from "../parts.js";
import type { StationProblem } from "../problem.js";
import { type Ranking, rankTasks } from "../rank-tasks.js";
import { RULES } from "../rules/register.js";
import type { RankedTasks } from "../rules/rule.js";
import { fewestStations } from "../search/fewest-stations.js";
import { toPlan } from "../to-plan.js";
import { verifyBound } from "../verify-bound.js";
import { watchTimes } from "../watch-times.js";
import type { BlockPlan, Work } from "../work.js";
import { arrangeFloor } from "./arrange-floor.js";
import { fillFloor } from "./fill-floor.js";
import { type LevelFloor, levelFloor } from "./level-floor.js";
import { PeopleBound } from "./people-bound.js";
import { type FloorSearchAnswer, MOST_FLOOR_STATES, runFloorSearch } from "./run-floor-search.js";
import type { LevelAim } from "./smooth-floor.js";

/** A rule at work under the rules of the floor. */
export interface FloorRuleRun extends Ranking {
  /** Null where the ranking runs into a rule of the floor. */
  readonly plan: Plan | null;
  readonly steps: readonly FillingStep[];
}

/** What balancing a line with shop-floor rules came to. */
export interface FloorBalance {
  /** The verified plan; null where there is none. */
  readonly plan: Plan | null;
  readonly method: string | null;
  /** "infeasible": proved that no plan exists; "stopped": no plan was found before a limit. */
  readonly outcome: "proved" | "found" | "infeasible" | "stopped";
  /** No plan has fewer people, and none with so many has fewer stations; null where no plan exists. */
  readonly least: Cost | null;
  /** The bound of the line without its rules, which holds with them; null where stations may have several places or sides. */
  readonly plain: Bound | null;
  /** The most that one person may be loaded with, in microseconds. */
  readonly perPerson: Ratio;
  /** The bound that decides came from the search under the rules, not from `plain`. */
  readonly searched: boolean;
  readonly rules: readonly FloorRuleRun[];
  readonly ranked: RankedTasks;
  readonly methods: readonly {
    readonly method: string;
    readonly stations: number | null;
    readonly people: number | null;
  }[];
  readonly search: { readonly nodes: number; readonly ended: FloorSearchAnswer["ended"] } | null;
  readonly level: LevelFloor | null;
  readonly evened: boolean;
}

/**
 * Balances a line with shop-floor rules: the fewest people, then the fewest stations, then even loads. Every rule fills stations
 * under the rules; the search without them gives a bound, and often a plan that keeps them; the search under them decides the rest.
 *
 * @throws Error when the verifier refuses a plan: a fault of this program, never of the input
 */
export async function balanceFloor(line: Line, pace: Pace, options: BalancingOptions): Promise<FloorBalance> {
  const limits: WorkLimits = { pace, strictLimit: options.strictLimit, slowest: null, free: false };
  const problem = layOutWork(line, limits);
  const asked = RULES.filter((rule) => rule.name === options.method);
  const ranked = rankedTasks(line);
  const runs = (asked.length > 0 ? asked : RULES).map((rule) => {
    const ranking = rankTasks(rule, ranked);
    const steps: FillingStep[] = [];
    const plan = fillFloor(problem, ranking.order, options.explain ? (step) => steps.push(step) : null);
    return { ranking, plan, steps };
  });
  let candidates: Candidate[] = runs.map(({ ranking, plan }) => ({ method: ranking.rule.name, plan }));
  const plain = await plainBound(line, problem, options, asked.length === 0);
  const root = rootCost(problem, plain.bound);
  let found: FloorSearchAnswer | null = null;
  const first = cheapest([...candidates, { method: "exact", plan: plain.plan }]);
  if (asked.length === 0) {
    found = await searchBelow(problem, first?.plan ?? null, root, options, plain.nodes);
    const exact = { method: "exact", plan: found.plan ?? first?.plan ?? null };
    candidates = options.method === "exact" ? [exact] : [...candidates, exact];
  }
  const best = cheapest(candidates);
  const searched =
    found?.ended === "proved" && (best === null || isCheaper(root, costOf(best.plan), "people"));
  const least = found?.ended === "proved" && best !== null ? costOf(best.plan) : root;
  const level =
    best !== null && options.level && options.method === "best" && found?.ended !== "interrupted"
      ? await levelFloor(
          line,
          limits,
          best.plan,
          asGoodAs(costOf(best.plan)),
          nodesOf(options),
          watchTimes(line, options.checkpoint, "even loads"),
        )
      : null;
  const shown = level?.plan ?? best?.plan ?? null;
  // Crews of an evened plan are those that its shorter cycle asks for.
  const made = level === null ? problem : layOutWork(line, { ...limits, slowest: level.slowest });
  const plan = shown === null ? null : toPlan(line, made, shown);
  for (const each of [plan, ...candidates.map((one) => one.plan && toPlan(line, problem, one.plan))]) {
    if (each !== null) refuseUnverified(line, pace, each, options.strictLimit);
  }
  return {
    plan,
    method: best?.method ?? null,
    outcome: outcomeOf(best?.plan ?? null, least, found),
    least: best === null && found?.ended === "proved" ? null : least,
    plain: plain.bound,
    perPerson: perPersonOf(line, problem),
    searched,
    rules:
      options.method === "exact"
        ? []
        : runs.map((run) => ({
            ...run.ranking,
            plan: run.plan && toPlan(line, problem, run.plan),
            steps: run.steps,
          })),
    ranked,
    methods: candidates.map(({ method, plan: each }) => ({
      method,
      stations: each?.length ?? null,
      people: each === null ? null : costOf(each).people,
    })),
    search: found === null ? null : { nodes: found.nodes, ended: found.ended },
    level,
    evened: level !== null && best !== null && level.plan !== best.plan,
  };
}

function asGoodAs(cost: Cost): LevelAim {
  return { aim: "people", ceiling: { ...cost, stations: cost.stations + 1 }, mostPeople: cost.people };
}

interface Candidate {
  readonly method: string;
  readonly plan: BlockPlan | null;
}

const nodesOf = ({ nodes }: BalancingOptions): number => nodes ?? Number.MAX_SAFE_INTEGER;

/** The first of the cheapest. */
function cheapest(
  candidates: readonly Candidate[],
): { readonly method: string; readonly plan: BlockPlan } | null {
  let best: { readonly method: string; readonly plan: BlockPlan } | null = null;
  for (const { method, plan } of candidates) {
    if (plan !== null && (best === null || isCheaper(costOf(plan), costOf(best.plan), "people")))
      best = { method, plan };
  }
  return best;
}

function outcomeOf(
  plan: BlockPlan | null,
  least: Cost,
  found: FloorSearchAnswer | null,
): FloorBalance["outcome"] {
  if (plan === null) return found?.ended === "proved" ? "infeasible" : "stopped";
  return isCheaper(least, costOf(plan), "people") ? "found" : "proved";
}

/** What rules read of the tasks of a line, in parts of a microsecond. */
export function rankedTasks(line: Line): RankedTasks {
  const followers = allFollowers(line.before);
  return {
    times: loadsInParts(line),
    before: line.before,
    followers: line.tasks.map((_, task) => followers.list(task)),
  };
}

/** The line without its rules, where its stations are all alike: a bound that holds with them, and a plan that may keep them. */
async function plainBound(
  line: Line,
  problem: Work,
  options: BalancingOptions,
  search: boolean,
): Promise<{ readonly bound: Bound | null; readonly plan: BlockPlan | null; readonly nodes: number }> {
  const isPlain = problem.sides === null && problem.kinds.every(({ limits }) => limits.length === 1);
  const limit = Math.max(...problem.kinds.map(({ limits }) => limits[0]!));
  if (!isPlain || limit < 1) return { bound: null, plan: null, nodes: 0 };
  const plain: StationProblem = {
    times: loadsInParts(line).map((load) => Math.min(load, limit)),
    limit,
    before: line.before,
  };
  let bound = staticBounds(plain)[0]!;
  let plan: BlockPlan | null = null;
  let nodes = 0;
  if (search) {
    const first = fillStations(plain, [...plain.times.keys()]);
    const answer = await fewestStations(
      plain,
      first,
      { nodes: Math.ceil(nodesOf(options) / PLAIN_SHARE) },
      options.checkpoint,
    );
    bound = answer.bound;
    nodes = answer.nodes;
    const positionOf = problem.loads.map(() => 0);
    for (const [position, tasks] of answer.stations.entries()) {
      for (const [block, members] of problem.members.entries())
        if (tasks.includes(members[0]!)) positionOf[block] = position;
    }
    plan = arrangeFloor(problem, positionOf);
  }
  const wrong = verifyBound(plain, bound);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
  return { bound, plan, nodes };
}

function perPersonOf(line: Line, { kinds }: Work): Ratio {
  return kinds
    .flatMap(({ limits }) => limits.map((limit, at) => divide(fromParts(line, limit), ratio(at + 1))))
    .reduce(larger);
}

/** What is known before any search under the rules. */
function rootCost(problem: Work, plain: Bound | null): Cost {
  const root = new PeopleBound(problem).of([...problem.loads.keys()]);
  const stations = Math.max(root.stations, plain?.stations ?? 0);
  return { people: Math.max(root.people, stations), stations };
}

async function searchBelow(
  problem: Work,
  first: BlockPlan | null,
  root: Cost,
  options: BalancingOptions,
  used: number,
): Promise<FloorSearchAnswer> {
  if (first !== null && !isCheaper(root, costOf(first), "people"))
    return { plan: first, ended: "proved", nodes: used };
  const ceiling = first === null ? ANY_COST : costOf(first);
  const limits = { nodes: Math.max(1, nodesOf(options) - used), memory: MOST_FLOOR_STATES };
  const answer = await runFloorSearch(problem, ceiling, "people", limits, (nodes, best) => {
    const people = best === null ? ceiling.people : costOf(best).people;
    return options.checkpoint({
      nodes: used + nodes,
      best: people === ANY_COST.people ? "none" : people,
      bound: root.people,
    });
  });
  return { ...answer, plan: answer.plan ?? first, nodes: used + answer.nodes };
}

const ANY_COST: Cost = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** The search without the rules gets this part of the partial plans. */
const PLAIN_SHARE = 4;

function refuseUnverified(line: Line, pace: Pace, plan: Plan, strictLimit: boolean): void {
  const faults = verifyPlan(line, pace, plan, strictLimit);
  if (faults.length > 0) {
    throw new Error(`the verifier refused a plan: ${faults.map((each) => each.message).join("; ")}`);
  }
}
