import { type Before, directFollowers } from "./precedence.js";

/**
 * The loops of an order of work: for every knot of tasks that wait for each other one shortest loop, as tasks in the
 * sense of the arrows, from its smallest number; the loop with the smallest start where several are as short.
 */
export function findLoops(before: Before): number[][] {
  const after = directFollowers(before);
  return findKnots(after)
    .map((knot) => shortestLoop(knot, after))
    .sort((one, two) => one[0]! - two[0]!);
}

/** Strongly connected sets of two tasks or more (Tarjan 1972), without recursion so that long chains are no danger. */
function findKnots(after: Before): number[][] {
  const knots: number[][] = [];
  const index = new Int32Array(after.length).fill(-1);
  const low = new Int32Array(after.length);
  const onStack = new Uint8Array(after.length);
  const stack: number[] = [];
  let counter = 0;
  const enter = (task: number) => {
    index[task] = low[task] = counter++;
    stack.push(task);
    onStack[task] = 1;
    return { task, next: 0 };
  };
  for (const root of after.keys()) {
    if (index[root] !== -1) continue;
    const path = [enter(root)];
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const follower = after[top.task]![top.next++];
      if (follower !== undefined) {
        if (index[follower] === -1) path.push(enter(follower));
        else if (onStack[follower]) low[top.task] = Math.min(low[top.task]!, index[follower]!);
        continue;
      }
      path.pop();
      const parent = path.at(-1);
      if (parent !== undefined) low[parent.task] = Math.min(low[parent.task]!, low[top.task]!);
      if (low[top.task] !== index[top.task]) continue;
      const knot = stack.splice(stack.lastIndexOf(top.task));
      for (const task of knot) onStack[task] = 0;
      if (knot.length > 1) knots.push(knot.sort((one, two) => one - two));
    }
  }
  return knots;
}

function shortestLoop(knot: readonly number[], after: Before): number[] {
  const cameFrom = new Int32Array(after.length).fill(OUTSIDE);
  for (const task of knot) cameFrom[task] = UNSEEN;
  let best: number[] = [];
  for (const start of knot) {
    best = loopFrom(start, after, cameFrom, best.length || Number.POSITIVE_INFINITY) ?? best;
    if (best.length === 2) break;
    // Every loop through this task is known now, so later searches go round it.
    cameFrom[start] = OUTSIDE;
  }
  return best;
}

const OUTSIDE = -2;
const UNSEEN = -1;

/**
 * The shortest loop through a task by breadth-first search, if it has fewer than `limit` tasks. `cameFrom` says for
 * each task whether the search may go there, and is left as it was.
 */
function loopFrom(start: number, after: Before, cameFrom: Int32Array, limit: number): number[] | null {
  const seen = [start];
  let loop: number[] | null = null;
  let layerEnd = 1;
  for (let at = 0, length = 1; at < seen.length && length < limit && loop === null; at++) {
    const task = seen[at]!;
    for (const follower of after[task]!) {
      if (follower === start) loop = trace(start, task, cameFrom);
      else if (cameFrom[follower] === UNSEEN) {
        cameFrom[follower] = task;
        seen.push(follower);
      }
    }
    if (at + 1 === layerEnd) {
      layerEnd = seen.length;
      length++;
    }
  }
  for (const task of seen) cameFrom[task] = UNSEEN;
  return loop;
}

function trace(start: number, last: number, cameFrom: Int32Array): number[] {
  const loop = [last];
  while (loop.at(-1) !== start) loop.push(cameFrom[loop.at(-1)!]!);
  return loop.reverse();
}
