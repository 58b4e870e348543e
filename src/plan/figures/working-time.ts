import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import { ONE_PERSON } from "../plan.js";
import { type Post, postOf } from "../post.js";
import { cycleOfPost } from "./cycle.js";

/**
 * Working time for one unit of the line = places x line cycle x hours - handling of all its passes x share, in microseconds: what one
 * person of each place can work.
 */
export function workingTime({ places, hours, handling, share }: Post, lineCycle: Ratio): Ratio {
  return subtract(multiply(multiply(ratio(places), hours), lineCycle), multiply(handling, share));
}

/** The same at a station of one place where a task stands alone. */
export function workingTimeAlone(line: Line, pace: Pace, task: number): Ratio {
  return workingTime(postOf(line, pace, { ...ONE_PERSON, id: "", tasks: [task] }), pace.lineCycle);
}

/** Station limit = working time x plan-to, in microseconds: what may be loaded. */
export const stationLimit = (post: Post, lineCycle: Ratio): Ratio =>
  multiply(workingTime(post, lineCycle), post.planTo);

/** Station time for one unit of the line = busy time of the busiest person x share, in microseconds. */
export const stationTime = ({ busy, share }: Post): Ratio => multiply(busy, share);

/** How long a unit of the line stands at a place on average = dwell x share, in microseconds. */
export const standingTime = ({ dwell, share }: Post): Ratio => multiply(dwell, share);

/** How long a unit stands without the busiest person of the place working on it = dwell - busy time, in microseconds; never below 0. */
export const waitingTime = ({ dwell, busy }: Post): Ratio => larger(ZERO, subtract(dwell, busy));

/** How long it may stand there = units that may stand at a place x working time, in microseconds; no reserve is kept of it. */
export const standingLimit = (post: Post, lineCycle: Ratio): Ratio =>
  multiply(ratio(post.holds), workingTime(post, lineCycle));

/**
 * Load = station time / station limit; above 1 only where a task longer than the limit stands alone. 0 where line cycle and handling
 * leave nothing to load.
 */
export function load(post: Post, lineCycle: Ratio): Ratio {
  const limit = stationLimit(post, lineCycle);
  return compare(limit, ZERO) <= 0 ? ZERO : divide(stationTime(post), limit);
}

/**
 * What exceeds the working time = places x hours x (cycle of the post - line cycle), for one unit of the line in microseconds; never
 * below 0 and never set off against idle.
 */
export function overload(post: Post, lineCycle: Ratio): Ratio {
  const places = multiply(ratio(post.places), post.hours);
  return larger(ZERO, multiply(places, subtract(cycleOfPost(post), lineCycle)));
}

/** Whether some post cannot keep the line cycle. */
export const isOverloaded = (posts: readonly Post[], lineCycle: Ratio): boolean =>
  posts.some((post) => compare(overload(post, lineCycle), ZERO) > 0);
