import { tells } from "../../findings/finding.js";
import type { Line } from "../../line/line.js";
import { mayDouble } from "../../line/line.js";
import { peopleAtRepairs, peopleOf } from "../../plan/figures/people.js";
import type { Plan, Station } from "../../plan/plan.js";
import { verifyPlan } from "../../plan/verify-plan.js";
import type { Watch } from "../../solve/watch-times.js";
import type { Demand } from "../../time/demand.js";
import type { Pace } from "../../time/pace.js";
import { add, compare, larger, multiply, type Ratio, ratio, subtract } from "../../time/ratio.js";
import { sizeOf } from "../../time/show-numbers.js";
import { type TaktSum, taktSum } from "../../time/takt.js";
import { answerBalance, withPlan } from "../balance/answer-balance.js";
import type { BalanceAnswer } from "../balance/balance-answer.js";
import { type ShownBalance, shownBalance } from "../balance/shown-balance.js";
import { stands } from "./as-checked.js";
import { leastChain } from "./least-chain.js";
import { type Move, matchStations, moveCost, movesBetween } from "./match-stations.js";
import { freshId, NearPlans } from "./near-plans.js";
import { findOverLimits, unlessItStands } from "./rebalance-line.js";
import { type Slack, slackOf } from "./slack.js";
import { findSlowBenches } from "./slow-benches.js";
import { type TradeOff, TradeOffs } from "./trade-offs.js";

export interface SeveralOptions {
  readonly nodes: number;
  readonly strictLimit: boolean;
  /** So many people more than the fewest are allowed at each demand. */
  readonly peopleAbove: number;
  readonly checkpoint: Watch;
}

/** What changes between two plans. */
export interface Change {
  readonly moves: readonly Move[];
  /** By the costs of the tasks; their number where nothing was said. */
  readonly cost: number;
  /** No plans with so many people cost less. */
  readonly leastCost: number;
}

export interface DemandPlan {
  readonly demand: Demand;
  /** Null where handling leaves no working time; `problem` says so. */
  readonly takt: TaktSum | null;
  readonly problem: string | null;
  /** With the plan of the chain; without one where there is none. Null where there is no pace. */
  readonly balance: ShownBalance | null;
  /** The fewest people that a balance of this demand alone has, who repairs beside the line among them; null without a plan. */
  readonly fewestPeople: number | null;
  /** People in all; null without a plan. */
  readonly people: number | null;
  /** From the plan of the demand before it that has one; null for the first, and without a plan. */
  readonly change: Change | null;
}

export interface SeveralDemandsAnswer {
  readonly line: Line;
  /** Ascending. */
  readonly demands: readonly DemandPlan[];
  /** From each demand to the next, added up. */
  readonly movesBetween: number;
  /** The demand whose plan today's plan changes to, and how; null where no demand has a plan. */
  readonly fromToday: (Change & { readonly demand: Demand }) | null;
  /** Of all changes. */
  readonly cost: number;
  readonly leastCost: number;
  /** Tasks that stand at one station at every demand with a plan. */
  readonly stays: readonly number[];
  /** Some move costs more than one point. */
  readonly hasPoints: boolean;
  readonly outcome: "proved" | "found" | "infeasible" | "stopped";
  readonly nodes: number;
}

/**
 * A plan for each of several demands between which a line changes. Each has the fewest people that a balance of its demand alone has,
 * or some more where that is allowed and saves moves; then the sum of the moves is made small: from today's plan to that of the demand
 * nearest to the one of the line file (the lowest one where it has none), and from each demand to the next higher one.
 *
 * The plan nearest to today's comes first, the others follow it up and down; then each is looked for again near all its neighbours at
 * once, up and down the demands, until none gets better.
 *
 * @param demands two or more, all of one period
 */
export async function planSeveralDemands(
  line: Line,
  demands: readonly Demand[],
  from: Plan,
  options: SeveralOptions,
): Promise<SeveralDemandsAnswer> {
  const ascending = demands.toSorted((one, two) => compare(one.units, two.units));
  const alone: Alone[] = [];
  for (const demand of ascending) alone.push(await balanceAlone(line, demand, from, options));
  const planned = alone.filter(({ answer }) => answer?.plan != null) as Planned[];
  const chain = planned.length === 0 ? null : new Chain(planned, nearestTo(line, planned), from, options);
  await chain?.run();
  return answerOf(line, alone, chain);
}

/**
 * The answer with what is to be said of benches that stay slower than the pace of a demand.
 *
 * @param line with all that its benches build
 * @param from its benches included
 */
