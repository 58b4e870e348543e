/** Sets of tasks that fit a station, by number of tasks of each time: the latest of those that a packing programme asked for. */
export class KnownFillings {
  private readonly all: Int32Array[] = [];
  /** The times that each filling has tasks of. */
  private readonly kinds: Int32Array[] = [];
  private oldest = 0;

  get size(): number {
    return this.all.length;
  }

  add(counts: Int32Array): void {
    const kinds = Int32Array.from(counts.keys()).filter((kind) => counts[kind]! > 0);
    const at = this.all.length < MOST ? this.all.length : this.oldest++ % MOST;
    this.all[at] = counts.slice();
    this.kinds[at] = kinds;
  }

  /** The filling that is worth most at such prices by time, of equals the first; null where none is worth more than 1. */
  best(prices: Float64Array): Int32Array | null {
    let most = LEAST_WORTH;
    let best = null;
    for (let at = 0; at < this.all.length; at++) {
      const counts = this.all[at]!;
      let worth = 0;
      for (const kind of this.kinds[at]!) worth += prices[kind]! * counts[kind]!;
      if (worth <= most) continue;
      most = worth;
      best = counts;
    }
    return best;
  }
}

const MOST = 1000;
/** Somewhat above 1, so that rounding takes no filling for one that gains. */
const LEAST_WORTH = 1 + 1e-7;
