import { type Before, directFollowers } from "./precedence.js";
import { allFollowers, type TaskSets } from "./reach.js";

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

/**
 * The arrows that longer ways imply, each as the shortest such way from its first task to its last: F -> K beside
 * F -> I -> K gives [F, I, K]. Ascending by last task, then by first. The order must be free of loops.
 */
export function impliedArrows(before: Before): number[][] {
  const followers = allFollowers(before);
  const after = directFollowers(before);
  const ways: number[][] = [];
  for (const [to, earlier] of before.entries()) {
    const handOver = new Set(earlier);
    for (const from of earlier) {
      if (!earlier.some((each) => followers.has(from, each))) continue;
      // Most detours have one task between: a lookup each, where searching them would be a walk for every arrow.
      const between = after[from]!.find((each) => handOver.has(each));
      ways.push(between === undefined ? shortestDetour(from, to, after, followers) : [from, between, to]);
    }
  }
  return ways;
}

/** Breadth-first, only over tasks that lead to the last one, never by the arrow itself. */
function shortestDetour(from: number, to: number, after: Before, followers: TaskSets): number[] {
  const cameFrom = new Map<number, number>();
  let layer = [from];
  while (!cameFrom.has(to)) {
    const next: number[] = [];
    for (const task of layer) {
      for (const follower of after[task]!) {
        const leads = follower === to ? task !== from : followers.has(follower, to);
        if (!leads || cameFrom.has(follower)) continue;
        cameFrom.set(follower, task);
        next.push(follower);
      }
    }
    layer = next;
  }
  const way = [to];
  while (way[0] !== from) way.unshift(cameFrom.get(way[0]!)!);
  return way;
}
