import type { Cost } from "../cost.js";
import { leastMovesTo } from "../moves-of-plan.js";
import { type BlockPlan, type Today, turnWork, type Work } from "../work.js";
import { type BeamSize, FollowToday } from "./follow-today.js";
import { undoMoves } from "./undo-moves.js";

/**
 * Plans below a ceiling with few moves from today's, before anything is proved: beams that follow today's plan from either end of the
 * line, narrow ones first, each only after what moves less than the best so far.
 */
export class NearToday {
  /** The plan with the fewest moves so far; null where none was found that moves less than what was known. */
  plan: BlockPlan | null = null;
  nodes = 0;

  /**
   * @param cost plans whose moves cost as much or more are not looked for
   * @param limits.bound no plan moves less
   * @param limits.nodes for all beams but the first, which may take up to `most`
   */
  constructor(
    private readonly work: Work,
    private readonly today: Today,
    private readonly ceiling: Cost,
    public cost: number,
    private readonly limits: { readonly bound: number; readonly nodes: number; readonly most: number },
  ) {}

  /** Goes on until no plan can move less or the nodes are used up; gives null now and then. */
  *stretches(): Generator<null> {
    const first = Math.max(LEAST_WIDTH, Math.min(FIRST_WIDTH, Math.floor(WIDTH_BY_BLOCKS / this.work.size)));
    for (let width = first; width <= MOST_WIDTH; width *= WIDENING) {
      for (const [idle, fromBack] of this.work.isPositional ? FROM_FRONT : FROM_BOTH) {
        if (this.cost <= this.limits.bound || this.nodes >= this.limits.nodes) return;
        // The first beam comes to its end, as nothing else is at hand.
        const { nodes, most } = this.limits;
        yield* this.follow({ width, steps: STEPS, idle }, fromBack, this.nodes === 0 ? most : nodes);
      }
    }
  }

  private *follow(size: BeamSize, fromBack: boolean, mostNodes: number): Generator<null> {
    const { work, today, ceiling } = this;
    const whole = { ...work, today };
    const { today: along, ...seen } = fromBack ? turnWork(whole) : whole;
    const beam = new FollowToday({ ...seen, today: null }, along!, ceiling, this.cost, size);
    const before = this.nodes;
    for (const _ of beam.stretches()) {
      this.nodes = before + Math.ceil(beam.steps / STEPS_A_NODE);
      if (this.nodes >= mostNodes) return;
      yield null;
    }
    this.nodes = before + Math.ceil(beam.steps / STEPS_A_NODE);
    if (beam.plan === null) return;
    const inOrder = fromBack ? beam.plan.toReversed() : beam.plan;
    const plan = work.isPositional ? inOrder : inOrder.map((each, position) => ({ ...each, position }));
    const undone = undoMoves(work, today, plan, ceiling);
    const cost = leastMovesTo(today, undone);
    // Too dear by a cost that is held beside this one.
    if (cost >= this.cost) return;
    this.plan = undone;
    this.cost = cost;
  }
}

/** The first beams of long lines are narrower, so that the first plan takes no longer than need be. */
const FIRST_WIDTH = 10;
const LEAST_WIDTH = 3;
const WIDTH_BY_BLOCKS = 3_000;
const WIDENING = 4;
const MOST_WIDTH = 10_000;
/** Steps through the loads of one station. */
const STEPS = 200;
/** As many steps as count for a node of the search. */
const STEPS_A_NODE = 16;
/** What idle time ahead of the pace counts for, and the end that a beam begins at. */
const FROM_FRONT = [
  [20, false],
  [8, false],
] as const;
const FROM_BOTH = [...FROM_FRONT, [20, true]] as const;
