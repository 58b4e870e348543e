import type { Line } from "../line/line.js";
import { allFollowers } from "../line/reach.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import { smoothness } from "../plan/figures/smoothness.js";
import type { Plan } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { stationNumbers } from "../plan/station-numbers.js";
import { verifyPlan } from "../plan/verify-plan.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, larger, type Ratio, ratio } from "../time/ratio.js";
import { type Bound, staticBounds } from "./bounds/bound.js";
import { PeopleBound } from "./bounds/people-bound.js";
import { type ByZone, balanceByZone } from "./by-zone.js";
import { ANY_COST, type Cost, costOf, isCheaper, PEOPLE_FIRST } from "./cost.js";
import { drawOntoFloor } from "./draw-onto-floor.js";
import { type EvenLoads, evenLoads } from "./even-loads.js";
import { findShortage, type Shortage } from "./explain/find-shortage.js";
import { findStuckTasks, type StuckTask } from "./explain/find-stuck-tasks.js";
import { type FillingStep, fillStations } from "./fill-stations.js";
import { fillWork } from "./fill-work.js";
import { FirstPlans, type UnfinishedPlan } from "./improve/first-plans.js";
import { handledOnce, layOutWork, type WorkLimits } from "./lay-out-work.js";
import { orderOfWork, positionalWeights } from "./order-of-work.js";
import {
  fromParts,
  isCountedExactly,
  loadsInParts,
  mostRounding,
  partsWithin,
  type Rounding,
} from "./parts.js";
import type { StationProblem, Stations } from "./problem.js";
import { type Ranking, rankTasks } from "./rank-tasks.js";
import { RULES } from "./rules/register.js";
import type { RankedTasks, Rule } from "./rules/rule.js";
import { fewestStations } from "./search/fewest-stations.js";
import { mostStates, runSearch, type SearchEnd } from "./search/run-search.js";
import { asksTimeOnly, blocksWithoutStation } from "./search/task-rules.js";
import { makesWholePlans } from "./search/two-way-search.js";
import { arrangeBlocks, positionsOf } from "./station/arrange-blocks.js";
import { toPlan } from "./to-plan.js";
import { verifyBound } from "./verify-bound.js";
import type { Progress, Watch } from "./watch-times.js";
import type { BlockPlan, Work } from "./work.js";

export interface BalancingOptions {
  /** A rule's name, "exact" or "best". */
  readonly method: string;
  /** Partial plans that the search may look at; null where only the checkpoint ends it. */
  readonly nodes: number | null;
  /** No task may exceed the station limit, not even alone. */
  readonly strictLimit: boolean;
  /** With "best": even out the loads once people and stations are as few as they get. */
  readonly level: boolean;
  /** Keep every step of station filling, for people who check it by hand. */
  readonly explain: boolean;
  /** How often the partial plans allowed may double while no plan stands and none is ruled out; never where left out. */
  readonly doublings?: number;
  /** A plan to start from; none where left out. Tasks that it leaves out find a station. */
  readonly from?: Plan | null;
  /** Asked now and then whether to go on. */
  readonly checkpoint: Watch;
}

/** What was placed where no whole plan was found. */
export interface UnfinishedBalance {
  readonly plan: Plan;
  /** Tasks for which no station was found. */
  readonly left: readonly number[];
  /** Where each of them could stand by its own rules, what comes before and after it, and how much room is left there. */
  readonly stuck: readonly StuckTask[];
}

/** A rule at work: its ranking and every step of filling the stations by it. */
export interface RuleRun extends Ranking {
  /** Null where the ranking runs into a rule of the floor. */
  readonly plan: Plan | null;
  /** Empty unless asked for. */
  readonly steps: readonly FillingStep[];
}

