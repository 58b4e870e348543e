import type { Instance } from "../search/instance.js";
import { wholeDivision } from "./whole-numbers.js";

/**
 * Weights in place of task times, such that tasks which fit a station together never weigh more than `capacity`.
 * Every weighting therefore bounds the stations as the work content does: total weight / capacity, rounded up. The
 * weights come from dual feasible functions (Johnson 1973; Fekete & Schepers 2001), whole numbers throughout.
 */
export interface Weighting {
  readonly weights: Float64Array;
  readonly capacity: number;
  readonly total: number;
}

/** The work content first, then every function of the families below that treats some task differently. */
export function allWeightings(instance: Instance): Weighting[] {
  const { limit, times } = instance;
  const weigh = (capacity: number, weight: (time: number) => number): Weighting => {
    const weights = times.map(weight);
    return { weights, capacity, total: weights.reduce((sum, each) => sum + each, 0) };
  };
  const weightings = [weigh(limit, (time) => time)];
  for (const threshold of smallTimes(instance)) {
    weightings.push(weigh(limit, (time) => thresholdWeight(time, threshold, limit)));
    const most = wholeDivision(limit, threshold);
    weightings.push(weigh(2 * most, (time) => countingWeight(time, threshold, limit)));
  }
  for (let parts = 2; parts <= MOST_PARTS; parts++) {
    if (instance.workContent * parts > Number.MAX_SAFE_INTEGER) break;
    weightings.push(weigh(limit * (parts - 1), (time) => roundedWeight(time, parts, limit)));
  }
  return weightings;
}

/**
 * The work content and the weightings that leave the least of `target` stations unused, without those that weigh every
 * task no more than a tighter one does.
 */
export function tightestWeightings(weightings: readonly Weighting[], target: number): Weighting[] {
  const unused = ({ capacity, total }: Weighting) => target - total / capacity;
  const [workContent, ...others] = weightings;
  const chosen = [workContent!];
  for (const each of others.sort((one, two) => unused(one) - unused(two))) {
    if (!chosen.some((tighter) => outweighs(tighter, each))) chosen.push(each);
    if (chosen.length === MOST_WEIGHTINGS) break;
  }
  return chosen;
}

function outweighs(heavy: Weighting, light: Weighting): boolean {
  return heavy.weights.every(
    (weight, task) => weight / heavy.capacity >= light.weights[task]! / light.capacity,
  );
}

/** More cut little and cost time at every partial plan. */
const MOST_WEIGHTINGS = 10;
const MOST_PARTS = 16;

/** Distinct task times above 0 and up to half the limit: where the families change. */
function smallTimes({ times, limit }: Instance): number[] {
  return [...new Set(times)].filter((time) => time > 0 && time <= limit - time).sort((one, two) => one - two);
}

/** Martello & Toth's L2: a task leaving less than the threshold takes all, one below the threshold nothing. */
function thresholdWeight(time: number, threshold: number, limit: number): number {
  if (time > limit - threshold) return limit;
  return time < threshold ? 0 : time;
}

/** Carlier, Clautiaux & Moukrim (2007): how many pieces of `size` fit beside a task, counted twice. */
function countingWeight(time: number, size: number, limit: number): number {
  if (time === limit - time) return wholeDivision(limit, size);
  if (time < limit - time) return 2 * wholeDivision(time, size);
  return 2 * (wholeDivision(limit, size) - wholeDivision(limit - time, size));
}

/** Fekete & Schepers (2001): the time in parts of the limit, rounded down unless it is a whole number of parts. */
function roundedWeight(time: number, parts: number, limit: number): number {
  const scaled = time * parts;
  return scaled % limit === 0 ? time * (parts - 1) : wholeDivision(scaled, limit) * limit;
}
