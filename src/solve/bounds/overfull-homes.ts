import { kindAt, type Today, type Work } from "../work.js";

/** A block at home, what it costs to move it and what it loads its station with. */
interface Stay {
  readonly block: number;
  readonly cost: number;
  readonly load: number;
}

/** The most that a station may hold, and the most of a block that stands there alone. */
interface Room {
  readonly shared: number;
  readonly alone: number;
}

/**
 * What blocks must leave the stations of today at the least so that the others fit: for each station by itself the set that costs
 * least, which is a knapsack of those that stay. Supports every work: no station holds more than its time, and of that alone is spoken.
 */
export class OverfullHomes {
  /** By label the blocks that have it as their home, the longest first. */
  private readonly atHome: readonly (readonly Stay[])[];
  private readonly rooms: readonly Room[];
  /** By label what must leave at the least when some of its blocks are gone already, by their set. */
  private readonly known: readonly Map<number, number>[];

  constructor(work: Work, today: Today) {
    const { labels, homes, labelAt } = today;
    const atHome: Stay[][] = Array.from({ length: labels }, () => []);
    for (const [block, own] of homes.entries())
      for (const { label, cost } of own) atHome[label]!.push({ block, cost, load: work.loads[block]! });
    this.atHome = atHome.map((own) => own.sort((one, two) => two.load - one.load));
    this.rooms = atHome.map((_, label) => roomOf(work, labelAt?.indexOf(label) ?? null));
    this.known = atHome.map(() => new Map());
  }

  roomAt(label: number): Room {
    return this.rooms[label]!;
  }

  /** Blocks that have the label as their home. */
  of(label: number): readonly Stay[] {
    return this.atHome[label]!;
  }

  /**
   * What must still leave one station when some of its blocks are gone: by their places in `of`, as a sum of powers of 2. Looked up, so that
   * it may be asked often; 0 for a station with more blocks than such a sum can hold.
   */
  leastWithoutSet(label: number, gone: number): number {
    const own = this.atHome[label]!;
    if (own.length > MOST_IN_A_SUM) return 0;
    const known = this.known[label]!.get(gone);
    if (known !== undefined) return known;
    const isGone = (block: number) => {
      const at = own.findIndex((each) => each.block === block);
      return Math.floor(gone / 2 ** at) % 2 === 1;
    };
    const least = this.leastWithout(label, isGone);
    this.known[label]!.set(gone, least);
    return least;
  }

  /** What must leave one station at the least when some blocks are gone already. */
  leastWithout(label: number, isGone: (block: number) => boolean): number {
    const own = this.atHome[label]!.filter(({ block, load }) => load > 0 && !isGone(block));
    const { shared, alone } = this.rooms[label]!;
    const load = own.reduce((sum, each) => sum + each.load, 0);
    if (load <= shared || (own.length === 1 && load <= alone)) return 0;
    const all = own.reduce((sum, each) => sum + each.cost, 0);
    const byOneAlone = all - Math.max(0, ...own.filter((each) => each.load <= alone).map(({ cost }) => cost));
    return Math.min(byOneAlone, leastToFree(own, load - shared));
  }
}

/** The cheapest blocks that take so much away together: no fewer than the longest do it, each at least as dear as the cheapest. */
function leastToFree(own: readonly Stay[], excess: number): number {
  let count = 0;
  for (let freed = 0; freed < excess && count < own.length; ) freed += own[count++]!.load;
  const cheapest = own.map(({ cost }) => cost).sort((one, two) => one - two);
  const least = cheapest.slice(0, count).reduce((sum, each) => sum + each, 0);
  if (cheapest[0] === cheapest.at(-1) || own.length > MOST_IN_SETS) return least;
  const loadFrom = new Float64Array(own.length + 1);
  for (let at = own.length - 1; at >= 0; at--) loadFrom[at] = loadFrom[at + 1]! + own[at]!.load;
  let best = Number.POSITIVE_INFINITY;
  const choose = (at: number, missing: number, cost: number) => {
    if (cost >= best) return;
    if (missing <= 0) best = cost;
    else if (missing <= loadFrom[at]!) {
      choose(at + 1, missing - own[at]!.load, cost + own[at]!.cost);
      choose(at + 1, missing, cost);
    }
  };
  choose(0, excess, 0);
  return best;
}

/** Of any station where the position is not known. */
function roomOf(work: Work, position: number | null): Room {
  const kinds = position === null ? work.kinds : [work.kinds[kindAt(work, position)]!];
  return {
    shared: Math.max(...kinds.map(({ limits, atOnce }) => atOnce * limits.at(-1)!)),
    alone: Math.max(
      ...kinds.map(({ limits, alone, atOnce }) => atOnce * Math.max(limits.at(-1)!, alone.at(-1)!)),
    ),
  };
}

/** Sums of so many powers of 2 are exact. */
const MOST_IN_A_SUM = 52;
/** Dear and cheap blocks are told apart where a station has no more than so many. */
const MOST_IN_SETS = 14;
