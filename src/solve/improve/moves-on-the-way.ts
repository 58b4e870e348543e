import type { OverfullHomes } from "../bounds/overfull-homes.js";
import type { Today } from "../work.js";

/** What a partial plan says of moves; by label in order of flow. */
export interface WayBehind {
  /** The first label that is still ahead. */
  readonly next: number;
  /** What is certain: blocks placed away from home, and blocks left over whose home is passed. */
  readonly moves: number;
  /** What it would cost to move all blocks of that home that are not placed. */
  readonly left: Float64Array;
  /** Which of its blocks are placed, as a sum of powers of 2. */
  readonly gone: Float64Array;
  /** What must leave the stations ahead at the least. */
  readonly ahead: number;
}

/**
 * Tells what moves a further station of a partial plan makes certain, and what is still ahead at the least, for each label that the
 * station may keep: blocks must leave stations that hold too much, and stations for which there are no people lose all of theirs.
 */
export class MovesOnTheWay {
  readonly first: WayBehind;
  private readonly bits: readonly (readonly number[])[];
  // Of the partial plan that is gone on from.
  private behind: WayBehind;
  private spared: { readonly label: number; readonly more: number }[] | null = null;
  // Of the blocks of its next station: their homes ahead.
  private readonly touched: number[] = [];
  private readonly cost: Float64Array;
  private readonly added: Float64Array;

  constructor(
    private readonly today: Today,
    private readonly homes: OverfullHomes,
  ) {
    const { labels } = today;
    const left = new Float64Array(labels);
    for (const { label, cost } of today.homes.flat()) left[label]! += cost;
    const gone = new Float64Array(labels);
    let ahead = 0;
    for (let label = 0; label < labels; label++) ahead += homes.leastWithoutSet(label, 0);
    this.first = { next: 0, moves: 0, left, gone, ahead };
    this.behind = this.first;
    this.bits = today.homes.map((own, block) =>
      own.map(({ label }) => 2 ** homes.of(label).findIndex((each) => each.block === block)),
    );
    this.cost = new Float64Array(labels);
    this.added = new Float64Array(labels);
  }

  goOnFrom(behind: WayBehind): void {
    this.behind = behind;
    this.spared = null;
  }

  /** What it costs to leave the block for a later station, of the station that keeps this label. */
  costToSkip(block: number, label: number): number {
    for (const home of this.today.homes[block]!) if (home.label === label) return home.cost;
    return 0;
  }

  /** What the block costs at the station that keeps the label, beyond what is certain, when labels from `next` on are ahead. */
  costToTake(block: number, label: number, next: number): number {
    let cost = 0;
    for (const home of this.today.homes[block]!)
      if (home.label !== label && home.label >= next) cost += home.cost;
    return cost;
  }

  /** The blocks of the next station. */
  look(blocks: readonly number[]): void {
    const { touched, cost, added } = this;
    for (const label of touched) {
      cost[label] = 0;
      added[label] = 0;
    }
    touched.length = 0;
    for (const block of blocks) {
      const homes = this.today.homes[block]!;
      for (let at = 0; at < homes.length; at++) {
        const home = homes[at]!;
        if (cost[home.label] === 0) touched.push(home.label);
        cost[home.label]! += home.cost;
        added[home.label]! += this.bits[block]![at]!;
      }
    }
  }

  /** What is certain once the station keeps the label, and labels from `next` on are ahead. */
  movesWith(label: number, next: number): number {
    const { behind, touched, cost } = this;
    let { moves } = behind;
    for (let each = behind.next; each < next; each++) moves += behind.left[each]!;
    for (const each of touched) if (each >= next) moves += cost[each]!;
    return label >= behind.next ? moves - cost[label]! : moves;
  }

  /** What else moves at the least when so many stations may follow. */
  aheadWith(next: number, stationsLeft: number): number {
    const { behind, homes, touched, added } = this;
    let { ahead } = behind;
    for (let label = behind.next; label < next; label++) ahead -= this.leastBefore(label);
    for (const label of touched)
      if (label >= next)
        ahead += homes.leastWithoutSet(label, behind.gone[label]! + added[label]!) - this.leastBefore(label);
    const givenUp = this.today.labels - next - stationsLeft;
    return givenUp > 0 ? ahead + this.leastToGiveUp(givenUp, next) : ahead;
  }

  /** What a plan adds that goes on with labels from a later one on. */
  costToPass(from: number, to: number): number {
    let cost = 0;
    for (let label = from; label < to; label++) cost += this.behind.left[label]! - this.cost[label]!;
    return cost;
  }

  /** The partial plan with the station. */
  after(next: number, moves: number): WayBehind {
    const { behind, touched, cost, added } = this;
    const left = behind.left.slice();
    const gone = behind.gone.slice();
    for (const label of touched) {
      left[label]! -= cost[label]!;
      gone[label]! += added[label]!;
    }
    return { next, moves, left, gone, ahead: this.aheadWith(next, Number.POSITIVE_INFINITY) };
  }

  private leastBefore(label: number): number {
    return this.homes.leastWithoutSet(label, this.behind.gone[label]!);
  }

  /** The sum of so many of the least of what a station costs more when it is given up. */
  private leastToGiveUp(count: number, next: number): number {
    const { behind, homes, touched, cost, added } = this;
    if (this.spared === null) {
      this.spared = [];
      for (let label = behind.next; label < behind.left.length; label++)
        this.spared.push({ label, more: behind.left[label]! - this.leastBefore(label) });
      this.spared.sort((one, two) => one.more - two.more);
    }
    const changed: number[] = [];
    for (const label of touched)
      if (label >= next) {
        const least = homes.leastWithoutSet(label, behind.gone[label]! + added[label]!);
        changed.push(behind.left[label]! - cost[label]! - least);
      }
    changed.sort((one, two) => one - two);
    let sum = 0;
    let at = 0;
    for (const { label, more } of this.spared) {
      if (label < next || cost[label]! > 0) continue;
      for (; at < changed.length && changed[at]! <= more && count > 0; count--) sum += changed[at++]!;
      if (count-- <= 0) return sum;
      sum += more;
    }
    for (; at < changed.length && count > 0; count--) sum += changed[at++]!;
    return sum;
  }
}
