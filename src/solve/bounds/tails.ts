import { addTask, countCommon, hasTask } from "../search/bit-sets.js";
import type { Instance } from "../search/instance.js";
import { thresholdBound } from "./threshold.js";
import { ceilingDivision } from "./whole-numbers.js";

/**
 * For every task, the least number of stations after its own station that its followers need; one more than a follower that may not
 * share its station.
 *
 * Two arguments, the better one counts. One machine (Johnson 1988): the followers are worked one after the other on
 * one long bench, each with its own tail behind it; a tail that leaves too little of a station for the task itself is
 * rounded up to whole stations. Bin packing: the task and its followers together need L2 stations, of which one is
 * the task's own.
 */
export function stationsAfterEach(instance: Instance): Int32Array {
  const { stations } = tailsAfterEach(instance);
  const { size, words, followers, parted } = instance;
  if (parted === null) return stations;
  for (let task = size - 1; task >= 0; task--) {
    for (let later = task + 1; later < size; later++) {
      if (!hasTask(followers, task * words, later)) continue;
      const beyond = hasTask(parted, task * words, later) ? 1 : 0;
      stations[task] = Math.max(stations[task]!, stations[later]! + beyond);
    }
  }
  return stations;
}

/** The stations after each task, and the tail that each puts behind tasks before it, in the units of the limit. */
export function tailsAfterEach(instance: Instance): {
  readonly stations: Int32Array;
  readonly tails: Float64Array;
} {
  const { size, limit, times } = instance;
  const stations = new Int32Array(size);
  const tails = new Float64Array(size);
  const longestTailFirst: number[] = [];
  const longestFirst = Int32Array.from(times.keys()).sort(
    (one, two) => times[two]! - times[one]! || one - two,
  );
  const sorted = new Float64Array(size + 1);
  const longest = size === 0 ? 0 : times[longestFirst[0]!]!;
  const isAnyOverHalf = longest > limit - longest;
  // A packing of each task and its followers asks for no more: one more task never asks for more than one more station.
  const mostPacked = new Float64Array(size);
  const mostOf = mostStations(instance, longest);
  for (let task = size - 1; task >= 0; task--) {
    const { tail, work } = oneMachineTail(instance, task, tails, longestTailFirst);
    const whole = wholeStations(tail, times[task]!, limit);
    let packed = 1;
    for (const next of instance.after[task]!) packed += mostPacked[next]!;
    // Where no task is over half the limit, no threshold says more than the work itself.
    if (!isAnyOverHalf) packed = Math.max(1, ceilingDivision(work + times[task]!, limit));
    else {
      packed = Math.min(packed, mostOf(task, work + times[task]!));
      if (times[task] === 0 || (packed - 1) * limit > whole)
        packed = packedStations(instance, task, longestFirst, sorted);
    }
    mostPacked[task] = packed--;
    tails[task] = Math.max(whole, packed * limit);
    stations[task] = Math.max(ceilingDivision(tails[task]! + times[task]!, limit) - 1, packed);
    const place = longestTailFirst.findIndex((other) => tails[other]! < tails[task]!);
    longestTailFirst.splice(place < 0 ? longestTailFirst.length : place, 0, task);
  }
  return { stations, tails };
}

/** Longest, over the followers with the longest tails, of their work plus the shortest tail among them; and the work of all. */
function oneMachineTail(
  instance: Instance,
  task: number,
  tails: Float64Array,
  longestTailFirst: readonly number[],
): { readonly tail: number; readonly work: number } {
  const { followers, words, times, weights } = instance;
  const next = onlyNext(instance, task);
  if (next !== null) return { tail: times[next]! + tails[next]!, work: weights[next]! };
  const offset = task * words;
  let work = 0;
  let tail = 0;
  for (const other of longestTailFirst) {
    // Without a jump: which of all tasks are followers cannot be foretold, and there are as many rounds as pairs of tasks.
    const isFollower = (followers[offset + (other >>> 5)]! >>> (other & 31)) & 1;
    work += isFollower * times[other]!;
    const behind = isFollower * (work + tails[other]!);
    if (behind > tail) tail = behind;
  }
  return { tail, work };
}

/**
 * The task through which all that follows a task comes, null where there is more than one: no tail behind it is longer than its own, and
 * its tail counts what follows it already, so nothing comes to more than its time and its tail.
 */
export function onlyNext({ after }: Instance, task: number): number | null {
  return after[task]!.length === 1 ? after[task]![0]! : null;
}

/** A tail without the rest of a begun station in which the task itself has no room. */
export function wholeStations(tail: number, time: number, limit: number): number {
  const begun = tail % limit;
  return begun > 0 && begun + time > limit ? tail - begun + limit : tail;
}

/**
 * No threshold asks more stations of a task and its followers than this. One that leaves room beside the longest task counts no more than
 * the work; any other counts, beside those over half the limit, only tasks up to half of it.
 */
function mostStations(
  { size, words, times, limit, followers }: Instance,
  longest: number,
): (task: number, work: number) => number {
  const [over, middle] = [new Int32Array(words), new Int32Array(words)];
  for (let task = 0; task < size; task++) {
    if (times[task]! > limit - times[task]!) addTask(over, 0, task);
    else if (times[task]! > limit - longest) addTask(middle, 0, task);
  }
  const count = (set: Int32Array, task: number) =>
    countCommon(followers, task * words, set) + (hasTask(set, 0, task) ? 1 : 0);
  return (task, work) => {
    const alone = count(over, task);
    return Math.max(ceilingDivision(work, limit), alone + Math.ceil(count(middle, task) / 2), 1);
  };
}

/** @param sorted room for the times of all tasks and one more */
function packedStations(
  instance: Instance,
  task: number,
  longestFirst: Int32Array,
  sorted: Float64Array,
): number {
  const { followers, times, words } = instance;
  const offset = task * words;
  let count = 0;
  for (const other of longestFirst) {
    // Without a jump, as above.
    sorted[count] = times[other]!;
    count += ((followers[offset + (other >>> 5)]! >>> (other & 31)) & 1) | Number(other === task);
  }
  return Math.max(1, thresholdBound(sorted, count, instance.limit).stations);
}
