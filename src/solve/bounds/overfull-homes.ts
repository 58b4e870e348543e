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
  /** By label what must leave at the least, and the same of all labels from there on, where every block is still at home. */
  private readonly leastAt: Float64Array;
  private readonly leastFrom: Float64Array;

  constructor(work: Work, today: Today) {
    const { labels, homes, labelAt } = today;
    const atHome: Stay[][] = Array.from({ length: labels }, () => []);
    for (const [block, own] of homes.entries())
      for (const { label, cost } of own) atHome[label]!.push({ block, cost, load: work.loads[block]! });
    this.atHome = atHome.map((own) => own.sort((one, two) => two.load - one.load));
    this.rooms = atHome.map((_, label) => roomOf(work, labelAt?.indexOf(label) ?? null));
    this.leastAt = Float64Array.from({ length: labels }, (_, label) => this.leastWithout(label, NOBODY));
    this.leastFrom = new Float64Array(labels + 1);
    for (let label = labels - 1; label >= 0; label--)
      this.leastFrom[label] = this.leastFrom[label + 1]! + this.leastAt[label]!;
  }

  roomAt(label: number): Room {
    return this.rooms[label]!;
  }

  /** Blocks that have the label as their home. */
  of(label: number): readonly Stay[] {
    return this.atHome[label]!;
  }

  /**
   * What must still leave the stations from a label on; of stations further than a few behind it, as if all their blocks were at home.
   *
   * @param isGone whether a block has been placed elsewhere already
   */
  aheadOf(next: number, isGone: (block: number) => boolean): number {
    let all = this.leastFrom[next]!;
    const end = Math.min(next + NEAR, this.atHome.length);
    for (let label = next; label < end; label++) {
      if (this.leastAt[label] === 0) continue;
      if (this.atHome[label]!.some(({ block }) => isGone(block)))
        all += this.leastWithout(label, isGone) - this.leastAt[label]!;
    }
    return all;
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

const NOBODY = () => false;
/** Labels ahead whose blocks may have been placed already, as far as anybody looks. */
const NEAR = 8;
/** Dear and cheap blocks are told apart where a station has no more than so many. */
const MOST_IN_SETS = 14;
