import { arrangeFloor } from "../floor/arrange-floor.js";
import { type Cost, costOf, isCheaper } from "../floor/floor-state.js";
import type { BlockPlan, Work } from "../work.js";
import { type Budget, EjectionPool, releasesAt } from "./ejection-pool.js";
import { NOWHERE, PartialPlan } from "./partial-plan.js";

/**
 * Brings people, then stations of whole plans down: a station is closed or loses a person, and those that must leave it find
 * other stations by ejection. Also makes a partial plan whole in this way.
 */
export class PlanImprover {
  /** The cheapest whole plan; null where there is none yet. */
  best: BlockPlan | null = null;
  /** The positions of the partial plan with the most work placed. */
  fullest: Int32Array;
  private workLeft = Number.POSITIVE_INFINITY;
  private readonly pool: EjectionPool;

  constructor(
    private readonly work: Work,
    readonly plan: PartialPlan,
    private readonly nodes: number,
    /** Nothing costs less than this. */
    private readonly least: Cost,
  ) {
    this.pool = new EjectionPool(plan);
    this.fullest = plan.at.slice();
    this.keepFullest();
  }

  get isSpent(): boolean {
    return this.plan.tries >= this.nodes;
  }

  /** Finds stations for all that have none in the plan as it is; gives null now and then. */
  *complete(): Generator<null, boolean> {
    const { pool, plan, work } = this;
    pool.failures.fill(0);
    pool.waiting.length = 0;
    pool.waiting.push(
      ...[...work.loads.keys()]
        .filter((block) => plan.at[block]! === NOWHERE)
        .sort((one, two) => work.loads[one]! - work.loads[two]! || two - one),
    );
    return yield* this.run(ANY_BUDGET, Number.POSITIVE_INFINITY);
  }

  /** Lowers the cost of the best plan until it is the least, or the nodes are used up. */
  *improve(): Generator<null> {
    for (const aim of ["people", "stations"] as const) {
      let turns = FIRST_TURNS;
      while (this.best !== null && !this.isSpent && costOf(this.best)[aim] > this.least[aim]) {
        const better = yield* this.lower(aim, turns);
        turns = better ? FIRST_TURNS : 2 * turns;
        if (turns > MOST_TURNS) break;
      }
    }
  }

  private *lower(aim: "people" | "stations", turns: number): Generator<null, boolean> {
    const { plan, pool, work } = this;
    const cost = costOf(this.best!);
    const budget: Budget =
      aim === "people"
        ? { people: cost.people - 1, stations: Number.MAX_SAFE_INTEGER }
        : { people: cost.people, stations: cost.stations - 1 };
    this.restore();
    const loadOf = (blocks: readonly number[]) => blocks.reduce((sum, each) => sum + work.work[each]!, 0);
    const releases = plan
      .usedPositions()
      .flatMap((position) =>
        releasesAt(plan, position).filter(
          ({ blocks }) => aim === "people" || blocks.length === plan.blocksAt(position).length,
        ),
      )
      .map(({ blocks, freed }) => ({ blocks, load: loadOf(blocks) / freed }))
      .sort((one, two) => one.load - two.load);
    for (const { blocks } of releases) {
      if (this.isSpent) return false;
      this.restore();
      pool.waiting.length = 0;
      pool.failures.fill(0);
      for (const block of blocks.toSorted((one, two) => work.loads[one]! - work.loads[two]! || two - one)) {
        plan.remove(block);
        pool.waiting.push(block);
      }
      if (yield* this.run(budget, turns)) return true;
    }
    return false;
  }

  /** Turns of waiting blocks until none waits and the plan is within the budget: then it is the best. */
  private *run(budget: Budget, most: number): Generator<null, boolean> {
    const { plan, pool, work } = this;
    let asked = plan.tries;
    for (let turns = 0; turns < most && !this.isSpent; turns++) {
      if (pool.waiting.length === 0) {
        if (plan.placed < work.size || plan.people > budget.people || plan.stations > budget.stations)
          return false;
        const found = arrangeFloor(work, packed(work, plan.at));
        if (found === null) return false;
        if (this.best === null || isCheaper(costOf(found), costOf(this.best), "people")) this.best = found;
        return true;
      }
      pool.turn(budget);
      if (this.best === null) this.keepFullest();
      if (plan.tries - asked >= STRETCH) {
        asked = plan.tries;
        yield null;
      }
    }
    return false;
  }

  private restore(): void {
    const { plan } = this;
    plan.clear();
    for (const { position, blocks } of this.best!)
      for (const block of blocks) plan.put(block, position, plan.joined(block, position)!);
  }

  private keepFullest(): void {
    let left = 0;
    for (const [block, at] of this.plan.at.entries())
      if (at === NOWHERE) left += 1 + this.work.work[block]!;
    if (left >= this.workLeft) return;
    this.workLeft = left;
    this.fullest = this.plan.at.slice();
  }
}

/** Stations next to each other where positions do not matter by themselves. */
function packed(work: Work, at: Int32Array): number[] {
  if (work.isPositional) return [...at];
  const used = [...new Set(at)].sort((one, two) => one - two);
  return [...at].map((position) => used.indexOf(position));
}

const ANY_BUDGET: Budget = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
const STRETCH = 2_000;
const FIRST_TURNS = 200;
const MOST_TURNS = 50_000;
