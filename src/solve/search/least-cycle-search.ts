import { staticBounds } from "../bounds/bound.js";
import { layOutEnds } from "../bounds/chain.js";
import { costOf, isCheaper } from "../cost.js";
import { FirstPlans } from "../improve/first-plans.js";
import { PlanShaker } from "../level/shake-plan.js";
import { shortenLongest } from "../level/shorten-longest.js";
import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import { positionsOf } from "../station/arrange-blocks.js";
import { blocksWithoutStation } from "../station/task-rules.js";
import type { BlockPlan } from "../work.js";
import { nodesToExtend } from "./beam.js";
import { type CycleBound, type CycleProblem, mostStations, type StationTimes } from "./cycle-problem.js";
import { RuleFills } from "./rule-fills.js";
import { TwoWayBeam } from "./two-way-beam.js";
import { TwoWaySearch } from "./two-way-search.js";

/**
 * Closes in on the least cycle from both sides. Each probe asks the search whether there is a plan at some cycle: a plan lowers the
 * upper end to its own cycle, a cycle ruled out raises the lower end to the next one that plans can have. Rounds of probes have
 * a budget of nodes each that grows from round to round, so that cheap answers come first. Whole plans are improved beside it: shaken
 * where the time of stations stands by itself, made anew by ejection at a shorter cycle where more is asked of them, and from the second
 * round on looked for by beams where nothing is.
 */
class LeastCycleSearch {
  nodes = 0;
  bound: CycleBound;
  /** The cycle of the best plan. */
  cycle: bigint;
  private shaken: { readonly shaker: PlanShaker; readonly positions: readonly number[] } | null = null;
  /** The search just below the best plan. */
  private kept: Probe | null = null;
  /** Cycles at which memory ran out. */
  private readonly overflowed = new Set<bigint>();

  /** @param best a plan that is cheaper than the ceiling of the problem */
  constructor(
    private readonly problem: CycleProblem,
    public best: BlockPlan,
    private readonly limits: { readonly nodes: number; readonly memory: number },
  ) {
    this.bound = { kind: "work", cycle: problem.least };
    this.cycle = problem.cycleOf(best, null);
  }

  /** The search in stretches of a few milliseconds: null to go on; ends when the best is proved, or says what ran out. */
  *stretches(): Generator<"nodes" | "memory" | null> {
    yield* this.lookAtLeast();
    if (this.isProved) return;
    yield* this.fillByRules();
    yield* this.boundByStations();
    let pairs = FIRST_PAIRS;
    for (let budget = FIRST_BUDGET; !this.isProved; budget *= GROWTH, pairs *= 2) {
      const tried = new Set<bigint>(this.overflowed);
      yield* this.shake(pairs);
      yield* this.lookByEjection(budget * TRIES_OF_A_NODE);
      if (budget > FIRST_BUDGET) yield* this.lookByBeams(budget * NODES_OF_A_BEAM);
      yield* this.lookJustBelow(budget * JUST_BELOW, tried);
      yield* this.lookForPlans(budget, tried);
      yield* this.lookForProofs(budget, tried);
      if (this.isProved) return;
      if (this.nodes >= this.limits.nodes) yield "nodes";
      if (this.overflowed.has(this.bound.cycle) && this.overflowed.has(this.highest)) yield "memory";
    }
  }

  get isProved(): boolean {
    return this.bound.cycle >= this.cycle;
  }

  /** The longest cycle below that of the best plan. */
  private get highest(): bigint {
    return this.problem.grid.atMost(this.cycle - 1n);
  }

