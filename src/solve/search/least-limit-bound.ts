import { type Bound, staticBounds } from "../bounds/bound.js";
import { ceilingDivision } from "../bounds/whole-numbers.js";
import type { StationSums } from "./least-limit-sums.js";

/** What every bound says: with `count` stations at most, no plan has a shorter longest station than `limit`. */
interface Certificate<Kind extends string> {
  readonly kind: Kind;
  readonly limit: number;
  readonly count: number;
}

/** No station is shorter than the longest task at it. */
export interface LongestTaskBound extends Certificate<"longest-task"> {
  readonly task: number;
}

/** The work content over `count` stations; `limit` is the shortest sum of task times from that share on. */
export interface WorkShareBound extends Certificate<"work-content"> {
  readonly workContent: number;
}

/** At the limit `shorter` a bound asks for more than `count` stations; no sum of task times lies between it and `limit`. */
export interface StationsBound extends Certificate<"stations"> {
  readonly shorter: number;
  readonly bound: Bound;
}

/** At the limit `shorter` every plan with `count` stations was ruled out; no sum of task times lies between it and `limit`. */
export interface ProbeBound extends Certificate<"search"> {
  readonly shorter: number;
  readonly nodes: number;
}

/** A proved lower bound on the longest station, with the facts an engineer needs to check it. */
export type LeastLimitBound = LongestTaskBound | WorkShareBound | StationsBound | ProbeBound;

/**
 * The best bound that holds before any search, or the simple one where none is better. Looks for the largest limit at which
 * some bound asks for too many stations: in growing strides up from the simple bound, then by halving the last stride. `most`
 * is a limit that is known to be enough.
 */
export function staticLimitBound(
  times: readonly number[],
  before: readonly (readonly number[])[],
  count: number,
  simple: LeastLimitBound,
  most: number,
  sums: StationSums,
): LeastLimitBound {
  let best = simple;
  let high = most;
  const reach = (shorter: number) => {
    const bound = staticBounds({ times, limit: shorter, before })[0]!;
    if (bound.stations <= count) high = shorter;
    else best = { kind: "stations", limit: sums.atLeast(shorter + 1), count, shorter, bound };
  };
  for (let stride = 0; best.limit + stride < high; stride = 2 * stride + 1)
    reach(sums.atMost(best.limit + stride));
  while (best.limit < high) reach(sums.atMost(between(best.limit, high - 1)));
  return best;
}

/** The whole number in the middle, the lower of two. */
export function between(low: number, high: number): number {
  return low + Math.floor((high - low) / 2);
}

/** The longest task or the share of the work content, the longer of them. */
export function simpleLimitBound(
  times: readonly number[],
  count: number,
  sums: StationSums,
): LeastLimitBound {
  const longest = times.reduce((most, each) => Math.max(most, each), 0);
  const workContent = times.reduce((sum, each) => sum + each, 0);
  const share = sums.atLeast(ceilingDivision(workContent, count));
  if (share > longest || times.length === 0)
    return { kind: "work-content", limit: share, count, workContent };
  return { kind: "longest-task", limit: longest, count, task: times.indexOf(longest) };
}
