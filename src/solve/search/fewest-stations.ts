import { type Bound, staticBounds } from "../bounds/bound.js";
import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { StationProblem, Stations } from "../problem.js";
import { BothEnds } from "./both-ends.js";
import { DirectionSearch, type Stretch } from "./direction-search.js";
import { type Instance, layOut, turnRound } from "./instance.js";

export interface SearchLimits {
  /** Partial plans looked at; each direction has half of them, whatever the other does. */
  readonly nodes: number;
  /** Partial plans remembered, shared in the same way; MOST_STATES when left out. */
  readonly memory?: number;
}

/** About 300 MB for a line of 100 tasks. */
export const MOST_STATES = 6_000_000;

/** Called every few milliseconds of work: a reason to stop, or null to go on. */
export type Checkpoint = (progress: {
  readonly nodes: number;
  readonly best: number;
  readonly bound: number;
}) => Promise<"time" | "interrupted" | null> | ("time" | "interrupted" | null);

export interface SearchAnswer {
  /** The best plan known, at worst the first one; tasks of a station in order of work. */
  readonly stations: Stations;
  readonly bound: Bound;
  readonly nodes: number;
  readonly ended: "proved" | "nodes" | "time" | "interrupted" | "memory";
}

/**
 * The least number of stations (the simple assembly line balancing problem, SALBP-1). `first` is a valid plan to improve
 * on. The answer depends on the problem, the plan and the limits alone, unless the checkpoint stops the search.
 * Throws TimesTooLargeError when sums of the task times may not be exact.
 */
export async function fewestStations(
  problem: StationProblem,
  first: Stations,
  limits: SearchLimits,
  checkpoint: Checkpoint,
): Promise<SearchAnswer> {
  const bound = staticBounds(problem)[0]!;
  const search = new TwoWaySearch(first, bound.stations, limits);
  const ended = await search.run(layOut(problem), layOut(turnRound(problem)), checkpoint);
  const weights = positionalWeights(problem);
  return {
    stations: search.best.map((tasks) => orderOfWork(problem, weights, tasks)),
    bound: search.exhausted
      ? { kind: "search", stations: search.best.length, tasks: [], nodes: search.nodes }
      : bound,
    nodes: search.nodes,
    ended,
  };
}

/** First plans from both ends, then branch and bound from each end in turn, all after a plan better than the best. */
class TwoWaySearch {
  best: Stations;
  /** Every way to do with fewer stations than the best is ruled out. */
  exhausted = false;
  private bothEnds: BothEnds | null = null;
  private readonly sides: Side[] = [];

  constructor(
    first: Stations,
    private readonly bound: number,
    private readonly limits: SearchLimits,
  ) {
    this.best = first;
  }

  get nodes(): number {
    return this.sides.reduce((sum, { search }) => sum + search.nodes, this.bothEnds?.nodes ?? 0);
  }

  async run(front: Instance, back: Instance, checkpoint: Checkpoint): Promise<SearchAnswer["ended"]> {
    const ask = () => checkpoint({ nodes: this.nodes, best: this.best.length, bound: this.bound });
    for (const ended of this.stretches(front, back)) {
      if (ended !== null) return ended;
      const reason = await ask();
      if (reason !== null) return reason;
    }
    return "proved";
  }

  /** The whole search in stretches of a few milliseconds: null to go on, or how it ended. */
  private *stretches(front: Instance, back: Instance): Generator<SearchAnswer["ended"] | null> {
    if (this.isProved) return;
    yield* this.buildFirstPlans(front, back);
    if (this.isProved) return;
    this.openSides(front, back);
    while (this.sides.some((side) => side.stretch === "open")) {
      for (const side of this.sides) {
        if (side.stretch !== "open") continue;
        this.goOn(side);
        if (this.exhausted || this.isProved) return;
        yield null;
      }
    }
    yield this.sides.some((side) => side.stretch === "memory") ? "memory" : "nodes";
  }

  private get isProved(): boolean {
    return this.best.length <= this.bound;
  }

  private *buildFirstPlans(front: Instance, back: Instance): Generator<null> {
    this.bothEnds = new BothEnds(front, back);
    for (const plan of this.bothEnds.tries(() => this.best.length - 1)) {
      if (plan !== null) this.best = plan;
      if (this.isProved || this.nodes >= this.limits.nodes) return;
      yield null;
    }
  }

  private openSides(front: Instance, back: Instance): void {
    const target = this.best.length - 1;
    const nodes = Math.ceil((this.limits.nodes - this.nodes) / 2);
    const states = Math.ceil((this.limits.memory ?? MOST_STATES) / 2);
    for (const instance of [front, back]) {
      const search = new DirectionSearch(instance, target, nodes, states);
      this.sides.push({ search, fromBack: instance === back, stretch: "open" });
    }
  }

  private goOn(side: Side): void {
    side.stretch = side.search.run(STRETCH);
    if (side.stretch === "exhausted") this.exhausted = true;
    if (side.stretch !== "found") return;
    const plan = side.search.plan();
    this.best = side.fromBack ? plan.toReversed() : plan;
    side.stretch = "open";
    for (const each of this.sides) each.search.aimAt(this.best.length - 1);
  }
}

interface Side {
  readonly search: DirectionSearch;
  readonly fromBack: boolean;
  stretch: Stretch;
}

/** Steps of one direction before the other has its turn. */
const STRETCH = 20_000;
