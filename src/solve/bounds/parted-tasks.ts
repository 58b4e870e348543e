import { addTask, hasTask, tasksOf } from "../search/bit-sets.js";

/** Tasks numbered in order of work; sets of them are rows of `words` words. */
interface OrderedTasks {
  readonly size: number;
  readonly words: number;
  readonly times: Float64Array;
  readonly limit: number;
  /** Row `task`: all that come after it. */
  readonly followers: Int32Array;
}

/**
 * For each task those that no plan has at its station: pairs that are kept apart; tasks along the arrows between which such a
 * pair stands, as whatever lies between two tasks of a station is there, too; and tasks too long for each other. Null where no pair is kept apart.
 *
 * A row for each task. Supports every work: what else is asked of stations only parts more tasks.
 */
export function partedTasks(tasks: OrderedTasks, partedFrom: readonly Int32Array[]): Int32Array | null {
  const { size, words, times, limit } = tasks;
  if (partedFrom.every((others) => others.length === 0)) return null;
  const parted = new Int32Array(size * words);
  const earlier = predecessorsOf(tasks);
  let left = MOST_PAIR_STEPS;
  for (const [one, others] of partedFrom.entries()) {
    for (const two of others) {
      addTask(parted, one * words, two);
      if (two > one && left > 0) left -= partAround(tasks, earlier, one, two, parted);
    }
  }
  for (let one = 0; one < size; one++)
    for (let two = one + 1; two < size; two++)
      if (times[one]! + times[two]! > limit) addTask(parted, one * words, two);
  for (let one = 0; one < size; one++)
    for (const two of tasksOf(parted.subarray(one * words, (one + 1) * words)))
      addTask(parted, two * words, one);
  return parted;
}

/** What comes before two tasks kept apart, or is the first, from what comes after both, or is the second; gives the words looked at. */
function partAround(
  { words, followers }: OrderedTasks,
  earlier: Int32Array,
  one: number,
  two: number,
  parted: Int32Array,
): number {
  const [upTo, from] = [new Int32Array(words), new Int32Array(words)];
  const isArrow = hasTask(followers, one * words, two);
  for (let word = 0; word < words; word++) {
    const [before, after] = [earlier[one * words + word]!, followers[two * words + word]!];
    upTo[word] = isArrow ? before : before & earlier[two * words + word]!;
    from[word] = isArrow ? after : after & followers[one * words + word]!;
  }
  if (isArrow) {
    addTask(upTo, 0, one);
    addTask(from, 0, two);
  }
  const firsts = tasksOf(upTo);
  for (const task of firsts)
    for (let word = 0; word < words; word++) parted[task * words + word]! |= from[word]!;
  return (firsts.length + 1) * words;
}

function predecessorsOf({ size, words, followers }: OrderedTasks): Int32Array {
  const earlier = new Int32Array(size * words);
  for (let task = 0; task < size; task++)
    for (const later of tasksOf(followers.subarray(task * words, (task + 1) * words)))
      addTask(earlier, later * words, task);
  return earlier;
}

/** Words looked at for pairs between which others stand; on longer lines some of those are not seen. */
const MOST_PAIR_STEPS = 20_000_000;
