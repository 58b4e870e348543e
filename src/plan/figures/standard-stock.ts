import type { Line } from "../../line/line.js";
import { ceiling, compare, divide, type Ratio, ZERO } from "../../time/ratio.js";
import type { Station } from "../plan.js";
import type { Post } from "../post.js";
import { unitsAtPlace } from "../units-at-place.js";
import { standingTime, workingTime } from "./working-time.js";

/**
 * Standard work-in-process of a post = workplaces x units that stand at each, which are standing time / working time rounded up, from 1 to
 * as many as there is room for: the fewest units there with which the work goes on in its order and nobody waits for one (common practice).
 * Units between posts are none of it.
 */
export function standardStock(post: Post, lineCycle: Ratio): number {
  const working = workingTime(post, lineCycle);
  if (compare(working, ZERO) <= 0) return post.places * post.holds;
  const standing = Number(ceiling(divide(standingTime(post), working)));
  return post.places * Math.min(post.holds, Math.max(1, standing));
}

/** The same of a station where all units move together: one at each place where a unit stands, for as long as the line does not move on. */
export const standardStockInLine = (line: Line, station: Station): number =>
  station.places * unitsAtPlace(line, station);
