import type { Instance } from "../search/instance.js";
import { BestFilling } from "./best-filling.js";
import { KnownFillings } from "./known-fillings.js";
import { PackingProgramme } from "./packing-programme.js";
import type { Weighting } from "./weightings.js";

/**
 * Weightings from the prices of the packing programme of the tasks left after a partial plan: no other weights by task
 * time bound the stations better. The programme only proposes: its prices are rounded to whole numbers, and
 * the capacity is the weight of the heaviest set of tasks of the line that fits a station, so the weighting holds for
 * every partial plan of the line, whatever the rounding (Farley 1990). Times that none of the tasks left has weigh as much as that
 * capacity allows. Fillings found once are offered to every later programme.
 */
export class PackingPrices {
  /** Steps taken so far. */
  steps = 0;
  /** The distinct times above 0, longest first, and the place of each task's time among them; -1 for no time. */
  private readonly times: Float64Array;
  private readonly kinds: Int32Array;
  private readonly filling: BestFilling | null;
  private readonly known = new KnownFillings();
  /** By kind, as prices and rounded. */
  private readonly prices: Float64Array;
  private readonly weights: Float64Array;

  constructor({ times, limit, size }: Instance) {
    const distinct = [...new Set(times)].filter((time) => time > 0).sort((one, two) => two - one);
    this.times = Float64Array.from(distinct);
    const places = new Map(distinct.map((time, at) => [time, at]));
    this.kinds = Int32Array.from(times, (time) => places.get(time) ?? -1);
    this.prices = new Float64Array(distinct.length);
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
    const { filling, known, prices, weights } = this;
    if (filling === null) return null;
    const counts = this.count(tasks);
    const present = Int32Array.from(counts.keys()).filter((kind) => counts[kind]! > 0);
    const programme = new PackingProgramme(present.map((kind) => counts[kind]!));
    for (let pivots = 0; pivots < MOST_PIVOTS && programme.value > stations; pivots++) {
      this.steps += present.length ** 2;
      if (programme.relax()) continue;
      prices.fill(0);
      for (let at = 0; at < present.length; at++) prices[present[at]!] = programme.prices[at]!;
      this.steps += known.size;
      const best = known.best(prices);
      if (best !== null && programme.enter(present.map((kind) => best[kind]!))) continue;
      for (let kind = 0; kind < prices.length; kind++)
        weights[kind] = Math.max(0, Math.round(prices[kind]! * SCALE));
      this.steps += filling.steps;
      const capacity = filling.find(weights);
      const total = weights.reduce((sum, weight, kind) => sum + weight * counts[kind]!, 0);
      if (total > stations * capacity) {
        filling.lift(weights, capacity);
        return this.weighting(capacity);
      }
      if (!programme.enter(present.map((kind) => filling.counts[kind]!))) return null;
      known.add(filling.counts);
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
