import { STATIONS_FIRST } from "../cost.js";
import { PlanShaker } from "../level/shake-plan.js";
import { shortenLongest } from "../level/shorten-longest.js";
import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import { plainWork } from "../work.js";
import { nodesToExtend } from "./beam.js";
import { alone } from "./fewest-stations.js";
import { between, type LeastLimitBound, simpleLimitBound, staticLimitBound } from "./least-limit-bound.js";
import { RuleFills } from "./least-limit-fills.js";
import { StationSums } from "./least-limit-sums.js";
import { TwoWayBeam } from "./two-way-beam.js";
import { TwoWaySearch } from "./two-way-search.js";

/**
 * Closes in on the least limit from both sides. Each probe asks the two-way search whether `count` stations are enough
 * at some limit: a plan lowers the upper end to its longest station, a limit ruled out raises the lower end. Rounds of
 * probes have a budget of nodes each that grows from round to round, so that cheap answers come first. From the second round
 * on beams look for plans as well.
 */
export class LeastLimitSearch {
  nodes = 0;
  best: Stations;
  /** The longest station of the best plan. */
  limit: number;
  bound: LeastLimitBound;
  private readonly sums: StationSums;
  /** The work content. */
  private readonly work: number;
  private shaker: PlanShaker | null = null;
  /** The search just below the best plan. */
  private kept: Probe | null = null;
  /** Limits at which memory ran out. */
  private readonly overflowed = new Set<number>();

  constructor(
    private readonly times: readonly number[],
    private readonly before: readonly (readonly number[])[],
    private readonly count: number,
    private readonly limits: { readonly nodes: number; readonly memory: number; readonly first?: Stations },
  ) {
    this.sums = new StationSums(times);
    this.work = times.reduce((sum, each) => sum + each, 0);
    this.best = limits.first ?? (times.length > 0 ? [[...times.keys()]] : []);
    this.limit = this.longest(this.best);
    this.bound = simpleLimitBound(times, count, this.sums);
  }

  /** The search in stretches of a few milliseconds: null to go on; ends when the best is proved, or says what ran out. */
  *stretches(): Generator<"nodes" | "memory" | null> {
    yield* this.fillByRules();
    this.bound = staticLimitBound(this.times, this.before, this.count, this.bound, this.limit, this.sums);
    let pairs = FIRST_PAIRS;
    for (let budget = FIRST_BUDGET; !this.isProved; budget *= GROWTH, pairs *= 2) {
      const tried = new Set<number>(this.overflowed);
      yield* this.shake(pairs);
      if (budget > FIRST_BUDGET) yield* this.lookByBeams(budget * NODES_OF_A_BEAM);
      yield* this.lookJustBelow(budget * JUST_BELOW, tried);
      yield* this.lookForPlans(budget, tried);
      yield* this.lookForProofs(budget, tried);
      if (this.isProved) return;
      if (this.nodes >= this.limits.nodes) yield "nodes";
      if (this.overflowed.has(this.bound.limit) && this.overflowed.has(this.highest)) yield "memory";
    }
  }

  private get isProved(): boolean {
    return this.bound.limit >= this.limit;
  }

  /** The longest station time below that of the best plan. */
  private get highest(): number {
    return this.sums.atMost(this.limit - 1);
  }

  private *fillByRules(): Generator<null> {
    const fills = new RuleFills(this.times, this.before);
    for (let low = this.bound.limit; low < this.limit; ) {
      const limit = this.sums.atMost(between(low, this.limit - 1));
      const plan = fills.fill(limit, this.count);
      if (plan === null) low = this.sums.atLeast(limit + 1);
      else this.keep(plan);
      yield null;
    }
    this.shorten(this.best);
  }

  private *shake(pairs: number): Generator<null> {
    if (this.count === 1) return;
    this.shaker ??= shakerOf(this.times, this.before, this.best);
    if (this.shaker.longest > this.limit) this.shaker.goOnFrom(this.best);
    const end = this.shaker.nodes + Math.min(pairs, this.limits.nodes - this.nodes);
    while (this.shaker.nodes < end && !this.isProved) {
      const nodesBefore = this.shaker.nodes;
      this.shaker.run(Math.min(STRETCH, end - nodesBefore));
      this.nodes += this.shaker.nodes - nodesBefore;
      if (this.shaker.longest < this.limit) this.keep(this.shaker.best);
      yield null;
    }
  }

  /** Halves the interval like lookForPlans, at limits that leave stations nearly full. */
  private *lookByBeams(budget: number): Generator<null> {
    const width = Math.floor(budget / (this.count * nodesToExtend(this.times.length)));
    if (width < NARROWEST || budget * MOST_OF_LEFT > this.limits.nodes - this.nodes) return;
    for (let low = this.bound.limit; low < this.limit; ) {
      const limit = this.sums.atMost(between(low, this.limit - 1));
      if ((this.count * limit - this.work) * MOST_IDLE > this.work) return;
      yield* this.beam(limit, width);
      if (limit < this.limit) low = this.sums.atLeast(limit + 1);
    }
  }

  private *beam(limit: number, width: number): Generator<null> {
    const { times, before, count, limits, nodes } = this;
    const left = { nodes: limits.nodes - nodes, memory: limits.memory };
    const beam = new TwoWayBeam({ times, limit, before }, count, width, left);
    for (const stretch of beam.stretches()) {
      this.nodes = nodes + beam.nodes;
      yield stretch;
    }
    this.nodes = nodes + beam.nodes;
    if (beam.best !== null) this.shorten(beam.best);
  }

