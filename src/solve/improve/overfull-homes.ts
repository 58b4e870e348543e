import { kindAt, type Today, type Work } from "../work.js";

/** A block at home, what it costs to move it and what it loads its station with. */
export interface Stay {
  readonly block: number;
  readonly cost: number;
  readonly load: number;
}

export class OverfullHomes {
  private readonly atHome: readonly (readonly Stay[])[];
  private readonly rooms: readonly number[];
  private readonly leastFrom: Float64Array;
  private readonly least: Float64Array;

  constructor(work: Work, today: Today) {
    const { labels, homes, labelAt } = today;
    const atHome: Stay[][] = Array.from({ length: labels }, () => []);
    for (const [block, own] of homes.entries())
      for (const { label, cost } of own) atHome[label]!.push({ block, cost, load: work.loads[block]! });
    for (const own of atHome) own.sort((one, two) => two.load - one.load);
    this.atHome = atHome;
    const sides = work.sides === null ? 1 : 2;
    this.rooms = atHome.map((_, label) => {
      const kinds = labelAt === null ? work.kinds : [work.kinds[kindAt(work, labelAt.indexOf(label))]!];
      return (
        sides * Math.max(...kinds.map(({ limits, alone }) => Math.max(limits.at(-1)!, 0 * alone.at(-1)!)))
      );
    });
    this.least = new Float64Array(labels);
    this.leastFrom = new Float64Array(labels + 1);
    for (let label = labels - 1; label >= 0; label--) {
      this.least[label] = this.leastOf(label, () => false);
      this.leastFrom[label] = this.leastFrom[label + 1]! + this.least[label]!;
    }
  }

  of(label: number): readonly Stay[] {
    return this.atHome[label]!;
  }

  aheadOf(next: number, isGone: (block: number) => boolean): number {
    let all = this.leastFrom[next]!;
    for (let label = next; label < Math.min(next + 8, this.atHome.length); label++)
      all += this.leastOf(label, isGone) - this.least[label]!;
    return all;
  }

  private leastOf(label: number, isGone: (block: number) => boolean): number {
    const own = this.atHome[label]!.filter(({ block }) => !isGone(block));
    let load = own.reduce((sum, each) => sum + each.load, 0);
    let cost = 0;
    for (const each of own) {
      if (load <= this.rooms[label]!) break;
      load -= each.load;
      cost += each.cost;
    }
    return cost;
  }
}
