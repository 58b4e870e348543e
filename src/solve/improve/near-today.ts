import { PricesAlongLine } from "../bounds/prices-along-line.js";
import type { Cost } from "../cost.js";
import { leastMovesTo } from "../moves-of-plan.js";
import { type BlockPlan, type Today, turnWork, type Work } from "../work.js";
import { type BeamSize, FollowToday } from "./follow-today.js";
import { undoMoves } from "./undo-moves.js";

/**
 * Plans below a ceiling with few moves from today's, and a bound on their moves: beams that follow today's plan from either end of the
 * line, narrow ones first, each only after what moves less than the best so far. A beam that had to leave nothing out proves that
 * nothing moves less.
 */
export class NearToday {
  /** The plan with the fewest moves so far; null where none was found that moves less than what was known. */
  plan: BlockPlan | null = null;
  nodes = 0;
  private readonly firstWidth: number;
  private width: number;
  /** Which beam of that width comes next. */
  private turn = 0;
  private prices: PricesAlongLine | null = null;
  /** The last beam from the front, and from the back. */
  private readonly spent = [
    { width: 0, nodes: 0 },
    { width: 0, nodes: 0 },
  ];

  /**
   * @param cost plans whose moves cost as much or more are not looked for
   * @param bound no plan moves less
   */
  constructor(
    private readonly work: Work,
    private readonly today: Today,
    private readonly ceiling: Cost,
    public cost: number,
    public bound: number,
  ) {
    this.firstWidth = firstWidth(work);
    this.width = this.firstWidth;
  }

  /** Ever wider beams, until no plan can move less or so many nodes would be used up; gives null now and then. */
  *widen(enough: number): Generator<null> {
    const most = isLong(this.work) && !this.work.isPositional ? MOST_WIDTH_OF_LONG : MOST_WIDTH;
    for (; this.width <= most; this.width *= WIDENING, this.turn = 0) {
      const beams = this.beams;
      for (; this.turn < beams.length; this.turn++) {
        const [idle, fromBack] = beams[this.turn]!;
        if (this.cost <= this.bound) return;
        // A beam that would not come to its end is not begun; the first comes to it in any case.
        if (this.nodes > 0 && this.nodes + this.expectedNodes(fromBack) > enough) return;
        if (fromBack && this.isBackDear) continue;
        const [before, end] = [this.nodes, fromBack ? 1 : 0];
        const mostNodes = fromBack ? before + DEAR * this.spent[0]!.nodes : Number.POSITIVE_INFINITY;
        yield* this.follow({ width: this.width, loads: LOADS, idle }, fromBack, this.cost, mostNodes);
        this.spent[end] = { width: this.width, nodes: this.nodes - before };
      }
    }
  }

  /** Looks for prices that raise the bound, and by which all later beams tell what is still ahead; gives null now and then. */
  *price(mostNodes: number): Generator<null> {
    const { work, today, ceiling, nodes: before } = this;
    const dearest = today.homes.flat().reduce((sum, { cost }) => sum + cost, 0);
    if (work.size > MOST_PRICED) return;
    // Without any plan it is not known that there is one.
    if (this.bound >= this.cost || this.cost > dearest || !PricesAlongLine.suits(work, today)) return;
    const prices = new PricesAlongLine(work, today, ceiling);
    const most = mostNodes * PRICE_STEPS_A_NODE * Math.max(1, work.size / PRICED_SOON);
    for (const _ of prices.raise(this.cost, most)) {
      this.nodes = before + Math.ceil(prices.steps / PRICE_STEPS_A_NODE);
      yield null;
    }
    this.bound = Math.max(this.bound, Math.min(this.cost, prices.bound));
    this.prices = prices;
  }

  /** Those of one width: what idle time ahead of the pace counts for, and the end that a beam begins at. */
  private get beams(): readonly (readonly [idle: number, fromBack: boolean])[] {
    const { work, width, firstWidth } = this;
    if (work.isPositional) return width > MOST_WIDTH_OF_BOTH ? [STEADY_BEAM] : ON_FLOORS;
    if (width === firstWidth) return FIRST_BEAMS;
    if (!isLong(work)) return [WIDER_BEAM, FROM_BACK];
    return width > WIDENING * firstWidth ? [STEADY_BEAM] : [STEADY_BEAM, WIDER_BEAM];
  }

  /** By the last beam from there; nobody knows of the first from the back. */
  private expectedNodes(fromBack: boolean): number {
    const last = this.spent[fromBack ? 1 : 0]!;
    return last.width === 0 ? 0 : (last.nodes * this.width) / last.width;
  }

  private get isBackDear(): boolean {
    const [front, back] = this.spent;
    return back!.width > 0 && back!.nodes / back!.width >= (DEAR * front!.nodes) / front!.width;
  }

