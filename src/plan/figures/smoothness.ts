import { add, multiply, type Ratio, subtract, toNumber, ZERO } from "../../time/ratio.js";
import type { Post } from "../post.js";
import { cycleOfPost } from "./cycle.js";

/**
 * Smoothness = square root of the sum over stations of (cycle of the plan - cycle of the station)^2, in microseconds.
 *
 * @param cycle of the plan, over all its posts
 */
export function smoothness(stations: readonly Post[], cycle: Ratio): number {
  const squares = stations
    .map((post): Ratio => subtract(cycle, cycleOfPost(post)))
    .map((gap) => multiply(gap, gap))
    .reduce(add, ZERO);
  return Math.sqrt(toNumber(squares, 0));
}