/** What balancing a line came to. */
export interface Balance {
  /** The verified plan; null where there is none. */
  readonly plan: Plan | null;
  /** The method that gave the plan shown. */
  readonly method: string | null;
  /** "infeasible": proved that no plan exists; "stopped": no plan was found before a limit. */
  readonly outcome: "proved" | "found" | "infeasible" | "stopped";
  readonly proved: boolean;
  /**
   * Nothing cheaper keeps limits that are one part in so many shorter, while with loads rounded down something does: null where that is
   * not so, or not known.
   */
  readonly within: bigint | null;
  /** No plan has fewer people, and none with so many has fewer stations; null where no plan exists. */
  readonly least: Cost | null;
  /** Stations that the line needs by time and precedence alone; null where stations may have several places or sides. */
  readonly bound: Bound | null;
  /** Bounds of the same kind known before any search, best first. */
  readonly rootBounds: readonly Bound[];
  /** The fewest stations of each zone by itself, where that says more than `bound`; otherwise empty. */
  readonly zones: ByZone["zones"];
  /** Stations are asked nothing but that their tasks fit, and are all alike: as many people as stations. */
  readonly timeOnly: boolean;
  /** The most that one person may be loaded with, in microseconds. */
  readonly perPerson: Ratio;
  /** What decides came from the search under the rules of the floor, not from `bound`. */
  readonly searched: boolean;
  readonly rules: readonly RuleRun[];
  /** What the rules looked at. */
  readonly ranked: RankedTasks;
  /** What each method that ran got, in the order of the register, "exact" last; null where it got no plan. */
  readonly methods: readonly {
    readonly method: string;
    readonly stations: number | null;
    readonly people: number | null;
  }[];
  /** The search, where one was asked for. */
  readonly search: {
    readonly nodes: number;
    /** Those of the search that ruled out what is cheaper: first plans and their improvement prove nothing. */
    readonly proofNodes: number;
    /** The partial plans allowed in the end; null where only the checkpoint ends the search. */
    readonly nodeLimit: number | null;
    readonly ended: SearchEnd;
  } | null;
  /** Where a search that was stopped without a plan got stuck; null where there is a plan or none exists. */
  readonly unfinished: UnfinishedBalance | null;
  /** Work that does not fit what it is held to: there is no plan, and nothing was searched; null where none is known. */
  readonly shortage: Shortage | null;
  /** How far the loads were evened out; null where that was not asked for. */
  readonly level: EvenLoads | null;
  /** Whether evening out moved any task. */
  readonly evened: boolean;
}

/**
 * Balances a line by the methods asked for and keeps the best plan: fewest people, then fewest stations, then the shortest cycle of the
 * plan, then the smoothest, then the order of the register; "best" then evens out its loads. Every rule fills stations under all that
 * the line asks of them; the search by time and precedence alone gives a bound, and often a plan that keeps the rest as well; the search
 * under all of it decides. Every plan passes the verifier first.
 *
 * @throws Error when the verifier refuses a plan: a fault of this program, never of the input
 */
export async function balance(line: Line, pace: Pace, options: BalancingOptions): Promise<Balance> {
  const limits = { pace, strictLimit: options.strictLimit, slowest: null, free: false };
  const once = handledOnce(line, limits);
  const eased = once === null ? null : await balanceWithin(line, once, options);
  return eased ?? (await balanceWithin(line, limits, options))!;
}

