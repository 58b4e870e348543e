import type { StationProblem, Stations } from "../problem.js";
import { BothEnds, End } from "./both-ends.js";
import { DirectionSearch, type Stretch } from "./direction-search.js";
import { layOut, turnRound } from "./instance.js";
import { StationCloser } from "./station-closer.js";

/**
 * First plans built from both ends of the line, then branch and bound from each end in turn, always after a plan with
 * fewer stations than the best known. Each end has half of the memory, and of the nodes that closing stations leaves. The end with
 * fewer partial plans so far has more turns: it is likely to run out of them first (Scholl & Klein 1997 choose the end of
 * each step alike). After its first turns the stations of the best plan are closed one by one as far as that goes.
 */
export class TwoWaySearch {
  best: Stations;
  private sides: readonly Side[] = [];
  private closer: StationCloser | null = null;
  private readonly closingShare: number;

  constructor(
    private readonly problem: StationProblem,
    /** Where it is no whole plan, only the number of its stations counts. */
    first: Stations,
    /** Proved: no plan has fewer stations. */
    public bound: number,
    private readonly limits: { readonly nodes: number; readonly memory: number },
  ) {
    this.best = first;
    this.closingShare = isWhole(first) ? CLOSING_SHARE : 0;
  }

  /** Full loads looked at, and turns of closing stations. */
  get nodes(): number {
    const inSides = this.sides.reduce(
      (sum, { end, search }) => sum + end.filler.nodes + (search?.nodes ?? 0),
      0,
    );
    return inSides + (this.closer?.nodes ?? 0);
  }

  /** The search in stretches of a few milliseconds: null to go on; ends when the best is proved, or says what ran out. */
  *stretches(): Generator<"nodes" | "memory" | null> {
    if (this.isProved) return;
    this.sides = this.openSides();
    yield* this.buildFirstPlans();
    for (let turns = 0; !this.isProved; turns++) {
      if (turns === TURNS_BEFORE_CLOSING) yield* this.closeStations();
      if (this.isProved) return;
      const open = this.sides.filter(({ stretch }) => stretch === "open");
      if (open.length === 0)
        yield this.sides.some(({ stretch }) => stretch === "memory") ? "memory" : "nodes";
      if (open.length === 0) continue;
      this.goOn(nextOf(open));
      if (this.isProved) return;
      yield null;
    }
  }

  private get isProved(): boolean {
    return this.best.length <= this.bound;
  }

  private openSides(): Side[] {
    const half = (this.limits.nodes * (1 - this.closingShare)) / 2;
    const front = { end: new End(layOut(this.problem), Math.ceil(half)), fromBack: false };
    const back = { end: new End(layOut(turnRound(this.problem)), Math.floor(half)), fromBack: true };
    return [front, back].map((side) => ({ ...side, search: null, stretch: "open", turns: 0 }));
  }

  private *buildFirstPlans(): Generator<null> {
    const [front, back] = this.sides.map(({ end }) => end);
    for (const plan of new BothEnds(front!, back!).tries(() => this.best.length - 1)) {
      if (plan !== null) this.best = plan;
      if (this.isProved) return;
      yield null;
    }
  }

  /** Ends when it has come to nothing for long. */
  private *closeStations(): Generator<null> {
    if (this.closingShare === 0) return;
    for (const side of this.sides) side.search ??= this.openSearch(side.end);
    const [{ end }] = this.sides as [Side];
    const before = this.best.length;
    const closer = new StationCloser(end.instance, end.numbered(this.best));
    this.closer = closer;
    const most = Math.floor(this.limits.nodes * this.closingShare);
    for (let last = PATIENCE * before ** 2; closer.nodes < Math.min(last, most) && !this.isProved; ) {
      if (closer.run(Math.min(TURNS_AT_ONCE, most - closer.nodes))) {
        this.best = end.named(closer.best);
        last = closer.nodes + PATIENCE * before ** 2;
      }
      yield null;
    }
    if (this.best.length === before) return;
    for (const { search } of this.sides) search!.aimAt(this.best.length - 1);
  }

  private goOn(side: Side): void {
    side.turns++;
    side.search ??= this.openSearch(side.end);
    if (this.isProved) return;
    side.stretch = side.search.run(STRETCH);
    if (side.stretch === "exhausted") this.bound = this.best.length;
    if (side.stretch !== "found") return;
    const plan = side.search.plan();
    this.best = side.fromBack ? plan.toReversed() : plan;
    side.stretch = "open";
    for (const { search } of this.sides) search?.aimAt(this.best.length - 1);
  }

  private openSearch({ instance, filler, mostNodes }: End): DirectionSearch {
    const states = Math.ceil(this.limits.memory / 2);
    const search = new DirectionSearch(instance, this.best.length - 1, mostNodes - filler.nodes, states);
    this.bound = Math.max(this.bound, search.leastStations);
    return search;
  }
}

interface Side {
  readonly end: End;
  /** Its plans run from the last station to the first. */
  readonly fromBack: boolean;
  /** Opened when the first plans are not enough. */
  search: DirectionSearch | null;
  stretch: Stretch;
  /** Stretches of search so far. */
  turns: number;
}

/** The end with fewer partial plans, unless the other has waited for long. */
function nextOf(open: readonly Side[]): Side {
  const [one, two] = open as [Side, Side?];
  if (two === undefined || one.turns * MOST_TURNS < two.turns) return one;
  if (two.turns * MOST_TURNS < one.turns) return two;
  return effort(one) <= effort(two) ? one : two;
}

function effort({ search, turns }: Side): number {
  return (search?.states ?? 0) + turns * STATES_A_TURN;
}

/** A plan of which only the number of its stations is known has no tasks. */
function isWhole(plan: Stations): boolean {
  return plan.some((tasks) => tasks.length > 0);
}

/** Steps of one direction before the other has its turn. */
const STRETCH = 20_000;
/** An end has at most so many turns for one of the other. */
const MOST_TURNS = 12;
/** Turns count as well, or an end that is stuck in few partial plans would have them all. */
const STATES_A_TURN = 20;
/** The share of the nodes that closing stations may take. */
const CLOSING_SHARE = 1 / 16;
/** Easy lines need none of it: the ends have so many turns first. */
const TURNS_BEFORE_CLOSING = 16;
/** Closing stations ends after so many turns in vain, times the square of the number of stations. */
const PATIENCE = 0.5;
const TURNS_AT_ONCE = 20;
