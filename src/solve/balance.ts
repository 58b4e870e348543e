import type { Line } from "../line/line.js";
import { cycleOfPlan } from "../plan/figures/cycle.js";
import type { Plan } from "../plan/plan.js";
import { postsOf } from "../plan/post.js";
import { stationNumbers } from "../plan/station-numbers.js";
import { verifyPlan } from "../plan/verify-plan.js";
import type { Pace } from "../time/pace.js";
import { compare, divide, larger, type Ratio, ratio } from "../time/ratio.js";
import type { Bound } from "./bounds/bound.js";
import { type ByZone, balanceByZone } from "./by-zone.js";
import { type Candidate, type ChosenPlan, PlanChoice } from "./choose-plan.js";
import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "./cost.js";
import { drawOntoFloor } from "./draw-onto-floor.js";
import { findShortage, type Shortage } from "./explain/find-shortage.js";
import { findStuckTasks, type StuckTask } from "./explain/find-stuck-tasks.js";
import { type FillingStep, fillStations } from "./fill-stations.js";
import { type Found, findCheapest, nodesOf, nothingFound, type SearchOptions } from "./find-cheapest.js";
import { handledOnce, layOutWork, type WorkLimits } from "./lay-out-work.js";
import { type LevelLine, levelLine } from "./level/level-line.js";
import { inOrderOfWork } from "./order-of-work.js";
import { fromParts, isCountedExactly, loadsInParts, mostRounding, partsWithin } from "./parts.js";
import { type Ranking, rankTasks } from "./rank-tasks.js";
import { RULES } from "./rules/register.js";
import type { RankedTasks, Rule } from "./rules/rule.js";
import type { SearchEnd } from "./search/run-search.js";
import { arrangeBlocks, positionsOf } from "./station/arrange-blocks.js";
import { blocksWithoutStation } from "./station/task-rules.js";
import { boundByTime, rootCost, searchByTime, type TimeAlone, timeAlone } from "./time-alone.js";
import { toPlan } from "./to-plan.js";
import { watchTimes } from "./watch-times.js";
import type { BlockPlan, Work } from "./work.js";

export interface BalancingOptions extends SearchOptions {
  /** A rule's name, "exact" or "best". */
  readonly method: string;
  /** No task may exceed the station limit, not even alone. */
  readonly strictLimit: boolean;
  /** With "best": even out the loads once people and stations are as few as they get. */
  readonly level: boolean;
  /** Keep every step of station filling, for people who check it by hand. */
  readonly explain: boolean;
  /** A plan to start from; none where left out. Tasks that it leaves out find a station. */
  readonly from?: Plan | null;
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
  /**
   * Stations that the line needs by time and precedence alone, whether that leaves out what is asked of them, and the bound by work
   * content; null where stations may have several places or sides.
   */
  readonly byTime: {
    readonly bound: Bound;
    readonly leavesOut: boolean;
    readonly byWorkContent: number;
  } | null;
  /** The fewest stations of each zone by itself, where that says more than time alone; otherwise empty. */
  readonly zones: ByZone["zones"];
  /** The most that one person may be loaded with, in microseconds. */
  readonly perPerson: Ratio;
  /** `least` came from the search of the whole work, not from bounds that are known before it. */
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
  readonly level: LevelLine | null;
  /** Whether evening out moved any task. */
  readonly evened: boolean;
}

/**
 * Balances a line by the methods asked for and keeps the best plan: fewest people, then fewest stations, then the shortest cycle of the
 * plan, then the smoothest, then the order of the register; "best" then evens out its loads. Every rule fills stations under all that
 * the line asks of them; what the line needs by time and precedence alone, and zone by zone, bounds what the search under all of it
 * decides. Every plan passes the verifier first.
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
  const { found, bound, root, zones } = await task.decide(byMethods);
  const exact = found === null ? [] : [{ method: "exact", plan: found.plan }];
  const candidates = options.method === "exact" ? exact : [...byMethods, ...exact];
  const chosen = task.choose(candidates);
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
  const outcome = outcomeOf(chosen?.plan ?? null, least, found, task.isHopeless);
  return {
    plan,
    method: chosen?.method ?? null,
    outcome,
    proved: outcome === "proved",
    within: found?.isRounded ? partsWithin(leastLimitOf(line, task.work), mostRounding(line)) : null,
    least: outcome === "infeasible" && found !== null ? null : least,
    byTime: byTimeOf(task.alone, bound),
    zones,
    perPerson: perPersonOf(line, task.work),
    searched: isCheaper(root, least, PEOPLE_FIRST),
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

/** A line laid out at a pace, with the steps of balancing it. */
class BalancingTask {
  readonly work: Work;
  /** The work with loads rounded down, for what is proved; the same where nothing is rounded. */
  readonly low: Work;
  /** Work that does not fit what it is held to, which leaves nothing to search. */
  readonly shortage: Shortage | null;
  /** There is that, or some task fits no station. */
  readonly isHopeless: boolean;
  readonly alone: TimeAlone | null;
  readonly ranked: RankedTasks;
  private readonly asked: readonly Rule[];
  private readonly choice: PlanChoice;

  constructor(
    private readonly line: Line,
    private readonly limits: WorkLimits,
    private readonly options: BalancingOptions,
  ) {
    this.work = layOutWork(line, this.limits);
    this.low = isCountedExactly(line) ? this.work : layOutWork(line, this.limits, "down");
    this.shortage = findShortage(line, this.low);
    this.isHopeless = this.shortage !== null || blocksWithoutStation(this.low).length > 0;
    this.alone = timeAlone(line, this.low);
    this.ranked = rankedTasks(line);
    this.choice = new PlanChoice(line, limits.pace, this.work);
    this.asked = RULES.filter((rule) => rule.name === options.method);
  }

