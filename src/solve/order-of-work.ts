import { directFollowers, topologicalOrder } from "../line/precedence.js";
import type { StationProblem } from "./problem.js";
import { type BlockPlan, blocksByTask, type Work } from "./work.js";

/**
 * Positional weight of every task: its time plus the times of all its direct and indirect followers, each counted
 * once (Helgeson & Birnie 1961). Same units as the task times.
 */
export function positionalWeights(problem: StationProblem): Float64Array {
  const size = problem.times.length;
  const after = tasksAfter(problem);
  if (size >= MANY_TASKS) return weightsBySets(problem, after);
  const weights = new Float64Array(size);
  const seen = new Int32Array(size).fill(-1);
  for (let task = 0; task < size; task++) {
    const open = [task];
    seen[task] = task;
    for (let at = 0; at < open.length; at++) {
      weights[task]! += problem.times[open[at]!]!;
      for (const next of after[open[at]!]!) {
        if (seen[next] === task) continue;
        seen[next] = task;
        open.push(next);
      }
    }
  }
  return weights;
}

/** So many tasks make sets of bits quicker than walks. */
const MANY_TASKS = 500;

/** The same by sets of all followers, eight tasks of a set at a time. */
function weightsBySets(problem: StationProblem, after: readonly number[][]): Float64Array {
  const { times } = problem;
  const bytes = (times.length + 7) >>> 3;
  const sums = new Float64Array(bytes * 256);
  for (let at = 0; at < sums.length; at++) {
    const [lowest, rest] = [at & -at & 255, at & (at - 1)];
    if (lowest > 0) sums[at] = sums[rest]! + (times[((at >>> 8) << 3) + 31 - Math.clz32(lowest)] ?? 0);
  }
  const sets = times.map(() => NO_SET);
  const weights = new Float64Array(times.length);
  for (const task of topologicalOrder(problem.before).reverse()) {
    const set = new Uint8Array(bytes);
    set[task >>> 3] = 1 << (task & 7);
    for (const next of after[task]!) {
      const other = sets[next]!;
      for (let at = 0; at < bytes; at++) set[at]! |= other[at]!;
    }
    sets[task] = set;
    let weight = 0;
    for (let at = 0; at < bytes; at++) weight += sums[(at << 8) + set[at]!]!;
    weights[task] = weight;
  }
  return weights;
}

const NO_SET = new Uint8Array(0);

/** For each task, the tasks directly after it, ascending. */
export const tasksAfter = ({ before }: StationProblem): number[][] => directFollowers(before);

/**
 * The given tasks in a valid order of work: repeatedly the task whose predecessors among them are done and whose
 * positional weight is greatest, then the longer, then the smaller number. `weights` is `positionalWeights(problem)`.
 */
export function orderOfWork(
  problem: StationProblem,
  weights: Float64Array,
  tasks: Iterable<number>,
): number[] {
  const open = [...tasks].sort((one, two) => precedes(problem, weights, one, two));
  const waiting = new Set(open);
  const ordered: number[] = [];
  while (open.length > 0) {
    const at = open.findIndex((task) => problem.before[task]!.every((earlier) => !waiting.has(earlier)));
    if (at < 0) throw new RangeError("the tasks cannot be put in order: their arrows form a loop");
    const [task] = open.splice(at, 1);
    waiting.delete(task!);
    ordered.push(task!);
  }
  return ordered;
}

/** A plan with the blocks of each station in an order of work. */
export function inOrderOfWork(work: Work, plan: BlockPlan): BlockPlan {
  const { blocks, times, before } = blocksByTask(work);
  const problem = { times, limit: 1, before };
  const weights = positionalWeights(problem);
  const numberOf = new Map(blocks.map((block, at) => [block, at]));
  return plan.map((station) => {
    const tasks = station.blocks.map((block) => numberOf.get(block)!);
    return { ...station, blocks: orderOfWork(problem, weights, tasks).map((task) => blocks[task]!) };
  });
}

function precedes(problem: StationProblem, weights: Float64Array, one: number, two: number): number {
  return weights[two]! - weights[one]! || problem.times[two]! - problem.times[one]! || one - two;
}
