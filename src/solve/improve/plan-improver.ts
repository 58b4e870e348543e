import { type Cost, costOf, isCheaper, PEOPLE_FIRST } from "../cost.js";
import { drawNumbers } from "../level/draw-numbers.js";
import { arrangeBlocks } from "../station/arrange-blocks.js";
import type { BlockPlan, Work } from "../work.js";
import { type Budget, EjectionPool } from "./ejection-pool.js";
import type { PartialPlan, Snapshot } from "./partial-plan.js";

/**
 * Brings people, then stations of whole plans down: a station is closed or gives a person away, and the blocks that must leave it
 * find other stations by ejection. A partial plan is made whole in the same way.
 */
export class PlanImprover {
  /** The cheapest whole plan; null where there is none yet. */
  best: BlockPlan | null = null;
  /** The partial plan with the most work placed; of interest only as long as there is no whole one. */
  fullest: Snapshot;
  /** Turns of waiting blocks. */
  turns = 0;
  private kept: Snapshot;
  private readonly draw = drawNumbers();
  private leastLeft = Number.POSITIVE_INFINITY;

  constructor(
    private readonly plan: PartialPlan,
    private readonly isSpent: () => boolean,
  ) {
    this.kept = plan.snapshot();
    this.fullest = this.kept;
  }

  /** Finds stations for all blocks that have none in the plan as it is; gives null now and then. */
  *complete(turns: number): Generator<null, boolean> {
    this.keepFullest();
    return yield* this.run(ANY_BUDGET, turns);
  }

  /** Lowers the cost of the best plan until it is the least, or the nodes are used up, or long tries change nothing. */
  *improve(least: Cost): Generator<null> {
    const firstTurns = Math.min(MOST_FIRST_TURNS, FIRST_TURNS * this.plan.work.size);
    for (let turns = firstTurns; turns <= MOST_TURNS && this.best !== null && !this.isSpent(); ) {
      const { people, stations } = costOf(this.best);
      if (people <= least.people && stations <= least.stations) return;
      // Stations come second, so they get less; but not only once people cannot come down, which is seldom known.
      const isBetter =
        (people > least.people && (yield* this.lower("people", turns))) ||
        (stations > least.stations && (yield* this.lower("stations", turns / STATIONS_SHARE)));
      turns = isBetter ? firstTurns : 2 * turns;
    }
  }

  /** Tries one release after the other, those of the least work first, each for so many turns. */
  private *lower(what: keyof Cost, turns: number): Generator<null, boolean> {
    const { plan } = this;
    const { people, stations } = costOf(this.best!);
    const budget =
      what === "people" ? { ...ANY_BUDGET, people: people - 1 } : { people, stations: stations - 1 };
    plan.restore(this.kept);
    const releases = plan
      .usedPositions()
      .flatMap((position) =>
        plan
          .releasesAt(position)
          .filter(({ blocks }) => what === "people" || blocks.length === plan.blocksAt(position).length),
      )
      .map(({ blocks, freed }) => ({ blocks, work: workOf(plan.work, blocks) / freed }))
      .sort((one, two) => one.work - two.work);
    for (const { blocks } of releases) {
      if (this.isSpent()) return false;
      plan.restore(this.kept);
      for (const block of blocks) plan.remove(block);
      if (yield* this.run(budget, turns)) return true;
    }
    return false;
  }

  /** Turns of waiting blocks until none waits: then the plan is the best. */
  private *run(budget: Budget, turns: number): Generator<null, boolean> {
    const { plan } = this;
    plan.spread();
    const pool = new EjectionPool(plan, budget, this.draw);
    let asked = plan.tries;
    for (const end = this.turns + turns; this.turns < end && !pool.isEmpty && !this.isSpent(); ) {
      this.turns++;
      pool.turn();
      if (this.best === null) this.keepFullest();
      if (plan.tries - asked < STRETCH) continue;
      asked = plan.tries;
      yield null;
    }
    return pool.isEmpty && this.keepBest(budget);
  }

  private keepBest({ people, stations }: Budget): boolean {
    const { plan } = this;
    const found = arrangeBlocks(plan.work, packed(plan));
    if (found === null) return false;
    const cost = costOf(found);
    if (this.best !== null && !isCheaper(cost, costOf(this.best), PEOPLE_FIRST)) return false;
    this.best = found;
    this.kept = plan.snapshot();
    return cost.people <= people && cost.stations <= stations;
  }

  private keepFullest(): void {
    const left = this.plan.left();
    // Without a station costs a little even where a block takes no time.
    const work = workOf(this.plan.work, left) + left.length;
    if (work >= this.leastLeft) return;
    this.leastLeft = work;
    this.fullest = this.plan.snapshot();
  }
}

const workOf = (work: Work, blocks: readonly number[]): number =>
  blocks.reduce((sum, block) => sum + work.work[block]!, 0);

/** Positions of the blocks, stations next to each other where positions do not matter by themselves. */
function packed(plan: PartialPlan): number[] {
  if (plan.work.isPositional) return [...plan.at];
  const rank = new Map(plan.usedPositions().map((position, each) => [position, each]));
  return [...plan.at].map((position) => rank.get(position)!);
}

const ANY_BUDGET: Budget = { people: Number.MAX_SAFE_INTEGER, stations: Number.MAX_SAFE_INTEGER };
/** Ways tried between two looks at the clock. */
const STRETCH = 2_000;
/** Turns for each release at first, by block, and the most of that; twice as many each time that none led anywhere, up to the most. */
const FIRST_TURNS = 4;
const MOST_FIRST_TURNS = 200;
const MOST_TURNS = 100_000;
/** Stations get this part of the turns that people get. */
const STATIONS_SHARE = 4;
