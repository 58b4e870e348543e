import { partedTasks } from "../bounds/parted-tasks.js";
import { wholeDivision } from "../bounds/whole-numbers.js";
import { orderOfWork, positionalWeights, tasksAfter } from "../order-of-work.js";
import type { StationProblem } from "../problem.js";
import { rulesOf, type TaskRules } from "../station/task-rules.js";
import { blocksByTask, mostOfStation, turnWork, type Work } from "../work.js";
import { addTask, wordsFor } from "./bit-sets.js";
import { commonDivisor, requireExactSums } from "./exact-sums.js";

/**
 * A station problem laid out for the search: tasks renumbered in order of work (so every arrow goes from a smaller to
 * a larger number), times and limit divided by their greatest common divisor, followers as bit sets.
 */
export interface Instance {
  readonly size: number;
  /** 32-bit words of one set of tasks. */
  readonly words: number;
  readonly times: Float64Array;
  readonly limit: number;
  /** Sum of all task times. */
  readonly workContent: number;
  /** Direct arrows, both ways. */
  readonly before: readonly Int32Array[];
  readonly after: readonly Int32Array[];
  /** All direct and indirect followers: row `task` of `words` words. */
  readonly followers: Int32Array;
  readonly followerCounts: Int32Array;
  /** Time of the task and of all its followers. */
  readonly weights: Float64Array;
  /** The number of each task in the station problem. */
  readonly original: Int32Array;
  /** What else is asked of stations than that their tasks fit; null on a plain line. Tasks are the blocks of its work. */
  readonly rules: TaskRules | null;
  /** For each task those that no plan has at its station, row by row; null where no rule parts any two. */
  readonly parted: Int32Array | null;
}

/**
 * A work as an instance, from its first station or from its last. A task that may stand alone above the limit counts as a full station.
 * Throws TimesTooLargeError.
 */
export function layOutEnd(work: Work, fromBack: boolean): Instance {
  const turned = fromBack ? turnWork(work) : work;
  const limit = mostOfStation(turned);
  const { blocks, times: loads, before } = blocksByTask(turned);
  const times = loads.map((load) => Math.min(load, limit));
  const instance = layOut({ times, limit, before });
  const original = instance.original.map((at) => blocks[at]!);
  const ruled = { ...instance, original, rules: rulesOf(turned, original, commonDivisor(times)) };
  return { ...ruled, parted: ruled.rules === null ? null : partedTasks(ruled, ruled.rules.partedFrom) };
}

/** Throws TimesTooLargeError. */
export function layOut(problem: StationProblem): Instance {
  requireExactSums(problem);
  const size = problem.times.length;
  const words = wordsFor(size);
  const positional = positionalWeights(problem);
  const original = Int32Array.from(orderOfWork(problem, positional, problem.times.keys()));
  const renumbered = new Int32Array(size);
  for (let task = 0; task < size; task++) renumbered[original[task]!] = task;

  const divisor = commonDivisor(problem.times);
  const times = Float64Array.from(original, (task) => problem.times[task]! / divisor);
  const workContent = times.reduce((sum, each) => sum + each, 0);
  const weights = Float64Array.from(original, (task) => positional[task]! / divisor);
  const follow = tasksAfter(problem);
  const renumber = (tasks: readonly number[]) => Int32Array.from(tasks, (task) => renumbered[task]!).sort();
  const before = Array.from(original, (task) => renumber([...new Set(problem.before[task]!)]));
  const after = Array.from(original, (task) => renumber([...new Set(follow[task]!)]));
  const followers = collectFollowers(after, words);
  return {
    size,
    words,
    times,
    limit: limitInUnits(problem, workContent, divisor),
    workContent,
    before,
    after,
    followers,
    followerCounts: countTasks(followers, size, words),
    weights,
    original,
    rules: null,
    parted: null,
  };
}

/** The limit of stations as an instance counts it: a station larger than the whole line is no more use than one as large as the line. */
export const limitInUnits = (
  { times, limit }: StationProblem,
  workContent: number,
  divisor = commonDivisor(times),
): number => Math.max(1, Math.min(wholeDivision(limit, divisor), workContent));

/** The same line walked from its end: every arrow turned round. A plan of one is a plan of the other, back to front. */
export function turnRound(problem: StationProblem): StationProblem {
  return { times: problem.times, limit: problem.limit, before: tasksAfter(problem) };
}

/** Numbers ascend along arrows, so one pass from the back sees every follower's own followers first. */
function collectFollowers(after: readonly Int32Array[], words: number): Int32Array {
  const followers = new Int32Array(after.length * words);
  for (let task = after.length - 1; task >= 0; task--) {
    for (const next of after[task]!) {
      addTask(followers, task * words, next);
      for (let word = 0; word < words; word++)
        followers[task * words + word]! |= followers[next * words + word]!;
    }
  }
  return followers;
}

function countTasks(sets: Int32Array, size: number, words: number): Int32Array {
  const counts = new Int32Array(size);
  for (let task = 0, at = 0; task < size; task++) {
    let count = 0;
    for (const end = at + words; at < end; at++)
      for (let rest = sets[at]!; rest !== 0; rest &= rest - 1) count++;
    counts[task] = count;
  }
  return counts;
}