  /** Just below the best plan either answer helps: a better plan, or the proof that there is none. */
  private *lookJustBelow(budget: number, tried: Set<number>): Generator<"nodes" | "memory" | null> {
    while (!this.isProved && !tried.has(this.highest)) yield* this.probe(this.highest, budget, tried);
  }

  /** Halves the interval as if every limit that the budget leaves open were ruled out. */
  private *lookForPlans(budget: number, tried: Set<number>): Generator<"nodes" | "memory" | null> {
    for (let low = this.bound.limit; low < this.limit; ) {
      const limit = this.sums.atMost(between(low, this.limit - 1));
      yield* this.probe(limit, budget, tried);
      low = Math.max(this.bound.limit, limit < this.limit ? this.sums.atLeast(limit + 1) : low);
    }
  }

  /** Halves the interval as if every limit that the budget leaves open were enough. */
  private *lookForProofs(budget: number, tried: Set<number>): Generator<"nodes" | "memory" | null> {
    for (let high = this.highest; this.bound.limit <= high && !this.isProved; ) {
      const limit = this.sums.atMost(between(this.bound.limit, high));
      yield* this.probe(limit, budget, tried);
      if (this.bound.limit <= limit) high = limit > 0 ? this.sums.atMost(limit - 1) : -1;
    }
  }

  private *probe(limit: number, budget: number, tried: Set<number>): Generator<"nodes" | "memory" | null> {
    if (tried.has(limit)) return;
    tried.add(limit);
    const isLast = this.bound.limit === this.highest;
    const probe = this.probeAt(limit);
    const { search, stretches } = probe;
    const from = search.nodes;
    const mostNodes = isLast ? Number.POSITIVE_INFINITY : budget;
    while (search.nodes - from < mostNodes) {
      const before = search.nodes;
      const { value: ranOut, done } = stretches.next();
      this.nodes += search.nodes - before;
      if (done || ranOut !== null) {
        this.conclude(probe, ranOut ?? null);
        return;
      }
      if (this.nodes >= this.limits.nodes) return;
      yield null;
    }
  }

  /** The search at the highest limit goes on where it paused; any other begins anew and is forgotten afterwards. */
  private probeAt(limit: number): Probe {
    if (this.kept?.limit === limit) return this.kept;
    const { times, before, count, limits } = this;
    const isHighest = limit === this.highest;
    const start = {
      ceiling: alone(count + 1),
      aim: STATIONS_FIRST,
      least: alone(count),
      plan: null,
    } as const;
    const memory = Math.ceil(limits.memory * (isHighest ? KEPT_MEMORY : 1 - KEPT_MEMORY));
    const nodes = limits.nodes - this.nodes;
    const search = new TwoWaySearch(plainWork({ times, limit, before }), start, { nodes, memory });
    const probe = { limit, search, stretches: search.stretches() };
    if (isHighest) this.kept = probe;
    return probe;
  }

  private conclude({ limit, search }: Probe, ranOut: "nodes" | "memory" | null): void {
    if (search.best !== null) this.shorten(search.best.map(({ blocks }) => blocks));
    else if (ranOut === null) this.ruleOut(limit, search.nodes);
    else if (ranOut === "memory") this.overflowed.add(limit);
  }

  private shorten(plan: Stations): void {
    this.keep(shortenLongest(this.times, this.before, this.count, plan));
  }

  private keep(plan: Stations): void {
    this.best = plan;
    this.limit = this.longest(plan);
  }

  private ruleOut(shorter: number, nodes: number): void {
    const limit = this.sums.atLeast(shorter + 1);
    this.bound = { kind: "search", limit, count: this.count, shorter, nodes };
  }

  private longest(plan: Stations): number {
    const loads = plan.map((tasks) => tasks.reduce((sum, task) => sum + this.times[task]!, 0));
    return loads.reduce((most, each) => Math.max(most, each), 0);
  }
}

/** A search of a limit that may go on later. */
interface Probe {
  readonly limit: number;
  readonly search: TwoWaySearch;
  readonly stretches: ReturnType<TwoWaySearch["stretches"]>;
}

/** The share of the memory for the search just below the best plan. */
const KEPT_MEMORY = 3 / 4;
/** Nodes of each probe in the first round, and how much larger they are from round to round. */
const FIRST_BUDGET = 2000;
const GROWTH = 4;
/** How many times as many nodes a probe just below the best plan has. */
const JUST_BELOW = 4;
/** How many times as many nodes a beam has, counted by its width. There are none in the first round. */
const NODES_OF_A_BEAM = 10;
/** Narrower beams find little, and one that takes more than such a part of the nodes left would take those of better use. */
const NARROWEST = 16;
const MOST_OF_LEFT = 8;
/** Beams are for limits that leave at most one part in so many of the work content idle. */
const MOST_IDLE = 50;
/** Pairs of stations shaken in the first round, twice as many in each further round, and at one go. */
const FIRST_PAIRS = 2000;
const STRETCH = 500;

function shakerOf(
  times: readonly number[],
  before: readonly (readonly number[])[],
  plan: Stations,
): PlanShaker {
  const problem = { times, before, limit: 1 };
  return new PlanShaker(times, before, plan, orderOfWork(problem, positionalWeights(problem), times.keys()));
}
