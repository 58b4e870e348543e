import { ceilingDivision } from "./whole-numbers.js";

/** The best bin-packing bound over all thresholds, and the threshold that gives it. */
export interface ThresholdBound {
  readonly stations: number;
  readonly threshold: number;
}

/**
 * Bound L2 of Martello & Toth (Knapsack Problems, 1990, chapter 8). For a threshold K up to half the limit: every task
 * over half the limit needs a station of its own; one longer than limit - K leaves no room for a task of K or more;
 * what the tasks from K to half the limit need beyond the room beside the others takes further stations.
 *
 * `longestFirst` holds the first `count` task times in descending order, in the whole units of `limit`.
 */
export function thresholdBound(
  longestFirst: ArrayLike<number>,
  count: number,
  limit: number,
): ThresholdBound {
  let overHalf = 0;
  while (overHalf < count && longestFirst[overHalf]! > limit - longestFirst[overHalf]!) overHalf++;

  let best: ThresholdBound = { stations: overHalf, threshold: 0 };
  let alone = overHalf;
  let room = 0;
  let filling = 0;
  for (let at = overHalf; at < count; at++) {
    const threshold = longestFirst[at]!;
    filling += threshold;
    // A smaller threshold lets the room beside more of the long tasks count.
    while (alone > 0 && longestFirst[alone - 1]! <= limit - threshold) room += limit - longestFirst[--alone]!;
    const more = filling > room ? ceilingDivision(filling - room, limit) : 0;
    if (overHalf + more > best.stations) best = { stations: overHalf + more, threshold };
  }
  return best;
}
