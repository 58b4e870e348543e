import type { Before } from "./precedence.js";
import { allFollowers } from "./reach.js";

const reduced = new WeakMap<Before, Before>();

/**
 * The order without the arrows that longer ways imply: what stays says which task really hands over to which. The order must be
 * free of loops. Kept for each list of arrows, as many blocks are judged by the same one.
 */
export function reducedOrder(before: Before): Before {
  const known = reduced.get(before);
  if (known !== undefined) return known;
  const followers = allFollowers(before);
  const found = before.map((earlier) =>
    earlier.filter((from) => !earlier.some((each) => followers.has(from, each))),
  );
  reduced.set(before, found);
  return found;
}
