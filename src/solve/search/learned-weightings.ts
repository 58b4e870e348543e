import { PackingPrices } from "../bounds/packing-prices.js";
import type { Weighting } from "../bounds/weightings.js";
import type { Instance } from "./instance.js";
import type { Remainder } from "./remainder.js";

/**
 * Weightings found on the way: where a partial plan passes all bounds, the prices of the packing programme of its tasks
 * left may rule it out, and the same prices then rule out others and cut their loads. A search pays for the programme
 * by its own steps, and rarely where it fails.
 */
export class LearnedWeightings {
  private list: Weighting[] = [];
  /** How many of the list are not learned. */
  private given = 0;
  private readonly prices: PackingPrices;
  /** Steps that the programme may take. */
  private allowed = 0;
  /** Partial plans to let pass before the next try, and after the next failure. */
  private pause = 0;
  private nextPause = 1;
  private oldest = 0;

  constructor(instance: Instance) {
    this.prices = new PackingPrices(instance);
  }

  /** The list with these weightings first; what is learned later is put into it. */
  startFrom(given: readonly Weighting[]): readonly Weighting[] {
    this.list = [...given, ...this.list.slice(this.given)];
    this.given = given.length;
    return this.list;
  }

  /** The search has taken so many steps more. */
  allow(steps: number): void {
    this.allowed += steps * STEPS_A_STEP;
  }

  /** Whether a new weighting shows that the tasks left need more than so many stations. */
  ruleOut({ left, tasksLeft }: Remainder, stations: number): boolean {
    if (!this.prices.isUsable || this.prices.steps >= this.allowed || this.pause-- > 0) return false;
    const found = this.prices.weightingAgainst(left.subarray(0, tasksLeft), stations);
    if (found !== null) this.keep(found);
    this.nextPause = found === null ? Math.min(2 * this.nextPause, LONGEST_PAUSE) : 1;
    this.pause = this.nextPause;
    return found !== null;
  }

  private keep(weighting: Weighting): void {
    if (this.list.length - this.given < MOST_LEARNED) {
      this.list.push(weighting);
      return;
    }
    this.list[this.given + this.oldest] = weighting;
    this.oldest = (this.oldest + 1) % MOST_LEARNED;
  }
}

/** A step of the programme takes much less time than a step of the walk through loads. */
const STEPS_A_STEP = 32;
const MOST_LEARNED = 16;
const LONGEST_PAUSE = 256;