  /** What the plain line that bounds the work comes to, in a part of the nodes: the same bound, and its plan where the rules let it stand. */
  private *lookAtLeast(): Generator<null> {
    const { atLeast, grid } = this.problem;
    if (atLeast === null) return;
    const { nodes, memory } = this.limits;
    const plain = new LeastCycleSearch(atLeast.problem, atLeast.plainPlan(this.best), {
      nodes: Math.ceil(nodes / SHARE_OF_BOUND),
      memory,
    });
    for (const ranOut of plain.stretches()) {
      this.nodes = plain.nodes;
      if (ranOut !== null) break;
      yield null;
    }
    this.nodes = plain.nodes;
    const cycle = grid.atLeast(atLeast.cycleOf(plain.bound.cycle));
    if (cycle > this.bound.cycle)
      this.bound = { kind: "search", cycle, shorter: grid.atMost(cycle - 1n), nodes: plain.nodes };
    const plan = atLeast.planOf(plain.best);
    if (plan !== null) this.keep(plan, null);
  }

  private *fillByRules(): Generator<null> {
    const { grid } = this.problem;
    const fills = new RuleFills(this.problem);
    // Where steps are fine, what is left between two fillings is for searches.
    const closest = (this.cycle - this.bound.cycle) / CLOSEST_FILLS;
    for (let low = this.bound.cycle; low + closest < this.cycle; ) {
      const cycle = grid.atMost(between(low, this.cycle - 1n));
      const plan = fills.fill(cycle);
      if (plan === null || !this.keep(plan, cycle)) low = grid.atLeast(cycle + 1n);
      yield null;
    }
    this.shorten(this.best, null);
  }

  /**
   * The best bound on the number of stations before any search: the longest cycle at which it asks for too many, looked for in growing
   * strides up from the simple bound, then by halving the last stride.
   */
  private *boundByStations(): Generator<null> {
    const { time, grid } = this.problem;
    if (time === null) return;
    const { times, before } = time;
    const most = mostStations(this.problem);
    let high = this.cycle;
    const longest = times.reduce((one, two) => Math.max(one, two), 0);
    const ends = layOutEnds({ times, limit: longest, before });
    const reach = (shorter: bigint) => {
      const limit = time.limitAt(shorter);
      const [bound] =
        limit < longest
          ? staticBounds({ times: times.map((each) => Math.min(each, limit)), limit, before })
          : staticBounds({ times, limit, before }, ends);
      if (bound!.stations <= most) high = shorter;
      else this.bound = { kind: "stations", cycle: grid.atLeast(shorter + 1n), shorter, bound: bound! };
    };
    for (let stride = 0n; this.bound.cycle + stride < high; stride = 2n * stride + 1n) {
      reach(grid.atMost(this.bound.cycle + stride));
      yield null;
    }
    while (this.bound.cycle < high) {
      reach(grid.atMost(between(this.bound.cycle, high - 1n)));
      yield null;
    }
  }

  private *shake(pairs: number): Generator<null> {
    const { time } = this.problem;
    if (time === null || mostStations(this.problem) < 2) return;
    const shaker = this.shakerOf(time);
    const most = time.isAll ? pairs : Math.min(pairs, (pairs / FIRST_PAIRS) * time.times.length ** 2);
    const end = shaker.nodes + Math.min(most, this.limits.nodes - this.nodes);
    const { positions } = this.shaken!;
    for (let longest = shaker.longest; shaker.nodes < end && !this.isProved; ) {
      const nodesBefore = shaker.nodes;
      shaker.run(Math.min(STRETCH, end - nodesBefore));
      this.nodes += shaker.nodes - nodesBefore;
      const plan = shaker.longest < longest ? time.planOf(shaker.best, positions) : null;
      if (plan !== null) this.keep(plan, null);
      longest = shaker.longest;
      yield null;
    }
  }

  /** Goes on where it was, or from the best plan where that is shorter or stands elsewhere. */
  private shakerOf(time: StationTimes): PlanShaker {
    const { times, before } = time;
    const stations = time.stationsOf(this.best);
    const positions = this.best.map(({ position }) => position);
    const isElsewhere = !time.isAll && this.shaken?.positions.join() !== positions.join();
    if (this.shaken === null || isElsewhere) {
      const whole = { times, before, limit: 1 };
      const order = orderOfWork(whole, positionalWeights(whole), times.keys());
      const shaker = new PlanShaker(times, before, stations, order, time.rulesAt(positions, null));
      this.shaken = { shaker, positions };
    }
    const { shaker } = this.shaken;
    if (shaker.longest > longestOf(times, stations)) shaker.goOnFrom(stations);
    return shaker;
  }