export function withSlowBenches(answer: SeveralDemandsAnswer, line: Line, from: Plan): SeveralDemandsAnswer {
  const demands = answer.demands.map((each): DemandPlan => {
    const { demand, takt, balance } = each;
    if (takt === null || balance?.plan == null) return each;
    const slow = findSlowBenches({ ...line, demand }, takt.pace, from);
    return { ...each, balance: { ...balance, findings: [...balance.findings, ...slow] } };
  });
  return { ...answer, demands };
}

/** The slack of today's plan, its benches included, at one demand; null where that has no pace. */
export function slackNearToday(line: Line, demand: Demand, from: Plan, strictLimit: boolean): Slack | null {
  const near = { ...line, demand };
  const takt = taktSum(near);
  return takt.ok ? slackOf(near, takt.value.pace, from, strictLimit) : null;
}

/** A demand balanced by itself. */
interface Alone {
  readonly demand: Demand;
  readonly line: Line;
  readonly takt: TaktSum | null;
  readonly problem: string | null;
  readonly answer: BalanceAnswer | null;
}

interface Planned extends Alone {
  readonly takt: TaktSum;
  readonly answer: BalanceAnswer & { readonly plan: Plan };
}

async function balanceAlone(
  line: Line,
  demand: Demand,
  from: Plan,
  { nodes, strictLimit, checkpoint }: SeveralOptions,
): Promise<Alone> {
  const asked = { ...line, demand };
  const takt = taktSum({ ...asked, demand });
  if (!takt.ok) return { demand, line: asked, takt: null, problem: takt.problem, answer: null };
  const how = { method: "best", nodes, strictLimit, level: false, explain: false, checkpoint } as const;
  const balanced = await answerBalance(asked, takt.value.pace, takt.value, how);
  const answer = unlessItStands(balanced, from, { strictLimit });
  return { demand, line: asked, takt: takt.value, problem: null, answer };
}

/** Which demand is nearest to that of the line file; of two the lower one, and the lowest where the file has none of this period. */
function nearestTo({ demand }: Line, planned: readonly Planned[]): number {
  if (demand === null || demand.period !== planned[0]!.demand.period) return 0;
  const away = planned.map((each): Ratio => sizeOf(subtract(each.demand.units, demand.units)));
  return away.reduce((best, each, at) => (compare(each, away[best]!) < 0 ? at : best), 0);
}

/** Plans of demands in ascending order, each to be near the ones beside it. */
class Chain {
  nodes = 0;
  isOver = false;
  plans: Plan[];
  /** Of the change from today's plan, proved. */
  leastFromToday = 0;
  /** Of all changes, proved; 0 where that is not known. */
  least = 0;
  readonly costs: readonly number[];
  private readonly near: readonly NearPlans[];
  /** By demand, whether today's plan may stay as it is there, and whether stations of it then take more than their limit. */
  private readonly todayAt: readonly { readonly stands: boolean; readonly isOver: boolean }[];

  constructor(
    readonly planned: readonly Planned[],
    readonly nearest: number,
    readonly from: Plan,
    private readonly options: SeveralOptions,
  ) {
    this.plans = planned.map(({ answer }) => answer.plan);
    this.near = planned.map(({ line, takt }) => new NearPlans(line, takt.pace, options.strictLimit));
    this.costs = planned[0]!.line.tasks.map((task) => moveCost(planned[0]!.line, task));
    const { strictLimit } = options;
    this.todayAt = planned.map(({ line, takt: { pace } }, at) => {
      const isFew = peopleOf(from) <= this.mostPeople(at) && stands(line, pace, from, { strictLimit });
      return { stands: isFew, isOver: isFew && verifyPlan(line, pace, from, strictLimit).length > 0 };
    });
  }

  async run(): Promise<void> {
    await this.followToday();
    const upwards = [...this.plans.keys()];
    const outwards = [
      ...upwards.slice(this.nearest + 1).map((at) => [at, at - 1] as const),
      ...upwards
        .slice(0, this.nearest)
        .reverse()
        .map((at) => [at, at + 1] as const),
    ];
    for (const [at, beside] of outwards) await this.improve(at, [this.plans[beside]!], true);
    for (const at of upwards.slice(this.nearest + 2)) await this.shareDown(at);
    const rounds = [upwards, upwards.toReversed()];
    for (let [still, round] = [0, 0]; still < 2 && round < MOST_ROUNDS && !this.isOver; round++) {
      const before = this.value();
      for (const at of rounds[round % 2]!) await this.improve(at, this.neighboursOf(at), false);
      still = isLess(this.value(), before) ? 0 : still + 1;
    }
    this.provedLeast();
    await this.lookAtEnds();
    this.plans = this.isOnFloor ? this.plans : this.named();
  }