/** Null where plans were looked for with handling counted once and one does not hold, or has a longer cycle, with all passes. */
async function balanceWithin(
  line: Line,
  limits: WorkLimits,
  options: BalancingOptions,
): Promise<Balance | null> {
  const { pace } = limits;
  const task = new BalancingTask(line, limits, options);
  const runs = task.runMethods();
  const byMethods: Candidate[] = runs.map(({ ranking, plan }) => ({ method: ranking.rule.name, plan }));
  const decided = await task.decide(byMethods);
  const { found, bound, root, zones } = decided;
  const candidates = options.method === "exact" ? decided.exact : [...byMethods, ...decided.exact];
  const chosen = task.cheapest(candidates);
  const level = chosen === null ? null : await task.even(chosen.plan, found);
  const shown = level?.plan ?? chosen?.plan ?? null;
  const plan = shown === null ? null : task.toPlan(shown, level?.slowest ?? null);
  for (const each of [plan, ...candidates.map((one) => one.plan && task.toPlan(one.plan))]) {
    if (each === null) continue;
    const faults = verifyPlan(line, pace, each, options.strictLimit);
    if (faults.length > 0 && limits.isHandledOnce) return null;
    if (faults.length > 0)
      throw new Error(`the verifier refused a plan: ${faults.map(({ message }) => message).join("; ")}`);
  }
  if (limits.isHandledOnce && level !== null) {
    if (compare(cycleOfPlan(postsOf(line, pace, plan!)), level.slowest) > 0) return null;
  }
  const least = found?.least ?? root;
  const outcome = outcomeOf(chosen?.plan ?? null, least, found, task.isHopeless || task.shortage !== null);
  return {
    plan,
    method: chosen?.method ?? null,
    outcome,
    proved: outcome === "proved",
    within: found?.isRounded ? partsWithin(leastLimitOf(line, task.work), mostRounding(line)) : null,
    least: outcome === "infeasible" && found !== null ? null : least,
    bound,
    rootBounds: task.rootBounds,
    zones,
    timeOnly: task.timeOnly,
    perPerson: perPersonOf(line, task.work),
    searched: isSearched(task, chosen?.plan ?? null, decided),
    rules:
      options.method === "exact"
        ? []
        : runs.map(({ ranking, plan: own, steps }) => ({ ...ranking, plan: own && task.toPlan(own), steps })),
    ranked: task.ranked,
    methods: candidates.map(({ method, plan: each }) => ({
      method,
      stations: each?.length ?? null,
      people: each === null ? null : costOf(each).people,
    })),
    search:
      found === null
        ? null
        : {
            nodes: found.nodes,
            proofNodes: found.proofNodes,
            nodeLimit: found.nodeLimit,
            ended: found.ended,
          },
    unfinished: unfinishedOf(line, task.work, found),
    shortage: task.shortage,
    // The smoothest with handling counted once need not be that with all passes.
    level: level && limits.isHandledOnce ? { ...level, smoothness: "found" } : level,
    evened: level !== null && chosen !== null && contents(level.plan) !== contents(chosen.plan),
  };
}

/** What decides came from the search under the rules of the floor. */
function isSearched(task: BalancingTask, plan: BlockPlan | null, { found, root }: Decided): boolean {
  return !task.timeOnly && found?.ended === "proved" && isOpen(plan, root);
}

/** A line laid out at a pace, with the steps of balancing it. */
class BalancingTask {
  readonly work: Work;
  /** The work with loads rounded down, for what is proved; the same where nothing is rounded. */
  readonly low: Work;
  readonly timeOnly: boolean;
  /** Some task is too long for stations that are asked nothing but time. */
  readonly isHopeless: boolean;
  /** Work that does not fit what it is held to, which leaves nothing to search. */
  readonly shortage: Shortage | null;
  readonly rootBounds: readonly Bound[];
  readonly ranked: RankedTasks;
  /** By time and precedence alone, with loads rounded down. */
  private readonly alone: StationProblem | null;
  private readonly asked: readonly Rule[];

  constructor(
    private readonly line: Line,
    private readonly limits: WorkLimits,
    private readonly options: BalancingOptions,
  ) {
    this.work = layOutWork(line, this.limits);
    this.low = isCountedExactly(line) ? this.work : layOutWork(line, this.limits, "down");
    this.timeOnly = asksTimeOnly(this.work);
    this.isHopeless = this.timeOnly && blocksWithoutStation(this.low).length > 0;
    this.shortage = this.timeOnly ? null : findShortage(line, this.low);
    this.alone = timeAlone(line, this.low, "down");
    this.rootBounds = this.alone === null ? [] : staticBounds(this.alone);
    this.ranked = rankedTasks(line);
    this.asked = RULES.filter((rule) => rule.name === options.method);
  }

  /** Stations filled by the method asked for, or by each of them. */
  runMethods() {
    if (this.isHopeless) return [];
    const { line, limits } = this;
    const alone = this.low === this.work ? this.alone : timeAlone(line, this.work, "up");
    // Where handling is counted once, the methods count it as it is.
    const work = limits.isHandledOnce ? layOutWork(line, { ...limits, isHandledOnce: false }) : this.work;
    return (this.asked.length > 0 ? this.asked : RULES).map((rule) => {
      const ranking = rankTasks(rule, this.ranked);
      const steps: FillingStep[] = [];
      const onStep = this.options.explain ? (step: FillingStep) => steps.push(step) : null;
      const plan =
        this.timeOnly && work === this.work
          ? positioned(work, fillStations(alone!, ranking.order, onStep))
          : fillWork(work, ranking.order, onStep);
      return { ranking, plan, steps };
    });
  }