  /**
   * Where more is asked of stations than time, whole plans at a shorter cycle are made of the best one by ejection: in long strides
   * down from it, shorter after each in vain.
   */
  private *lookByEjection(budget: number): Generator<null> {
    const { grid, time, ceiling, aim } = this.problem;
    if (time?.isAll) return;
    const least = { people: ceiling.people, stations: ceiling.stations - 1 };
    for (let share = FIRST_STRIDE; share <= LAST_STRIDE && !this.isProved; ) {
      if (this.nodes >= this.limits.nodes) return;
      const cycle = grid.atMost(this.cycle - 1n - (this.cycle - this.bound.cycle) / share);
      const work = this.problem.workAt(cycle);
      const left = (this.limits.nodes - this.nodes) * TRIES_OF_A_NODE;
      // Small lines are searched before much can be improved.
      const nodes = Math.min(budget, work.size ** 2 * TRIES_A_PAIR, left / MOST_OF_LEFT);
      const first = new FirstPlans(work, { nodes, least }, positionsOf(work, this.best));
      const isFound = () => first.best !== null && isCheaper(costOf(first.best), ceiling, aim);
      const nodesBefore = this.nodes;
      if (blocksWithoutStation(work).length === 0) {
        for (const stretch of first.stretches()) {
          this.nodes = nodesBefore + Math.ceil(first.nodes / TRIES_OF_A_NODE);
          if (isFound()) break;
          yield stretch;
        }
      }
      this.nodes = nodesBefore + Math.ceil(first.nodes / TRIES_OF_A_NODE);
      const before = this.cycle;
      if (isFound()) this.shorten(first.best!, cycle);
      if (this.cycle === before) share *= SHORTER_STRIDE;
    }
  }

  /** Halves the interval like lookForPlans, at cycles that leave stations nearly full. */
  private *lookByBeams(budget: number): Generator<null> {
    const { time, grid } = this.problem;
    if (!time?.isAll) return;
    const { times } = time;
    const count = mostStations(this.problem);
    const work = times.reduce((sum, each) => sum + each, 0);
    const width = Math.floor(budget / (count * nodesToExtend(times.length)));
    if (width < NARROWEST || budget * MOST_OF_LEFT > this.limits.nodes - this.nodes) return;
    for (let low = this.bound.cycle; low < this.cycle; ) {
      const cycle = grid.atMost(between(low, this.cycle - 1n));
      const limit = time.limitAt(cycle);
      if ((count * limit - work) * MOST_IDLE > work) return;
      yield* this.beam({ times, limit, before: time.before }, count, width);
      if (cycle < this.cycle) low = grid.atLeast(cycle + 1n);
    }
  }

  private *beam(
    problem: ConstructorParameters<typeof TwoWayBeam>[0],
    count: number,
    width: number,
  ): Generator<null> {
    const { limits, nodes } = this;
    const left = { nodes: limits.nodes - nodes, memory: limits.memory };
    const beam = new TwoWayBeam(problem, count, width, left);
    for (const stretch of beam.stretches()) {
      this.nodes = nodes + beam.nodes;
      yield stretch;
    }
    this.nodes = nodes + beam.nodes;
    if (beam.best !== null) this.shorten(this.problem.time!.planOf(beam.best, null)!, null);
  }

  /** Just below the best plan either answer helps: a better plan, or the proof that there is none. */
  private *lookJustBelow(budget: number, tried: Set<bigint>): Generator<"nodes" | "memory" | null> {
    while (!this.isProved && !tried.has(this.highest)) yield* this.probe(this.highest, budget, tried);
  }