  /**
   * Raises the bound as far as nothing has to be left out, from few moves to many, and finds what moves no more than that.
   *
   * @param nextCost the least that moves can cost from some number on
   * @param endsEarly a beam is given up as soon as it would hardly come to its end
   */
  *raiseBound(mostNodes: number, nextCost: (least: number) => number, endsEarly: boolean): Generator<null> {
    const width = Math.ceil(MOST_BYTES / (BYTES_A_PLAN + BYTES_A_BLOCK * this.work.size));
    // Where the first question would take long, none is answered.
    let patience = endsEarly ? (mostNodes - this.nodes) * FIRST_QUESTION : Number.POSITIVE_INFINITY;
    let last = { raised: 1, took: Number.POSITIVE_INFINITY };
    let [jump, mayJump] = [1, true];
    while (this.bound < this.cost && this.nodes < mostNodes) {
      const [before, from] = [this.bound, this.nodes];
      const step = Math.max(jump - 1, Math.floor((this.cost - before) / STEPS_TO_BEST));
      const below = Math.min(this.cost, nextCost(before + step) + 1);
      const mostSteps = endsEarly
        ? Math.min(mostNodes - from, patience) * STEPS_A_NODE
        : Number.POSITIVE_INFINITY;
      const size = { width, loads: MOST_LOADS, idle: 0, whole: { mostSteps } };
      yield* this.follow(size, false, below, mostNodes);
      if (this.bound === before) {
        if (jump === 1) return;
        [jump, mayJump] = [1, false];
        continue;
      }
      const [raised, took] = [below - before, this.nodes - from];
      patience = mostNodes;
      if (endsEarly && mayJump)
        jump = jumpAfter(last, { raised, took }, (mostNodes - this.nodes) * JUMP_SHARE);
      last = { raised, took };
      this.bound = Math.min(this.cost, nextCost(this.bound));
    }
  }

  private *follow(size: BeamSize, fromBack: boolean, below: number, mostNodes: number): Generator<null> {
    const { work, today, ceiling } = this;
    const whole = { ...work, today };
    const { today: along, ...seen } = fromBack ? turnWork(whole) : whole;
    const there = { ...seen, today: null };
    const prices = fromBack ? (this.prices?.turned(there, along!) ?? null) : this.prices;
    const beam = new FollowToday(there, along!, ceiling, below, size, prices);
    const before = this.nodes;
    const count = () => {
      this.nodes = before + Math.ceil(beam.steps / STEPS_A_NODE);
    };
    for (const _ of beam.stretches()) {
      count();
      if (this.nodes >= mostNodes) return;
      yield null;
    }
    count();
    if (beam.isWhole) this.bound = Math.max(this.bound, beam.cost);
    if (beam.plan === null) return;
    const plan = inRow(work, fromBack ? beam.plan.toReversed() : beam.plan);
    const undone = undoMoves(work, today, plan, ceiling);
    const cost = leastMovesTo(today, undone);
    // Too dear by a cost that is held beside this one.
    if (cost >= this.cost) return;
    this.plan = undone;
    this.cost = cost;
  }
}

/** How far a bound was raised at once, and how many nodes that took. */
interface Raised {
  readonly raised: number;
  readonly took: number;
}

/** By how much the next question may raise the bound, so that it takes no more nodes than allowed if each takes so many times those before. */
function jumpAfter(before: Raised, last: Raised, most: number): number {
  const growth = Math.max(LEAST_GROWTH, last.took / Math.max(1, before.took));
  let jump = last.raised;
  for (let took = last.took * growth * growth; took <= most && jump < MOST_JUMP; took *= growth)
    jump += last.raised;
  return Number.isFinite(before.took) ? jump : 1;
}

/** Where a line has more blocks than this, a proof is seldom reached, and each partial plan costs more: there are to be fewer of them. */
export const PROVABLE = 60;
export const isLong = ({ size }: Work): boolean => size > PROVABLE;
/** The first beams of long lines are narrower, so that the first plan takes no longer than need be. */
export const firstWidth = ({ size }: Work): number =>
  Math.max(LEAST_WIDTH, Math.min(FIRST_WIDTH, Math.floor(WIDTH_BY_BLOCKS / size)));

/** A plan of a beam with its stations next to each other, unless their positions matter by themselves. */
export const inRow = ({ isPositional }: Work, plan: BlockPlan): BlockPlan =>
  isPositional ? plan : plan.map((each, position) => ({ ...each, position }));

const FIRST_WIDTH = 16;
const LEAST_WIDTH = 4;
const WIDTH_BY_BLOCKS = 4_000;
export const WIDENING = 4;
const MOST_WIDTH = 10_000;
/** Wider ones find hardly anything better there, but where positions matter. */
const MOST_WIDTH_OF_LONG = 256;
/** Loads of one station of one partial plan. */
export const LOADS = 1_000;
/** As many steps as count for a node of the search. */
export const STEPS_A_NODE = 16;
/** Prices get so many steps for each; the longer the line beyond so many blocks, the more. */
const PRICE_STEPS_A_NODE = 4_000;
const PRICED_SOON = 150;
/** On a longer line prices would end long before they say more than the loads do. */
const MOST_PRICED = 500;
/** Narrow beams need idle time to count for more, else they come to no plan of so few people; so do all where positions matter. */
export const ON_FLOORS = [
  [8, false],
  [20, false],
] as const;
const FROM_BACK = [8, true] as const;
const FIRST_BEAMS = [[8, false], FROM_BACK] as const;
const WIDER_BEAM = [3, false] as const;
/** On long lines wide beams find fewer moves, too, where idle time ahead of the pace counts for as much as in narrow ones. */
const STEADY_BEAM = [8, false] as const;
const MOST_WIDTH_OF_BOTH = 256;
/** From the back only where that takes no more nodes than so many times those from the front. */
const DEAR = 3;
/** A bound is raised by such a part of what is open. */
const STEPS_TO_BEST = 8;
/** On a long line the first question may take so many of the nodes. */
const FIRST_QUESTION = 1 / 6;
/** A question that skips others may take such a part of the nodes left, if each takes at least so many times those before. */
const JUMP_SHARE = 3 / 4;
const LEAST_GROWTH = 1.2;
const MOST_JUMP = 1_000;
const MOST_LOADS = 50_000;
/** Partial plans of one position that are kept where nothing is to be left out, by what they take. */
const MOST_BYTES = 2e8;
const BYTES_A_PLAN = 500;
const BYTES_A_BLOCK = 10;