  /** What is proved, and what the search finds; no search where one method is asked for. */
  async decide(byMethods: readonly Candidate[]): Promise<Decided> {
    const { line, work, low, options, timeOnly, alone } = this;
    const isSearch = this.asked.length === 0;
    const isOpenToSearch = isSearch && this.shortage === null;
    const time = await searchByTime(work, alone, this.rootBounds, options, isOpenToSearch && !timeOnly);
    const byZone = isOpenToSearch ? await this.searchByZone(byMethods, time.bound) : null;
    const root = rootCost(low, time.bound, byZone?.stations);
    let { bound } = time;
    let found: Found | null = null;
    if (isSearch) {
      const zoned = byZone?.plan == null ? null : arrangeBlocks(work, positionsOf(work, byZone.plan));
      const known = [time.plan, zoned].map((plan) => ({ method: "exact", plan }));
      const start = this.cheapest([...byMethods, ...known])?.plan ?? null;
      const from = options.from == null ? null : positionsIn(line, work, options.from);
      const used = time.nodes + (byZone?.nodes ?? 0);
      found = isOpenToSearch
        ? await searchFrom(work, start, root, options, used, from)
        : { ...NOTHING_FOUND, least: root, nodeLimit: options.nodes };
      if (low !== work && isOpenToSearch) found = await proveBelow(low, found, root, options);
      if (timeOnly && found.least.stations > root.stations)
        bound = { kind: "search", stations: found.least.stations, tasks: [], nodes: found.nodes };
    }
    if (bound !== null) refuseWrongBound(alone!, bound);
    const zones = byZone !== null && byZone.stations > (bound?.stations ?? 0) ? byZone.zones : [];
    const plan = found && (timeOnly ? inOrderOfWork(line, work, found.plan) : found.plan);
    return { found, bound, root, zones, exact: found === null ? [] : [{ method: "exact", plan }] };
  }

  private async searchByZone(byMethods: readonly Candidate[], bound: Bound | null): Promise<ByZone | null> {
    const { low, options } = this;
    if (this.timeOnly || this.alone === null) return null;
    if (!isOpen(this.cheapest(byMethods)?.plan ?? null, rootCost(low, bound))) return null;
    return balanceByZone(low, Math.ceil(nodesOf(options) / TIME_SHARE), options.checkpoint);
  }

  cheapest(candidates: readonly Candidate[]) {
    return cheapest(this.line, this.limits.pace, this.work, candidates);
  }

  /** Null where that was not asked for. */
  async even(plan: BlockPlan, found: Found | null): Promise<EvenLoads | null> {
    const { level, method, checkpoint } = this.options;
    if (!level || method !== "best" || found?.ended === "interrupted") return null;
    return evenLoads(this.line, this.limits, plan, nodesOf(this.options), checkpoint);
  }

  /** @param slowest the cycle that an evened plan keeps: its crews are those that this asks for */
  toPlan(plan: BlockPlan, slowest: Ratio | null = null): Plan {
    const { line, limits, timeOnly } = this;
    const work = slowest === null || timeOnly ? this.work : layOutWork(line, { ...limits, slowest });
    return toPlan(line, work, drawOntoFloor(work, plan), timeOnly);
  }
}

interface Decided {
  readonly found: Found | null;
  readonly bound: Bound | null;
  /** What no plan goes below, before any search under all that is asked of stations. */
  readonly root: Cost;
  readonly zones: ByZone["zones"];
  readonly exact: readonly Candidate[];
}

/** Whether a plan may still be cheaper than what is known. */
function isOpen(plan: BlockPlan | null, root: Cost): boolean {
  return plan === null || isCheaper(root, costOf(plan), PEOPLE_FIRST);
}

interface Candidate {
  readonly method: string;
  readonly plan: BlockPlan | null;
}

/** Which blocks stand where, whatever their order of work. */
function contents(plan: BlockPlan): string {
  return plan
    .map(({ position, blocks }) => `${position}: ${blocks.toSorted((one, two) => one - two).join()}`)
    .join("|");
}