  /** On a small line every chain is looked at. */
  private provedLeast(): void {
    const [known] = this.value();
    if (known === 0) return;
    const links = this.planned.map(({ line, takt: { pace } }, at) => ({
      line,
      pace,
      mostPeople: this.mostPeople(at),
      todayStands: this.todayAt[at]!.stands,
    }));
    const { nearest, from, costs } = this;
    const least = leastChain(links, nearest, from, costs, known!, this.options.strictLimit);
    if (least === null) return;
    this.least = least.cost;
    this.plans = [...(least.plans ?? this.plans)];
  }

  changeAt(at: number): Omit<Change, "leastCost"> {
    return this.changeBetween(this.plans[at - 1]!, this.plans[at]!);
  }

  get changeFromToday(): Omit<Change, "leastCost"> {
    return this.changeBetween(this.from, this.plans[this.nearest]!);
  }

  get strictLimit(): boolean {
    return this.options.strictLimit;
  }

  mostPeople(at: number): number {
    return peopleOf(this.planned[at]!.answer.plan) + this.options.peopleAbove;
  }

  private get isOnFloor(): boolean {
    return this.planned[0]!.line.floor.length > 0;
  }

  /** The fewest moves from today's plan to one of the demand nearest to today's, and how few there are at the least. */
  private async followToday(): Promise<void> {
    const row = await this.nearToday(this.nearest, this.options.nodes);
    if (row === null) return;
    this.plans[this.nearest] = row.plan;
    this.leastFromToday = row.leastCost;
  }

  /** The plan of a demand that today's plan comes to with the fewest moves, and the least of any; null where none was found. */
  private async nearToday(at: number, nodes: number): Promise<Pick<TradeOff, "plan" | "leastCost"> | null> {
    const { from } = this;
    if (this.todayAt[at]!.stands) return { plan: from, leastCost: 0 };
    if (await this.isStopped()) return null;
    const { line, takt, answer } = this.planned[at]!;
    const { strictLimit, checkpoint } = this.options;
    const asked = { nodes, strictLimit, checkpoint, maxMoves: null, keep: [] };
    const trading = new TradeOffs(line, takt.pace, from, answer.plan, asked);
    const row = await trading.withAtMost({ people: this.mostPeople(at), stations: line.tasks.length + 1 });
    this.nodes += trading.nodes;
    return row;
  }

  /**
   * No way from today's plan to that of a demand at either end is shorter than the change at once. What the two ends need and what lies
   * between them cannot be saved by any plan in the middle: each change is on two of the three ways at the most.
   */
  private async lookAtEnds(): Promise<void> {
    const [known] = this.value();
    const last = this.planned.length - 1;
    const between = (from: number, to: number) => {
      let sum = 0;
      for (let at = from + 1; at <= to; at++) sum += this.leastBetween(at);
      return sum;
    };
    const ends = [
      { at: 0, beyond: between(this.nearest, last) },
      { at: last, beyond: between(0, this.nearest) },
    ];
    let around = this.leastBetween(last, 0);
    for (const { at, beyond } of ends) {
      const nodes = Math.ceil(this.options.nodes * AGAIN_SHARE);
      const isKnown = at === this.nearest || this.least >= known!;
      const least = isKnown ? this.leastFromToday : ((await this.nearToday(at, nodes))?.leastCost ?? 0);
      this.least = Math.max(this.least, least + beyond);
      around += least;
    }
    this.least = Math.max(this.least, Math.ceil(around / 2));
  }

  /** Asked before each search, as what it begins with takes a while on long lines. */
  private async isStopped(): Promise<boolean> {
    const { nodes, options } = this;
    this.isOver ||=
      (await options.checkpoint({ nodes, best: "none", bound: { moves: 0 }, what: "moves" })) !== null;
    return this.isOver;
  }

  private neighboursOf(at: number): Plan[] {
    const today = at === this.nearest ? [this.from] : [];
    return [...today, ...this.plans.slice(Math.max(0, at - 1), at), ...this.plans.slice(at + 1, at + 2)];
  }

