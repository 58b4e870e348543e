import { add, compare, divide, larger, multiply, type Ratio, ratio, ZERO } from "../../time/ratio.js";
import type { Post } from "../post.js";

/**
 * How often a post can send on a unit of the line = (busy time of its busiest person + handling) x share / (places x hours), or
 * where that is longer the same of a machine over how many of it there are, in microseconds: the line cycle that it can just keep.
 * Nobody loses time to handling while a machine runs.
 */
export function cycleOfPost(post: Post): Ratio {
  const machines = post.machines.map(({ busy, units }) => perUnitOfLine({ ...post, places: units }, busy));
  return machines.reduce(larger, cycleOfPeople(post));
}

/** The same of its people alone: what they could keep if no machine held them up. */
export const cycleOfPeople = (post: Post): Ratio => perUnitOfLine(post, add(post.busy, post.handling));

/** The same with the reserve kept = (busy time / plan-to + handling) x share / (places x hours): the line cycle that loads it to its limit. */
export const cycleWithReserve = (post: Post): Ratio =>
  perUnitOfLine(post, add(divide(post.busy, post.planTo), post.handling));

/** Cycle of the plan = the largest over all posts, in microseconds; 0 without posts. */
export const cycleOfPlan = (posts: readonly Post[]): Ratio => posts.map(cycleOfPost).reduce(larger, ZERO);

/** The first post whose cycle is the cycle of the plan. Throws a RangeError for a plan without posts. */
export function slowestPost(posts: readonly Post[]): Post {
  const slowest = cycleOfPlan(posts);
  const found = posts.find((post) => compare(cycleOfPost(post), slowest) === 0);
  if (found === undefined) throw new RangeError("a plan without posts has no slowest one");
  return found;
}

function perUnitOfLine({ share, places, hours }: Post, ofUnit: Ratio): Ratio {
  return divide(multiply(ofUnit, share), multiply(ratio(places), hours));
}
