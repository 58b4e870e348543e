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
  const inside = new Set(knot);
  let best: number[] | null = null;
  for (const start of knot) {
    const loop = loopFrom(start, inside, after, best?.length ?? Number.POSITIVE_INFINITY);
    if (loop !== null) best = loop;
    if (best?.length === 2) break;
  }
  return best!;
}

/** The shortest loop through a task by breadth-first search, if it is shorter than `limit` tasks. */
function loopFrom(start: number, inside: ReadonlySet<number>, after: Before, limit: number): number[] | null {
  const cameFrom = new Map<number, number>();
  let layer = [start];
  for (let length = 1; layer.length > 0 && length < limit; length++) {
    const next: number[] = [];
    for (const task of layer) {
      for (const follower of after[task]!) {
        if (follower === start) return trace(start, task, cameFrom);
        if (!inside.has(follower) || cameFrom.has(follower)) continue;
        cameFrom.set(follower, task);
        next.push(follower);
      }
    }
    layer = next;
  }
  return null;
}

function trace(start: number, last: number, cameFrom: ReadonlyMap<number, number>): number[] {
  const loop = [last];
  while (loop[0] !== start) loop.unshift(cameFrom.get(loop[0]!)!);
  return loop;
}
