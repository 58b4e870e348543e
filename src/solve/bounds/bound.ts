import type { StationProblem } from "../problem.js";
import { binPackingBound } from "./bin-packing.js";
import type { Bound, LargeTasksBound, ThirdsBound, WorkContentBound } from "./certificate.js";
import { chainBound, layOutEnds } from "./chain.js";
import { ceilingDivision } from "./whole-numbers.js";

export type * from "./certificate.js";

/** Simplest to explain first. */
const BOUNDS: readonly ((problem: StationProblem) => Bound)[] = [
  workContentBound,
  largeTasksBound,
  thirdsBound,
  binPackingBound,
];

/**
 * Every bound that holds before any search; the best first, of equals the simplest to explain. A chain only where it says more than all
 * others, as its steps are the longest to count.
 *
 * @param ends of the same tasks at any limit
 */
export function staticBounds(problem: StationProblem, ends = layOutEnds(problem)): readonly Bound[] {
  const bounds = BOUNDS.map((bound) => bound(problem)).sort((one, two) => two.stations - one.stations);
  const chain = chainBound(problem, ends, bounds[0]!.stations);
  return chain === null ? bounds : [chain, ...bounds];
}

/** Tasks over half the limit, plus half of those that take exactly half, rounded up (Johnson 1988). */
function largeTasksBound(problem: StationProblem): LargeTasksBound {
  const { times, limit } = problem;
  const select = (fits: (time: number) => boolean) => [...times.keys()].filter((task) => fits(times[task]!));
  const overHalf = select((time) => time > limit - time);
  const exactlyHalf = select((time) => time === limit - time);
  return {
    kind: "large-tasks",
    stations: overHalf.length + Math.ceil(exactlyHalf.length / 2),
    tasks: select((time) => time >= limit - time),
    overHalf,
    exactlyHalf,
  };
}

/**
 * Shares of a station by thirds of the limit (Johnson 1988; Scholl & Klein 1997): two tasks over a third fill a
 * station, three of exactly a third, one over two thirds, one of exactly two thirds with one of exactly a third.
 */
function thirdsBound(problem: StationProblem): ThirdsBound {
  const { times, limit } = problem;
  const select = (fits: (time: number) => boolean) => [...times.keys()].filter((task) => fits(times[task]!));
  // Comparisons with limit / 3 and 2 limit / 3, written so that every difference stays exact.
  const overTwoThirds = select((time) => time - (limit - time) > limit - time);
  const exactlyTwoThirds = select((time) => time - (limit - time) === limit - time);
  const exactlyOneThird = select((time) => time === limit - time - time);
  const betweenThirds = select((time) => time > limit - time - time && time - (limit - time) < limit - time);
  const sixths =
    6 * overTwoThirds.length +
    4 * exactlyTwoThirds.length +
    3 * betweenThirds.length +
    2 * exactlyOneThird.length;
  return {
    kind: "thirds",
    stations: Math.ceil(sixths / 6),
    tasks: select((time) => time >= limit - time - time),
    overTwoThirds,
    exactlyTwoThirds,
    betweenThirds,
    exactlyOneThird,
    sixths,
  };
}

/** Work content divided by the limit, rounded up; at least one station when there is any task (Jackson 1956). */
function workContentBound(problem: StationProblem): WorkContentBound {
  const { times, limit } = problem;
  const workContent = times.reduce((sum, each) => sum + each, 0);
  return {
    kind: "work-content",
    stations: Math.max(ceilingDivision(workContent, limit), Math.min(1, times.length)),
    tasks: [...times.keys()].filter((task) => times[task]! > 0),
    workContent,
    limit,
  };
}