  /** Halves the interval as if every cycle that the budget leaves open were ruled out. */
  private *lookForPlans(budget: number, tried: Set<bigint>): Generator<"nodes" | "memory" | null> {
    const { grid } = this.problem;
    // Without partial plans left no plan is found, while bounds alone may still rule out cycles.
    for (let low = this.bound.cycle; low < this.cycle && this.nodes < this.limits.nodes; ) {
      const cycle = grid.atMost(between(low, this.cycle - 1n));
      yield* this.probe(cycle, budget, tried);
      if (cycle < this.cycle) low = grid.atLeast(cycle + 1n);
      if (low < this.bound.cycle) low = this.bound.cycle;
    }
  }

  /** Halves the interval as if every cycle that the budget leaves open were enough. */
  private *lookForProofs(budget: number, tried: Set<bigint>): Generator<"nodes" | "memory" | null> {
    const { grid } = this.problem;
    for (let high = this.highest; this.bound.cycle <= high && !this.isProved; ) {
      const cycle = grid.atMost(between(this.bound.cycle, high));
      yield* this.probe(cycle, budget, tried);
      if (this.bound.cycle <= cycle) high = grid.atMost(cycle - 1n);
    }
  }

  private *probe(cycle: bigint, budget: number, tried: Set<bigint>): Generator<"nodes" | "memory" | null> {
    if (tried.has(cycle)) return;
    tried.add(cycle);
    const isLast = this.bound.cycle === this.highest;
    const probe = this.probeAt(cycle);
    const { search, stretches } = probe;
    const from = search.nodes;
    const mostNodes = isLast ? Number.POSITIVE_INFINITY : budget;
    while (search.nodes - from < mostNodes) {
      const before = search.nodes;
      const { value: ranOut, done } = stretches.next();
      this.nodes += search.nodes - before;
      if (done || ranOut !== null || search.best !== null) {
        this.conclude(probe, ranOut ?? null);
        return;
      }
      if (this.nodes >= this.limits.nodes) return;
      yield null;
    }
  }

  /** The search at the longest cycle goes on where it paused; any other begins anew and is forgotten afterwards. */
  private probeAt(cycle: bigint): Probe {
    if (this.kept?.cycle === cycle) return this.kept;
    const { problem, limits } = this;
    const { ceiling, aim } = problem;
    const isHighest = cycle === this.highest;
    // Any plan below the ceiling will do.
    const least = { people: Math.max(0, ceiling.people), stations: ceiling.stations - 1 };
    const memory = Math.ceil(limits.memory * (isHighest ? KEPT_MEMORY : 1 - KEPT_MEMORY));
    const nodes = limits.nodes - this.nodes;
    const start = { ceiling, aim, least, plan: null };
    const search = new TwoWaySearch(problem.workAt(cycle), start, { nodes, memory });
    const probe = { cycle, search, stretches: search.stretches() };
    if (isHighest) this.kept = probe;
    return probe;
  }

  private conclude({ cycle, search }: Probe, ranOut: "nodes" | "memory" | null): void {
    if (search.best !== null) this.shorten(search.best, cycle);
    else if (ranOut === null)
      this.bound = {
        kind: "search",
        cycle: this.problem.grid.atLeast(cycle + 1n),
        shorter: cycle,
        nodes: search.nodes,
      };
    else if (ranOut === "memory") this.overflowed.add(cycle);
  }

  /** Keeps a plan, and what it comes to once its longest station shared with others what it could. */
  private shorten(plan: BlockPlan, at: bigint | null): void {
    const { time } = this.problem;
    this.keep(plan, at);
    if (time === null) return;
    const { times, before } = time;
    const positions = plan.map(({ position }) => position);
    const count = time.isAll ? mostStations(this.problem) : plan.length;
    const stations = shortenLongest(
      times,
      before,
      count,
      time.stationsOf(plan),
      time.rulesAt(positions, null),
    );
    const shorter = time.planOf(stations, time.isAll ? null : positions);
    if (shorter !== null) this.keep(shorter, null, true);
  }