const nodesOf = ({ nodes }: BalancingOptions): number => nodes ?? Number.MAX_SAFE_INTEGER;

/** The first of the cheapest, of the fastest of those, and of the smoothest of those. */
function cheapest(
  line: Line,
  pace: Pace,
  work: Work,
  candidates: readonly Candidate[],
): { readonly method: string; readonly plan: BlockPlan } | null {
  let best: { readonly method: string; readonly plan: BlockPlan } | null = null;
  for (const { method, plan } of candidates) {
    if (plan !== null && (best === null || isBetter(line, pace, work, plan, best.plan)))
      best = { method, plan };
  }
  return best;
}

function isBetter(line: Line, pace: Pace, work: Work, one: BlockPlan, two: BlockPlan): boolean {
  if (isCheaper(costOf(one), costOf(two), PEOPLE_FIRST)) return true;
  if (isCheaper(costOf(two), costOf(one), PEOPLE_FIRST)) return false;
  const [ofOne, ofTwo] = [one, two].map((plan) => postsOf(line, pace, toPlan(line, work, plan)));
  const [cycle, other] = [cycleOfPlan(ofOne!), cycleOfPlan(ofTwo!)];
  const slower = compare(cycle, other);
  return slower !== 0 ? slower < 0 : smoothness(ofOne!, cycle) < smoothness(ofTwo!, other);
}

function outcomeOf(
  plan: BlockPlan | null,
  least: Cost,
  found: Found | null,
  isHopeless: boolean,
): Balance["outcome"] {
  if (plan === null) return isHopeless || found?.ended === "proved" ? "infeasible" : "stopped";
  return isCheaper(least, costOf(plan), PEOPLE_FIRST) ? "found" : "proved";
}

/** What rules read of the tasks of a line: their true times, in parts of a microsecond. */
export function rankedTasks(line: Line): RankedTasks {
  return { times: loadsInParts(line), before: line.before, followers: allFollowers(line.before) };
}

/** The line by time and precedence alone, as task numbers of the line; null where stations may have several places or sides. */
function timeAlone(line: Line, work: Work, rounding: Rounding): StationProblem | null {
  if (work.sides !== null || work.kinds.some(({ limits }) => limits.length > 1)) return null;
  const limit = Math.max(...work.kinds.map(({ limits }) => limits[0]!));
  if (limit < 1) return null;
  const times = loadsInParts(line, rounding).map((load) => Math.min(load, limit));
  return { times, limit, before: line.before };
}

/** Stations of tasks of the line as a plan of blocks, whatever else is asked of them. */
function positioned(work: Work, stations: Stations): BlockPlan {
  const blockOf = new Map(
    work.members.flatMap((tasks, block) => tasks.map((task) => [task, block] as const)),
  );
  return stations.map((tasks, position) => {
    const blocks = [...new Set(tasks.map((task) => blockOf.get(task)!))];
    return { position, blocks, places: 1, crew: 1 };
  });
}

/** The blocks of each station, a task each, in an order of work. */
function inOrderOfWork(line: Line, { members }: Work, plan: BlockPlan | null): BlockPlan | null {
  const problem = { times: loadsInParts(line), limit: 1, before: line.before };
  const weights = positionalWeights(problem);
  const blockOf = new Map(members.map(([task], block) => [task!, block]));
  return (
    plan?.map((station) => {
      const tasks = station.blocks.map((block) => members[block]![0]!);
      return { ...station, blocks: orderOfWork(problem, weights, tasks).map((task) => blockOf.get(task)!) };
    }) ?? null
  );
}

/** A bound that holds whatever else is asked of stations, and a plan that may keep all of it. */
async function searchByTime(
  work: Work,
  alone: StationProblem | null,
  rootBounds: readonly Bound[],
  options: BalancingOptions,
  search: boolean,
): Promise<{ readonly bound: Bound | null; readonly plan: BlockPlan | null; readonly nodes: number }> {
  const bound = rootBounds[0] ?? null;
  if (alone === null || !search) return { bound, plan: null, nodes: 0 };
  const first = fillStations(alone, [...alone.times.keys()]);
  const nodes = Math.ceil(nodesOf(options) / TIME_SHARE);
  const answer = await fewestStations(alone, first, { nodes }, options.checkpoint);
  const positionOf = work.loads.map(() => 0);
  for (const { position, blocks } of positioned(work, answer.stations))
    for (const block of blocks) positionOf[block] = position;
  return { bound: answer.bound, plan: arrangeBlocks(work, positionOf), nodes: answer.nodes };
}

