import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import { commonDivisor } from "../search/exact-sums.js";
import type { LeastLimitAnswer } from "../search/least-limit.js";
import { Arrangement } from "./arrangement.js";
import { PlanShaker } from "./shake-plan.js";
import { MOST_TASKS, SmoothestPlan } from "./smoothest-plan.js";
import { evenestGaps, squaredGaps } from "./squared-gaps.js";
import { swapTasks } from "./swap-tasks.js";

/** A plan with its longest station and the sum of the squared gaps to it. */
interface Measured {
  readonly stations: Stations;
  readonly slowest: number;
  readonly gaps: bigint;
}

/** Looks for the smoothest plan: swaps from each start, a short shake, every plan of a small line, a long shake. */
export class SmoothSearch {
  nodes: number;
  best: Measured;
  private allLookedAt = false;

  /** The starts have as many stations each, and a task at every one. */
  constructor(
    private readonly times: readonly number[],
    private readonly before: readonly (readonly number[])[],
    starts: readonly Stations[],
    private readonly least: LeastLimitAnswer,
  ) {
    this.nodes = least.nodes;
    this.best = starts
      .map((start) => {
        const arrangement = new Arrangement(times, before, start);
        swapTasks(arrangement);
        return measure(arrangement);
      })
      .reduce((one, two) => (isSmoother(two, one) ? two : one));
  }

  /** The sum of squared gaps that no plan with such a longest station falls below; that station itself has no gap. */
  get bound(): bigint {
    const { stations, slowest, gaps } = this.best;
    if (this.allLookedAt) return gaps;
    const work = this.times.reduce((sum, each) => sum + BigInt(each), 0n);
    const idle = BigInt(slowest) * BigInt(stations.length) - work;
    return evenestGaps(idle, Math.max(0, stations.length - 1), BigInt(commonDivisor(this.times)));
  }

  get isProved(): boolean {
    return this.best.slowest === this.least.bound && this.best.gaps === this.bound;
  }

  /** `stop` gives a reason to end early, or null. */
  async run(mostNodes: number, stop: () => Promise<string | null>): Promise<void> {
    const { times, before } = this;
    const order = orderOfWork(
      { times, before, limit: 1 },
      positionalWeights({ times, before, limit: 1 }),
      times.keys(),
    );
    const shaker = new PlanShaker(times, before, this.best.stations, order);
    this.shake(shaker, Math.min(FIRST_PAIRS, mostNodes - this.nodes));
    this.lookAtAll(Math.min(MOST_NODES, mostNodes - this.nodes));
    for (let pairs = 0; pairs < MOST_PAIRS && this.nodes < mostNodes && !this.isProved; pairs += STRETCH) {
      if ((await stop()) !== null) return;
      this.shake(shaker, Math.min(STRETCH, mostNodes - this.nodes));
    }
  }

  private shake(shaker: PlanShaker, pairs: number): void {
    const nodes = shaker.nodes;
    shaker.run(pairs);
    this.nodes += shaker.nodes - nodes;
    this.keep(measure(new Arrangement(this.times, this.before, shaker.best)));
  }

  /** Small lines only, and only with a longest station that is proved: every plan then has such a one. */
  private lookAtAll(mostNodes: number): void {
    const { times, before, best, least } = this;
    if (this.isProved || best.slowest > least.bound || times.length > MOST_TASKS || mostNodes <= 0) return;
    const search = new SmoothestPlan(times, before, best.stations.length, best.slowest, best.gaps, mostNodes);
    search.run();
    this.nodes += search.nodes;
    if (search.best !== null) this.keep(measure(new Arrangement(times, before, search.best)));
    this.allLookedAt = search.exhausted;
  }

  private keep(plan: Measured): void {
    if (isSmoother(plan, this.best)) this.best = plan;
  }
}

function measure(arrangement: Arrangement): Measured {
  const slowest = arrangement.longest;
  return { stations: arrangement.plan(), slowest, gaps: squaredGaps(arrangement.loads, slowest) };
}

function isSmoother(one: Measured, two: Measured): boolean {
  return one.slowest < two.slowest || (one.slowest === two.slowest && one.gaps < two.gaps);
}

const FIRST_PAIRS = 200;
const MOST_NODES = 200_000;
const MOST_PAIRS = 20_000;
const STRETCH = 500;
