import type { Instance } from "../search/instance.js";
import { BestFilling } from "./best-filling.js";
import { PackingProgramme } from "./packing-programme.js";
import type { Weighting } from "./weightings.js";

/**
 * Weightings from the prices of the packing programme of the tasks left after a partial plan: no other weights by task
 * time bound the stations better. The programme only proposes: its prices are rounded to whole numbers, and
 * the capacity is the weight of the heaviest set of tasks of the line that fits a station, so the weighting holds for
 * every partial plan of the line, whatever the rounding (Farley 1990).
 */
export class PackingPrices {
  /** Steps taken so far. */
  steps = 0;
  /** The distinct times above 0, longest first, and the place of each task's time among them; -1 for no time. */
  private readonly times: Float64Array;
  private readonly kinds: Int32Array;
  private readonly filling: BestFilling | null;
  private readonly weights: Float64Array;

  constructor({ times, limit, size }: Instance) {
    const distinct = [...new Set(times)].filter((time) => time > 0).sort((one, two) => two - one);
    this.times = Float64Array.from(distinct);
    const places = new Map(distinct.map((time, at) => [time, at]));
    this.kinds = Int32Array.from(times, (time) => places.get(time) ?? -1);
    this.weights = new Float64Array(distinct.length);
    const isSmall = distinct.length <= MOST_TIMES && size * limit <= MOST_STEPS_A_FILLING;
    this.filling = isSmall ? new BestFilling(this.times, this.count(times.keys()), limit) : null;
  }

  /** Whether the line is small enough for this. */
  get isUsable(): boolean {
    return this.filling !== null;
  }

  private count(tasks: Iterable<number>): Int32Array {
    const counts = new Int32Array(this.times.length);
    for (const task of tasks) if (this.kinds[task]! >= 0) counts[this.kinds[task]!]!++;
    return counts;
  }

  /** A weighting by which these tasks do not fit so many stations, or null where the programme finds none. */
  weightingAgainst(tasks: Iterable<number>, stations: number): Weighting | null {
    if (this.filling === null) return null;
    const demand = this.count(tasks);
    const programme = new PackingProgramme(demand);
    for (let pivots = 0; pivots < MOST_PIVOTS; pivots++) {
      this.steps += this.filling.steps + demand.length * demand.length;
      if (programme.relax()) continue;
      for (const [kind, price] of programme.prices.entries())
        this.weights[kind] = Math.max(0, Math.round(price * SCALE));
      const capacity = this.filling.find(this.weights);
      const total = this.weights.reduce((sum, weight, kind) => sum + weight * demand[kind]!, 0);
      if (total > stations * capacity) return this.weighting(capacity);
      if (programme.value <= stations || !programme.enter(this.filling.counts)) return null;
    }
    return null;
  }

  private weighting(capacity: number): Weighting {
    const weights = Float64Array.from(this.kinds, (kind) => (kind < 0 ? 0 : this.weights[kind]!));
    return { weights, capacity, total: weights.reduce((sum, each) => sum + each, 0) };
  }
}

/** Prices are whole multiples of 1 / SCALE; sums over a line stay far below 2^53. */
const SCALE = 1_000_000;
const MOST_TIMES = 120;
const MOST_STEPS_A_FILLING = 200_000;
const MOST_PIVOTS = 2000;