function refuseWrongBound(alone: StationProblem, bound: Bound): void {
  const wrong = verifyBound(alone, bound);
  if (wrong.length > 0) throw new Error(`the check of certificates refused a bound: ${wrong.join("; ")}`);
}

function perPersonOf(line: Line, { kinds }: Work): Ratio {
  return kinds
    .flatMap(({ limits }) => limits.map((limit, at) => divide(fromParts(line, limit), ratio(at + 1))))
    .reduce(larger);
}

/** The least that a station with one place may be loaded with, in microseconds. */
const leastLimitOf = (line: Line, { kinds }: Work): Ratio =>
  fromParts(line, Math.min(...kinds.map(({ limits }) => limits[0]!)));

/** No plan of the line has fewer people or fewer stations, by bounds alone; null where some task fits no station. */
export function leastCost(line: Line, pace: Pace, strictLimit: boolean): Cost | null {
  const work = layOutWork(line, { pace, strictLimit, slowest: null, free: false }, "down");
  if (blocksWithoutStation(work).length > 0) return null;
  const alone = timeAlone(line, work, "down");
  return rootCost(work, alone === null ? null : staticBounds(alone)[0]!);
}

/** What is known before any search under the rules. */
function rootCost(work: Work, bound: Bound | null, byZone = 0): Cost {
  const root = new PeopleBound(work).of([...work.loads.keys()]);
  const stations = Math.max(root.stations, bound?.stations ?? 0, byZone);
  return { people: Math.max(root.people, stations), stations };
}

interface Found {
  readonly plan: BlockPlan | null;
  readonly least: Cost;
  readonly ended: SearchEnd;
  readonly nodes: number;
  readonly proofNodes: number;
  readonly nodeLimit: number | null;
  readonly unfinished: UnfinishedPlan | null;
  /** Ruled out with loads rounded up, something cheaper is a plan with loads rounded down: whether true loads keep it is open. */
  readonly isRounded?: boolean;
}

/** What was ruled out with loads rounded up, with loads rounded down: that holds for the true ones between them. */
async function proveBelow(low: Work, found: Found, root: Cost, options: BalancingOptions): Promise<Found> {
  const { plan, nodeLimit } = found;
  if (plan !== null && !isCheaper(root, costOf(plan), PEOPLE_FIRST))
    return { ...found, least: root, ended: "proved" };
  if (found.ended !== "proved") return { ...found, least: root };
  const allowed = { ...options, nodes: nodeLimit };
  const { plan: cheaper, ...below } = await searchBelow(low, plan, root, allowed, found.nodes);
  const isRounded =
    cheaper !== null && (plan === null || isCheaper(costOf(cheaper), costOf(plan), PEOPLE_FIRST));
  // Without a plan of true loads nothing is ruled out.
  return { ...found, ...below, isRounded, ended: plan === null && isRounded ? "first" : below.ended };
}

/**
 * A first plan where more is asked of stations than time, then the search below it. While no plan stands and none is ruled out, both
 * have twice the nodes again.
 */
async function searchFrom(
  work: Work,
  start: BlockPlan | null,
  root: Cost,
  options: BalancingOptions,
  used: number,
  from: readonly number[] | null,
): Promise<Found> {
  let nodes = used;
  for (let [limit, doublings] = [nodesOf(options), options.doublings ?? 0]; ; limit *= 2, doublings--) {
    const allowed = { ...options, nodes: limit };
    const first = await firstPlan(work, start, root, allowed, nodes, from);
    const found = await searchBelow(work, first.plan, root, allowed, nodes + first.nodes);
    nodes = found.nodes;
    const nodeLimit = options.nodes === null ? null : limit;
    const unfinished = found.plan === null && found.ended !== "proved" ? first.unfinished : null;
    if (found.plan !== null || found.ended !== "nodes" || doublings === 0)
      return { ...found, nodeLimit, unfinished };
  }
}

