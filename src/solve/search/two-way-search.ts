import { type Aim, type Cost, costOf, isCheaper } from "../cost.js";
import type { Stations } from "../problem.js";
import { blocksWithoutStation, rulesOf } from "../station/task-rules.js";
import { type BlockPlan, turnPlan, type Work } from "../work.js";
import { Beam, type Worth } from "./beam.js";
import { BothEnds, End } from "./both-ends.js";
import { DirectionSearch, type Stretch } from "./direction-search.js";
import { ForcedIdle, lookFromBothEnds } from "./forced-idle.js";
import { type Instance, layOutEnd } from "./instance.js";
import { StationCloser } from "./station-closer.js";

/** Where a search starts. */
export interface Start {
  /** Only plans cheaper than that are looked for. */
  readonly ceiling: Cost;
  readonly aim: Aim;
  /** Proved: no plan is cheaper. */
  readonly least: Cost;
  /** A plan of the ceiling's cost; null where none is known. */
  readonly plan: BlockPlan | null;
}

/**
 * First plans built from both ends of the line, then branch and bound from each end in turn, always after a plan cheaper than the best
 * known. Each end has half of the memory, and of the nodes that closing stations leaves. The end with
 * fewer partial plans so far has more turns: it is likely to run out of them first (Scholl & Klein 1997 choose the end of
 * each step alike). After its first turns the stations of the best plan are closed one by one as far as that goes.
 *
 * First plans, closing of stations and idle time that is forced say themselves which instances they suit; where positions of stations
 * matter, the line is searched from its first station only.
 */
export class TwoWaySearch {
  best: BlockPlan | null;
  /** The cost of the best plan; where there is none, the ceiling. */
  ceiling: Cost;
  /** Proved: no plan is cheaper. */
  bound: Cost;
  private readonly aim: Aim;
  private sides: readonly Side[] = [];
  private closer: StationCloser | null = null;
  private readonly closingShare: number;

  constructor(
    private readonly work: Work,
    { ceiling, aim, least, plan }: Start,
    private readonly limits: { readonly nodes: number; readonly memory: number },
  ) {
    this.best = plan;
    this.ceiling = ceiling;
    this.bound = least;
    this.aim = aim;
    this.front = layOutEnd(work, false);
    this.closingShare = StationCloser.suit(this.front) && plan !== null ? CLOSING_SHARE : 0;
  }