  /** Looks for a plan of one demand near its neighbours, and takes it where the sum falls, or where it is the first that follows them. */
  private async improve(at: number, neighbours: readonly Plan[], isFirst: boolean): Promise<void> {
    const costs = (plan: Plan) =>
      neighbours.map((each) => this.changeBetween(each, plan).cost).reduce((sum, each) => sum + each, 0);
    const worthOf = (plan: Plan) => [costs(plan), peopleOf(plan), plan.stations.length];
    const { from } = this;
    if (this.todayAt[at]!.stands) {
      if (isLess(worthOf(from), worthOf(this.plans[at]!))) this.plans[at] = from;
      if (costs(from) === 0) return;
    }
    if (await this.isStopped()) return;
    const { nodes, checkpoint } = this.options;
    const known = [this.plans[at]!, ...this.plans, from];
    const found = await this.near[at]!.find({
      neighbours,
      known,
      mostPeople: this.mostPeople(at),
      nodes: Math.ceil(nodes * AGAIN_SHARE),
      checkpoint: (progress) => checkpoint({ ...progress, nodes: this.nodes + progress.nodes }),
    });
    this.nodes += found.nodes;
    this.isOver ||= found.isOver;
    if (found.plan === null) return;
    const follows = isFirst && this.plans[at] !== from;
    if (follows || isLess(worthOf(found.plan), worthOf(this.plans[at]!))) this.plans[at] = found.plan;
  }

  /**
   * One plan for a demand and those below it that take as many people, near to the plan below them all: a change once in place of several
   * halfway. Taken where the sum falls.
   */
  private async shareDown(at: number): Promise<void> {
    const first = this.planned.findIndex(
      (_, below) => below > this.nearest && this.mostPeople(below) >= this.mostPeople(at),
    );
    if (first >= at || (await this.isStopped())) return;
    const before = [...this.plans];
    const value = this.value();
    await this.improve(at, [before[first - 1]!], true);
    const plan = this.plans[at]!;
    for (let below = first; below < at; below++) {
      if (!this.suits(below, plan)) break;
      this.plans[below] = plan;
    }
    if (!isLess(this.value(), value)) this.plans = before;
  }

  /** Whether a plan keeps the rules at a demand; today's may be over a limit there. */
  private suits(at: number, plan: Plan): boolean {
    const { line, takt } = this.planned[at]!;
    if (plan === this.from) return this.todayAt[at]!.stands;
    return verifyPlan(line, takt.pace, plan, this.options.strictLimit).length === 0;
  }

  private changeBetween(one: Plan, two: Plan): Omit<Change, "leastCost"> {
    const moves = movesBetween(this.planned[0]!.line, one, two, this.costs);
    return { moves, cost: moves.reduce((sum, { task }) => sum + this.costs[task]!, 0) };
  }

  /** The sum of all changes, then people, then stations. */
  private value(): number[] {
    const changes = this.plans.slice(1).map((_, at) => this.changeAt(at + 1).cost);
    return [
      changes.reduce((sum, each) => sum + each, this.changeFromToday.cost),
      this.plans.reduce((sum, plan) => sum + peopleOf(plan), 0),
      this.plans.reduce((sum, { stations }) => sum + stations.length, 0),
    ];
  }

  /**
   * Every station with the id that it has in the plan beside it, outwards from today's plan; new ones with an id of their own. Where
   * ids tell how far apart stations stand, a plan keeps its own.
   */
  private named(): Plan[] {
    const taken = new Set(this.from.stations.map(({ id }) => id));
    const plans = [...this.plans];
    const follow = (at: number, beside: Plan) => {
      if (plans[at] === this.from) return;
      const { line } = this.planned[at]!;
      const matched = matchStations(line, beside, plans[at]!, this.costs);
      const stations = plans[at]!.stations.map((station, index): Station => {
        const id = beside.stations[matched[index]!]?.id ?? freshId(taken);
        taken.add(id);
        return { ...station, id };
      });
      if (this.suits(at, { stations })) plans[at] = { stations };
    };
    follow(this.nearest, this.from);
    for (let at = this.nearest + 1; at < plans.length; at++) follow(at, plans[at - 1]!);
    for (let at = this.nearest - 1; at >= 0; at--) follow(at, plans[at + 1]!);
    return plans;
  }

  /** What plans of a lower demand, the one before unless another is given, and of this one differ by at the least, whichever they are. */
  leastBetween(at: number, lower = at - 1): number {
    const { line, takt, answer } = this.planned[at]!;
    // Today's plan may stay at loads that no other plan may have.
    if (lower >= at || this.todayAt[at]!.isOver) return 0;
    // A second place at a station, or its other side, takes a person and moves nothing.
    if (mayDouble(line) || line.tasks.some(({ side }) => side !== null)) return 0;
    const { bound, outcome, plan } = answer;
    const people = outcome === "proved" ? peopleOf(plan) : (bound?.people ?? bound?.stations ?? 0);
    const before = this.mostPeople(lower);
    // A task that comes to a station makes its crew larger by that of the whole task at the most.
    const most = Math.max(...line.tasks.map((task) => task.people));
    const forPeople = Math.ceil(Math.max(0, people - before) / most);
    return Math.max(forPeople, leastForWork(line, takt.pace, before)) * Math.min(...this.costs);
  }
}

