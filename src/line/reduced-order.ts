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
  const arrows = new Set(before.flatMap((earlier, to) => earlier.map((from) => from * before.length + to)));
  const isArrow = (from: number, to: number) => arrows.has(from * before.length + to);
  const ways: number[][] = [];
  for (const [to, earlier] of before.entries()) {
    const ascending = [...earlier].sort((one, two) => one - two);
    for (const from of earlier) {
      if (!earlier.some((each) => followers.has(from, each))) continue;
      // Most detours have one task between, among those after the first or those before the last, whichever are fewer.
      const between =
        after[from]!.length < ascending.length
          ? after[from]!.find((each) => isArrow(each, to))
          : ascending.find((each) => isArrow(from, each));
      ways.push(
        between === undefined ? longDetour(from, to, before, followers, isArrow) : [from, between, to],
      );
    }
  }
  return ways;
}

/** Of the shortest ways the first in the order of tasks. Breadth-first, from the last task back: few tasks have many before them. */
function longDetour(
  from: number,
  to: number,
  before: Before,
  followers: TaskSets,
  isArrow: (from: number, to: number) => boolean,
): number[] {
  const seen = new Set<number>();
  const layers = [[to]];
  do {
    const layer: number[] = [];
    for (const task of layers.at(-1)!) {
      for (const each of before[task]!) {
        if (seen.has(each) || !followers.has(from, each)) continue;
        seen.add(each);
        layer.push(each);
      }
    }
    layers.push(layer.sort((one, two) => one - two));
  } while (!layers.at(-1)!.some((each) => isArrow(from, each)));
  const way = [from];
  for (const layer of layers.reverse()) way.push(layer.find((each) => isArrow(way.at(-1)!, each))!);
  return way;
}