  /** Stations filled by the method asked for, or by each of them. */
  runMethods() {
    const { line, limits } = this;
    // Where handling is counted once, the methods count it as it is.
    const work = limits.isHandledOnce ? layOutWork(line, { ...limits, isHandledOnce: false }) : this.work;
    return (this.asked.length > 0 ? this.asked : RULES).map((rule) => {
      const ranking = rankTasks(rule, this.ranked);
      const steps: FillingStep[] = [];
      const onStep = this.options.explain ? (step: FillingStep) => steps.push(step) : null;
      return { ranking, plan: fillStations(work, ranking.order, onStep), steps };
    });
  }

  /** What is proved, and what the search finds; no search where one method is asked for, or where there is nothing to find. */
  async decide(byMethods: readonly Candidate[]): Promise<Decided> {
    const { line, work, low, options, alone } = this;
    const isSearch = this.asked.length === 0;
    if (!isSearch || this.isHopeless) {
      const { bound } = boundByTime(alone);
      const root = rootCost(low, bound);
      return { found: isSearch ? nothingFound(root, options) : null, bound, root, zones: [] };
    }
    const share = Math.ceil(nodesOf(options) / SHARE_OF_BOUNDS);
    const time =
      alone?.leavesOut === true
        ? await searchByTime(work, alone, share, options.checkpoint)
        : boundByTime(alone);
    const byZone =
      alone !== null && isOpen(this.choose(byMethods)?.plan ?? null, rootCost(low, time.bound))
        ? await balanceByZone(low, share, options.checkpoint)
        : null;
    const root = rootCost(low, time.bound, byZone?.stations);
    const zoned = byZone?.plan == null ? null : arrangeBlocks(work, positionsOf(work, byZone.plan));
    const start = this.choose([...byMethods, ...[time.plan, zoned].map(asExact)])?.plan ?? null;
    const from = options.from == null ? null : positionsIn(line, work, options.from);
    const used = time.nodes + (byZone?.nodes ?? 0);
    const others = byMethods.flatMap(({ plan }) => (plan === null ? [] : [plan]));
    const found = await findCheapest(work, low, { start, root, used, from, others }, options);
    const zones = byZone !== null && byZone.stations > (time.bound?.stations ?? 0) ? byZone.zones : [];
    const plan = found.plan && inOrderOfWork(work, found.plan);
    return { found: { ...found, plan }, bound: time.bound, root, zones };
  }

  choose(candidates: readonly Candidate[]): ChosenPlan | null {
    return this.choice.among(candidates);
  }

  /**
   * The loads evened out without more people or stations: first the shortest cycle, then the smoothest loads at it. Null where that was not
   * asked for.
   */
  async even(plan: BlockPlan, found: Found | null): Promise<LevelLine | null> {
    const { line, limits, options } = this;
    if (!options.level || options.method !== "best" || found?.ended === "interrupted") return null;
    const { people, stations } = costOf(plan);
    const aim = { aim: PEOPLE_FIRST, ceiling: { people, stations: stations + 1 }, mostPeople: people };
    const watch = watchTimes(line, options.checkpoint, "even-loads");
    return levelLine(line, limits, plan, aim, nodesOf(options), watch);
  }

  /** @param slowest the cycle that an evened plan keeps: its crews are those that this asks for */
  toPlan(plan: BlockPlan, slowest: Ratio | null = null): Plan {
    const { line, limits } = this;
    const work = slowest === null ? this.work : layOutWork(line, { ...limits, slowest });
    return toPlan(line, work, drawOntoFloor(work, plan), true);
  }
}

interface Decided {
  readonly found: Found | null;
  readonly bound: Bound | null;
  /** What no plan goes below, before any search under all that is asked of stations. */
  readonly root: Cost;
  readonly zones: ByZone["zones"];
}

/** Searches by time alone, and zone by zone, get this part of the partial plans each. */
const SHARE_OF_BOUNDS = 4;

const asExact = (plan: BlockPlan | null): Candidate => ({ method: "exact", plan });

function byTimeOf(alone: TimeAlone | null, bound: Bound | null): Balance["byTime"] {
  if (alone === null || bound === null) return null;
  const { stations } = alone.bounds.find(({ kind }) => kind === "work-content")!;
  return { bound, leavesOut: alone.leavesOut, byWorkContent: stations };
}

/** Whether a plan may still be cheaper than what is known. */
function isOpen(plan: BlockPlan | null, root: Cost): boolean {
  return plan === null || isCheaper(root, costOf(plan), PEOPLE_FIRST);
}

/** Which blocks stand where, whatever their order of work. */
function contents(plan: BlockPlan): string {
  return plan
    .map(({ position, blocks }) => `${position}: ${blocks.toSorted((one, two) => one - two).join()}`)
    .join("|");
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
  return { times: loadsInParts(line), before: line.before };
}

function perPersonOf(line: Line, { kinds }: Work): Ratio {
  return kinds
    .flatMap(({ limits }) => limits.map((limit, at) => divide(fromParts(line, limit), ratio(at + 1))))
    .reduce(larger);
}

/** The least that a station with one place may be loaded with, in microseconds. */
const leastLimitOf = (line: Line, { kinds }: Work): Ratio =>
  fromParts(line, Math.min(...kinds.map(({ limits }) => limits[0]!)));

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
  const blockOf = new Map(
    work.members.flatMap((tasks, block) => tasks.map((task) => [task, block] as const)),
  );
  for (const [at, position] of stationNumbers(line, plan).entries()) {
    for (const task of plan.stations[at]!.tasks) {
      const block = blockOf.get(task);
      if (block !== undefined) positionOf[block] = position;
    }
  }
  return positionOf;
}