  private readonly front: Instance;

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
    if (blocksWithoutStation(this.work).length > 0) this.bound = this.ceiling;
    if (this.isProved) return;
    this.sides = this.openSides();
    if (BothEnds.suit(this.front)) yield* this.buildFirstPlans();
    for (let turns = 0; !this.isProved; turns++) {
      if (turns === TURNS_BEFORE_BEAMS) yield* this.sendBeams();
      if (this.isProved) return;
      if (turns === TURNS_BEFORE_CLOSING) yield* this.closeStations();
      if (this.isProved) return;
      const open = this.sides.filter(({ stretch }) => stretch === "open");
      if (open.length === 0)
        yield this.sides.some(({ stretch }) => stretch === "memory") ? "memory" : "nodes";
      if (open.length === 0) continue;
      if (Number.isInteger(Math.log2(turns))) yield* this.forceIdle(turns * STRETCH * FORCING_SHARE);
      if (this.isProved) return;
      const next = nextOf(open);
      yield* this.openSearch(next);
      this.goOn(next, next.search!);
      if (this.isProved) return;
      yield null;
    }
  }

  private get isProved(): boolean {
    return !isCheaper(this.bound, this.ceiling, this.aim);
  }

  private openSides(): Side[] {
    const nodes = this.limits.nodes * (1 - this.closingShare);
    const open = (instance: Instance, share: number, fromBack: boolean): Side => {
      return {
        end: new End(instance, share),
        fromBack,
        search: null,
        forced: null,
        stretch: "open",
        turns: 0,
      };
    };
    if (this.work.isPositional) return [open(this.front, Math.ceil(nodes), false)];
    return [
      open(this.front, Math.ceil(nodes / 2), false),
      open(layOutEnd(this.work, true), Math.floor(nodes / 2), true),
    ];
  }

  private *buildFirstPlans(): Generator<null> {
    const [front, back] = this.sides.map(({ end }) => end);
    for (const plan of new BothEnds(front!, back!).tries(() => this.ceiling.stations - 1)) {
      if (plan !== null) this.keep(stationsInRow(plan));
      if (this.isProved) return;
      yield null;
    }
  }

  /**
   * Beams from each end where stations mind which tasks they hold, narrow ones of all kinds first, as long as their share of the nodes of
   * that end lasts.
   */
  private *sendBeams(): Generator<null> {
    if (BothEnds.suit(this.front) || !Beam.suit(this.front)) return;
    for (const side of this.sides) yield* this.openSearch(side);
    const shares = this.sides.map(({ end, search }) =>
      Math.floor((end.mostNodes - search!.nodes) * BEAM_SHARE),
    );
    const ends = this.sides.map(({ search }, at) => search!.nodes + shares[at]!);
    for (let width = NARROWEST_BEAM; width <= WIDEST_BEAM; width *= 2) {
      for (const worth of WORTHS) {
        for (const [at, side] of this.sides.entries())
          while (!this.isProved && (yield* this.sendBeam(side, width, worth, ends[at]!)));
      }
    }
    // Their station is that of the search, which therefore begins the loads of its partial plan anew, better plan or not.
    for (const { search } of this.sides) search!.aimBelow(this.ceiling);
  }

  /** A beam for a plan with a station less than the best, until its end has looked at so many nodes; true where it finds one. */
  private *sendBeam(side: Side, width: number, worth: Worth, mostNodes: number): Generator<null, boolean> {
    const { end, fromBack, search } = side;
    const left = mostNodes - search!.nodes;
    if (left <= 0) return false;
    const count = Math.min(this.ceiling.stations - 1, end.instance.size);
    const beam = new Beam(end.instance, count, width, left, worth);
    let told = 0;
    for (const _ of beam.stretches()) {
      search!.nodes += beam.nodes - told;
      told = beam.nodes;
      yield null;
    }
    search!.nodes += beam.nodes - told;
    const plan = beam.plan();
    if (plan === null) return false;
    const row = stationsInRow(plan);
    this.keep(fromBack ? turnPlan(row) : row);
    return true;
  }

  /** Ends when it has come to nothing for long. */
  private *closeStations(): Generator<null> {
    if (this.closingShare === 0) return;
    for (const side of this.sides) yield* this.openSearch(side);
    const [{ end }] = this.sides as [Side];
    const before = this.ceiling.stations;
    const closer = new StationCloser(end.instance, end.numbered(this.best!.map(({ blocks }) => blocks)));
    this.closer = closer;
    const most = Math.floor(this.limits.nodes * this.closingShare);
    for (let last = PATIENCE * before ** 2; closer.nodes < Math.min(last, most) && !this.isProved; ) {
      if (closer.run(Math.min(TURNS_AT_ONCE, most - closer.nodes))) {
        this.keep(stationsInRow(end.named(closer.best)));
        last = closer.nodes + PATIENCE * before ** 2;
      }
      yield null;
    }
    if (this.ceiling.stations === before) return;
    for (const { search } of this.sides) search!.aimBelow(this.ceiling);
  }

  /** What the ends of the line leave idle at the least narrows the search from the other end, or ends it. */
  private *forceIdle(mostSteps: number): Generator<null> {
    if (!ForcedIdle.suit(this.front)) return;
    const [front, back] = this.sides as [Side, Side];
    const target = Math.min(this.front.size, this.ceiling.stations - 1);
    if (front.forced?.target !== target) front.forced = new ForcedIdle(front.end.instance, target);
    if (back.forced?.target !== target) back.forced = new ForcedIdle(back.end.instance, target);
    if (front.search !== null) front.search.behind = back.forced;
    if (back.search !== null) back.search.behind = front.forced;
    yield* lookFromBothEnds(front.forced, back.forced, mostSteps);
    if (front.forced.isRuledOut || back.forced.isRuledOut) this.bound = this.ceiling;
  }

  private goOn(side: Side, search: DirectionSearch): void {
    side.turns++;
    if (this.isProved) return;
    side.stretch = search.run(STRETCH);
    if (side.stretch === "exhausted") this.bound = this.ceiling;
    if (side.stretch !== "found") return;
    const plan = search.plan();
    this.keep(side.fromBack ? turnPlan(plan) : plan);
    side.stretch = "open";
    for (const { search } of this.sides) search?.aimBelow(this.ceiling);
  }

  private keep(plan: BlockPlan): void {
    this.best = plan;
    this.ceiling = costOf(plan);
  }

  private *openSearch(side: Side): Generator<null> {
    if (side.search !== null) return;
    const { instance, filler, mostNodes } = side.end;
    const states = Math.ceil(this.limits.memory / (this.work.isPositional ? 1 : 2));
    const left = mostNodes - filler.nodes;
    const search = yield* DirectionSearch.opened(instance, this.ceiling, this.aim, left, states);
    search.behind = this.sides.find((other) => other !== side)?.forced ?? null;
    if (isCheaper(this.bound, search.least, this.aim)) this.bound = search.least;
    side.search = search;
  }
}

/** Whether the search improves whole plans itself, from both ends and by closing stations. */
export const improvesPlans = (work: Work): boolean => StationCloser.suit({ rules: rulesOf(work) });

/** Stations of one person each, one after the other. */
export function stationsInRow(stations: Stations): BlockPlan {
  return stations.map((blocks, position) => ({ position, blocks, places: 1, crew: 1 }));
}

interface Side {
  readonly end: End;
  /** Its plans run from the last station to the first. */
  readonly fromBack: boolean;
  /** Opened when the first plans are not enough. */
  search: DirectionSearch | null;
  /** What this end leaves idle at the least; null where that is not looked for. */
  forced: ForcedIdle | null;
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

/** Steps of one direction before the other has its turn. */
const STRETCH = 20_000;
/** What is forced idle is looked for after 1, 2, 4, ... turns, in this share of the steps so far. */
const FORCING_SHARE = 1 / 4;
/** An end has at most so many turns for one of the other. */
const MOST_TURNS = 12;
/** Easy lines need no beams: the ends have so many turns first. */
const TURNS_BEFORE_BEAMS = 4;
/** The share of the nodes of an end that its beams may take. */
const BEAM_SHARE = 1 / 2;
const NARROWEST_BEAM = 24;
const WIDEST_BEAM = 800;
/** Each leads to plans that the others miss. */
const WORTHS: readonly Worth[] = [
  { parted: 0, followed: 0.1, long: 0.03 },
  { parted: 0.1, followed: 0.3, long: 0 },
  { parted: 0, followed: 0.05, long: 0 },
];
/** Turns count as well, or an end that is stuck in few partial plans would have them all. */
const STATES_A_TURN = 20;
/** The share of the nodes that closing stations may take. */
const CLOSING_SHARE = 1 / 16;
/** Easy lines need none of it: the ends have so many turns first. */
const TURNS_BEFORE_CLOSING = 16;
/** Closing stations ends after so many turns in vain, times the square of the number of stations. */
const PATIENCE = 0.5;
const TURNS_AT_ONCE = 20;