/** Where no plan exists, as is known without a search. */
const NOTHING_FOUND = { plan: null, ended: "proved", nodes: 0, proofNodes: 0, unfinished: null } as const;

interface FirstFound {
  readonly plan: BlockPlan | null;
  readonly nodes: number;
  readonly unfinished: UnfinishedPlan | null;
}

/** The plan given, or a cheaper one that is filled and improved by ejection. */
async function firstPlan(
  work: Work,
  start: BlockPlan | null,
  root: Cost,
  options: BalancingOptions,
  used: number,
  from: readonly number[] | null,
): Promise<FirstFound> {
  const isDone = start !== null && !isCheaper(root, costOf(start), PEOPLE_FIRST);
  if (isDone || makesWholePlans(work) || blocksWithoutStation(work).length > 0)
    return { plan: start, nodes: 0, unfinished: null };
  // Where a plan stands already, the search makes more of the partial plans than further improvement does.
  const [share, most] =
    start === null ? [FIRST_SHARE, MOST_FIRST_NODES] : [IMPROVING_SHARE, MOST_IMPROVING_NODES];
  const enough = start === null ? most : Math.min(most, work.size ** 2 * TRIES_A_PAIR);
  const nodes = Math.min(enough, Math.floor(nodesOf(options) / share));
  const first = new FirstPlans(work, { nodes, least: root }, from);
  for (const _ of first.stretches()) {
    const people = first.best === null ? "none" : costOf(first.best).people;
    const progress: Progress = { nodes: used + first.nodes, best: people, bound: root.people };
    if ((await options.checkpoint(progress)) !== null) break;
  }
  const { best } = first;
  const isBetterThanStart =
    best !== null && (start === null || isCheaper(costOf(best), costOf(start), PEOPLE_FIRST));
  return {
    plan: isBetterThanStart ? best : start,
    nodes: first.nodes,
    unfinished: best === null && start === null ? first.unfinished : null,
  };
}

/** First plans get this part of the partial plans, and no more than so many. */
const FIRST_SHARE = 4;
const MOST_FIRST_NODES = 200_000;
const IMPROVING_SHARE = 16;
const MOST_IMPROVING_NODES = 25_000;
/** Small lines are searched before much can be improved. */
const TRIES_A_PAIR = 10;

function unfinishedOf(line: Line, work: Work, found: Found | null): UnfinishedBalance | null {
  const unfinished = found?.unfinished ?? null;
  if (unfinished === null) return null;
  const left = unfinished.left.flatMap((block) => work.members[block]!);
  return {
    plan: toPlan(line, work, unfinished.plan),
    left: left.sort((one, two) => one - two),
    stuck: findStuckTasks(line, work, unfinished),
  };
}

/** The position of each block in a plan of the line; -1 where the plan does not have it. */
function positionsIn(line: Line, work: Work, plan: Plan): number[] {
  const positionOf = work.loads.map(() => -1);
  for (const [at, position] of stationNumbers(line, plan).entries()) {
    const { tasks } = plan.stations[at]!;
    for (const [block, members] of work.members.entries())
      if (members.some((task) => tasks.includes(task))) positionOf[block] = position;
  }
  return positionOf;
}

async function searchBelow(
  work: Work,
  first: BlockPlan | null,
  root: Cost,
  options: BalancingOptions,
  used: number,
): Promise<Omit<Found, "nodeLimit" | "unfinished">> {
  const ceiling = first === null ? ANY_COST : costOf(first);
  const start = { ceiling, aim: PEOPLE_FIRST, least: root, plan: first } as const;
  const limits = {
    nodes: Math.max(0, nodesOf(options) - used),
    memory: mostStates(work),
  };
  const answer = await runSearch(work, start, limits, ({ nodes, ceiling: best, bound }) =>
    options.checkpoint({
      nodes: used + nodes,
      best: best.people === ANY_COST.people ? "none" : best.people,
      bound: bound.people,
    }),
  );
  const { plan, bound, ended, nodes } = answer;
  return { plan, least: bound, ended, nodes: used + nodes, proofNodes: nodes };
}

/** The search by time alone gets this part of the partial plans. */
const TIME_SHARE = 4;
