import type { Line } from "../../line/line.js";
import type { Pace } from "../../time/pace.js";
import { compare, divide, larger, multiply, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
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
  const alone = { id: "", tasks: [task], sides: null, places: 1, crew: 1 };
  return workingTime(postOf(line, pace, alone), pace.lineCycle);
}

/** Station limit = working time x plan-to, in microseconds: what may be loaded. */
export const stationLimit = (post: Post, lineCycle: Ratio): Ratio =>
  multiply(workingTime(post, lineCycle), post.planTo);

/** Station time for one unit of the line = busy time of the busiest person x share, in microseconds. */
export const stationTime = ({ busy, share }: Post): Ratio => multiply(busy, share);

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