  /** Keeps a plan that is shorter than the best, or where that is said, as short. */
  private keep(plan: BlockPlan, at: bigint | null, orAsShort = false): boolean {
    const { problem } = this;
    if (!isCheaper(costOf(plan), problem.ceiling, problem.aim)) return false;
    const cycle = problem.cycleOf(plan, at);
    if (cycle > this.cycle || (cycle === this.cycle && !orAsShort)) return false;
    this.best = plan;
    this.cycle = cycle;
    return true;
  }
}

/** How a search for the least cycle went. */
export interface LeastCycle {
  readonly plan: BlockPlan;
  readonly cycle: bigint;
  readonly bound: CycleBound;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted" | "memory";
}

/** Asked every few milliseconds of work: a reason to stop, or null to go on. */
export type CycleWatch = (progress: {
  readonly nodes: number;
  readonly best: bigint;
  readonly bound: bigint;
}) => Promise<"time" | "interrupted" | null> | ("time" | "interrupted" | null);

/** The least cycle of a problem: the answer depends on the arguments alone, unless the watch stops the search. */
export async function findLeastCycle(
  problem: CycleProblem,
  first: BlockPlan,
  limits: { readonly nodes: number; readonly memory: number },
  watch: CycleWatch,
): Promise<LeastCycle> {
  const search = new LeastCycleSearch(problem, first, limits);
  let ended: LeastCycle["ended"] = "proved";
  for (const ranOut of search.stretches()) {
    const { nodes, cycle: best, bound } = search;
    const reason = ranOut ?? (await watch({ nodes, best, bound: bound.cycle }));
    if (reason === null) continue;
    ended = reason;
    break;
  }
  const { best: plan, cycle, bound, nodes } = search;
  return { plan, cycle, bound, nodes, ended };
}

/** A search at a cycle that may go on later. */
interface Probe {
  readonly cycle: bigint;
  readonly search: TwoWaySearch;
  readonly stretches: ReturnType<TwoWaySearch["stretches"]>;
}

const longestOf = (times: readonly number[], stations: Stations): number =>
  stations.reduce(
    (most, units) =>
      Math.max(
        most,
        units.reduce((sum, unit) => sum + times[unit]!, 0),
      ),
    0,
  );

/** The whole number in the middle, the lower of two. */
const between = (low: bigint, high: bigint): bigint => low + (high - low) / 2n;

/** The plain line that bounds a work has this part of the nodes. */
const SHARE_OF_BOUND = 4;
/** The share of the memory for the search just below the best plan. */
const KEPT_MEMORY = 3 / 4;
/** Nodes of each probe in the first round, and how much larger they are from round to round. */
const FIRST_BUDGET = 2000;
const GROWTH = 4;
/** How many times as many nodes a probe just below the best plan has. */
const JUST_BELOW = 4;
/** How many times as many nodes a beam has, counted by its width. There are none in the first round. */
const NODES_OF_A_BEAM = 10;
/** Narrower beams find little. */
const NARROWEST = 16;
/** A beam or ejection that takes more than such a part of the nodes left would take those of better use. */
const MOST_OF_LEFT = 8;
/** Beams are for limits that leave at most one part in so many of the work content idle. */
const MOST_IDLE = 50;
/** Pairs of stations shaken in the first round, twice as many in each further round, and at one go. */
const FIRST_PAIRS = 2000;
const STRETCH = 500;
/** Ways for a block to join a station that count as one partial plan. */
const TRIES_OF_A_NODE = 16;
/** Ejection tries so many ways for a line of so many pairs of blocks. */
const TRIES_A_PAIR = 10;
/** Fillings by rules come no nearer to each other than such a part of what is open below the first plan. */
const CLOSEST_FILLS = 1024n;
/** Ejection first tries such a part of what is open below the best plan, then ever smaller ones. */
const FIRST_STRIDE = 2n;
const SHORTER_STRIDE = 4n;
const LAST_STRIDE = 128n;
