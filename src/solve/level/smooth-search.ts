import { orderOfWork, positionalWeights } from "../order-of-work.js";
import type { Stations } from "../problem.js";
import type { PlanRules, StationTimes } from "../search/cycle-problem.js";
import { commonDivisor } from "../search/exact-sums.js";
import { Arrangement } from "./arrangement.js";
import { PlanShaker } from "./shake-plan.js";
import { MOST_TASKS, SmoothestPlan } from "./smoothest-plan.js";
import { evenestGaps, squaredGaps } from "./squared-gaps.js";
import { swapsOf } from "./swap-tasks.js";

/** A plan with its longest station and the sum of the squared gaps to it. */
interface Measured {
  readonly stations: Stations;
  readonly slowest: number;
  readonly gaps: bigint;
}

/** Looks for the smoothest plan: swaps from each start, a short shake, every plan of a small line, a long shake. */
export class SmoothSearch {
  best: Measured;
  private allLookedAt = false;

  private constructor(
    private readonly time: Pick<StationTimes, "times" | "before">,
    private readonly least: number | null,
    private readonly rules: PlanRules | null,
    first: Measured,
    /** Those used so far. */
    public nodes: number,
  ) {
    this.best = first;
  }

  /**
   * @param starts have as many stations each, and a unit at every one
   * @param least no plan has a shorter longest station; null where nothing may be proved of how smooth plans can be
   * @param nodes those used so far
   * @param stop gives a reason to end early, or null
   */
  static async open(
    time: Pick<StationTimes, "times" | "before">,
    starts: readonly Stations[],
    least: number | null,
    rules: PlanRules | null,
    nodes: number,
    stop: () => Promise<string | null>,
  ): Promise<SmoothSearch> {
    const measured: Measured[] = [];
    for (const start of starts) {
      const arrangement = new Arrangement(time.times, time.before, start, rules);
      for (const _ of swapsOf(arrangement)) if ((await stop()) !== null) break;
      measured.push(measure(arrangement));
    }
    const first = measured.reduce((one, two) => (isSmoother(two, one) ? two : one));
    return new SmoothSearch(time, least, rules, first, nodes);
  }

  /** The sum of squared gaps that no plan with such a longest station falls below; that station itself has no gap. */
  get bound(): bigint {
    const { stations, slowest, gaps } = this.best;
    if (this.allLookedAt) return gaps;
    const { times } = this.time;
    const work = times.reduce((sum, each) => sum + BigInt(each), 0n);
    const idle = BigInt(slowest) * BigInt(stations.length) - work;
    return evenestGaps(idle, Math.max(0, stations.length - 1), BigInt(commonDivisor(times)));
  }

  get isProved(): boolean {
    return this.best.slowest === this.least && this.best.gaps === this.bound;
  }

  /** No plan with such a longest station is smoother, or where that is not proved least, none with no shorter one. */
  private get isEvenest(): boolean {
    return this.isProved || (this.least === null && this.best.gaps === this.bound);
  }

  /** `stop` gives a reason to end early, or null. */
  async run(mostNodes: number, stop: () => Promise<string | null>): Promise<void> {
    const { times, before } = this.time;
    const order = orderOfWork(
      { times, before, limit: 1 },
      positionalWeights({ times, before, limit: 1 }),
      times.keys(),
    );
    const shaker = new PlanShaker(times, before, this.best.stations, order, this.rules);
    this.shake(shaker, Math.min(FIRST_PAIRS, mostNodes - this.nodes));
    this.lookAtAll(Math.min(MOST_NODES, mostNodes - this.nodes));
    const most = this.rules === null ? MOST_PAIRS : MOST_RULED_PAIRS;
    for (let left = most; left > 0 && this.nodes < mostNodes && !this.isEvenest; left -= STRETCH) {
      if ((await stop()) !== null) return;
      const { gaps } = this.best;
      this.shake(shaker, Math.min(STRETCH, mostNodes - this.nodes));
      // Where the rules are asked each time, a shake goes on only as long as it comes to something.
      if (this.rules !== null && this.best.gaps < gaps) left = most;
    }
  }

  private shake(shaker: PlanShaker, pairs: number): void {
    const nodes = shaker.nodes;
    shaker.run(pairs);
    this.nodes += shaker.nodes - nodes;
    this.keep(measure(new Arrangement(this.time.times, this.time.before, shaker.best)));
  }

  /** Small lines only, and only with a longest station that is proved: every plan then has such a one. */
  private lookAtAll(mostNodes: number): void {
    const { best, least } = this;
    const { times, before } = this.time;
    if (
      this.isProved ||
      least === null ||
      best.slowest > least ||
      times.length > MOST_TASKS ||
      mostNodes <= 0
    )
      return;
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
const MOST_RULED_PAIRS = 2_000;
const STRETCH = 500;
