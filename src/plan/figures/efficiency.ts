import { add, compare, divide, multiply, ONE, type Ratio, ratio, subtract, ZERO } from "../../time/ratio.js";
import type { Post } from "../post.js";
import { cycleOfPlan } from "./cycle.js";
import { workContent } from "./work-content.js";
import { isOverloaded, workingTime } from "./working-time.js";

/** Person-time paid at a post for one unit of the line = crew x working time, in microseconds. */
export const paidAt = (post: Post, lineCycle: Ratio): Ratio =>
  multiply(ratio(post.crew), workingTime(post, lineCycle));

/** Work content / sum over posts of crew x working time; null where nothing is paid. */
function efficiencyAt(posts: readonly Post[], lineCycle: Ratio): Ratio | null {
  const paid = posts.map((post) => paidAt(post, lineCycle)).reduce(add, ZERO);
  return compare(paid, ZERO) > 0 ? divide(workContent(posts), paid) : null;
}

/** Efficiency at the pace, over all people, 0 to 1; null when a post is overloaded. */
export const efficiencyAtPace = (posts: readonly Post[], lineCycle: Ratio): Ratio | null =>
  isOverloaded(posts, lineCycle) ? null : efficiencyAt(posts, lineCycle);

/**
 * Efficiency at the slowest post, 0 to 1: the same with the cycle of the plan in place of the line cycle; null for a plan without
 * work.
 *
 * @param cycle a longer one where models or machines slow the whole plan
 */
export const efficiencyAtSlowest = (
  posts: readonly Post[],
  cycle: Ratio = cycleOfPlan(posts),
): Ratio | null => efficiencyAt(posts, cycle);

/** Balance delay = 1 - efficiency; not known where the efficiency is not. */
export const balanceDelay = (efficiency: Ratio | null): Ratio | null =>
  efficiency === null ? null : subtract(ONE, efficiency);