/**
 * So many tasks at the least leave the stations of any plan that has no more than so many: what these can keep at this pace is their
 * limits, or one task alone at each, and the rest of the work leaves with the longest tasks first.
 */
function leastForWork(line: Line, { workingTime, planTo }: Pace, stations: number): number {
  const loads = line.tasks.map(({ load }) => load).toSorted((one, two) => compare(two, one));
  const planned = line.floor.map((station) => station.planTo ?? planTo).reduce(larger, planTo);
  const limit = larger(multiply(workingTime, planned), loads[0]!);
  let rest = subtract(loads.reduce(add), multiply(ratio(stations), limit));
  let count = 0;
  for (; rest.num > 0n && count < loads.length; count++) rest = subtract(rest, loads[count]!);
  return count;
}

/** A plan near its neighbours is looked for with so many of the partial plans: nothing is to be proved of it. */
const AGAIN_SHARE = 1 / 4;
const MOST_ROUNDS = 8;

function isLess(one: readonly number[], two: readonly number[]): boolean {
  const at = one.findIndex((each, index) => each !== two[index]);
  return at >= 0 && one[at]! < two[at]!;
}

function answerOf(line: Line, alone: readonly Alone[], chain: Chain | null): SeveralDemandsAnswer {
  const demands = alone.map((each) => demandPlan(each, chain));
  const changes = demands.flatMap(({ change }) => change ?? []);
  const today = chain && { ...chain.changeFromToday, leastCost: chain.leastFromToday };
  const all = today === null ? changes : [today, ...changes];
  const cost = all.reduce((sum, each) => sum + each.cost, 0);
  const leastCost = Math.max(
    chain?.least ?? 0,
    all.reduce((sum, each) => sum + each.leastCost, 0),
  );
  const moved = new Set(changes.flatMap(({ moves }) => moves.map(({ task }) => task)));
  const outcomes = alone.map(({ answer }) => answer?.outcome ?? "infeasible");
  const [no] = (["infeasible", "stopped"] as const).filter((each) => outcomes.includes(each));
  const isProved = cost === leastCost && outcomes.every((each) => each === "proved");
  return {
    line,
    demands,
    movesBetween: changes.reduce((sum, { moves }) => sum + moves.length, 0),
    fromToday: today && { ...today, demand: chain!.planned[chain!.nearest]!.demand },
    cost,
    leastCost,
    stays: chain === null ? [] : [...line.tasks.keys()].filter((task) => !moved.has(task)),
    hasPoints: chain?.costs.some((each) => each !== 1) ?? false,
    outcome: no ?? (isProved ? "proved" : "found"),
    nodes: chain?.nodes ?? 0,
  };
}

/** Today's plan may be over limits that what is proved was proved for. */
function withTodaysLimits(answer: BalanceAnswer, { from, strictLimit }: Chain): BalanceAnswer {
  const { line, pace, plan, findings } = answer;
  const over = plan === from ? findOverLimits(line, pace, from, strictLimit) : [];
  if (over.length === 0) return answer;
  const others = findings.filter((each) => !tells(each, "alone-over-limit"));
  return { ...answer, bound: null, outcome: "found", findings: [...others, ...over] };
}

function demandPlan(alone: Alone, chain: Chain | null): DemandPlan {
  const { demand, takt, problem, line, answer } = alone;
  const at = chain === null ? -1 : chain.planned.findIndex((each) => each.demand === demand);
  const told = { demand, takt, problem };
  if (takt === null || answer === null || at < 0)
    return {
      ...told,
      balance: answer && shownBalance(answer),
      fewestPeople: null,
      people: null,
      change: null,
    };
  const plan = chain!.plans[at]!;
  const repair = peopleAtRepairs(line, takt.pace);
  const balance = shownBalance(withTodaysLimits(withPlan(answer, plan), chain!));
  const change = at === 0 ? null : { ...chain!.changeAt(at), leastCost: chain!.leastBetween(at) };
  return {
    ...told,
    balance,
    fewestPeople: peopleOf(answer.plan!) + repair,
    people: peopleOf(plan) + repair,
    change,
  };
}
