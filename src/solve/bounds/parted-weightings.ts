import { tasksOf } from "../search/bit-sets.js";
import type { Instance } from "../search/instance.js";
import type { Weighting } from "./weightings.js";

/**
 * Sets of tasks of which no two may share a station, as weightings: each of them takes a station whole. Greedily from each task in turn,
 * those parted from most first: the next one is parted from all so far, and from most of what else is (a clique, as in graph
 * colouring; from memory). Each set once, the largest first.
 */
export function partedWeightings({ size, words }: Instance, parted: Int32Array): Weighting[] {
  const countOf = (task: number, among: Int32Array) => {
    let count = 0;
    for (let word = 0; word < words; word++) count += bitsOf(parted[task * words + word]! & among[word]!);
    return count;
  };
  const every = new Int32Array(words).fill(ALL);
  const degrees = Array.from({ length: size }, (_, task) => countOf(task, every));
  const starts = [...degrees.keys()].sort((one, two) => degrees[two]! - degrees[one]! || one - two);
  const sets = new Map<string, number[]>();
  let left = MOST_SET_STEPS;
  for (const start of starts) {
    if (left < 0) break;
    const clique = [start];
    const open = parted.slice(start * words, (start + 1) * words);
    for (let tasks = tasksOf(open); tasks.length > 0; tasks = tasksOf(open)) {
      left -= tasks.length * words;
      let [best, most] = [tasks[0]!, -1];
      for (const task of tasks) {
        const count = countOf(task, open);
        if (count > most) [best, most] = [task, count];
      }
      clique.push(best);
      for (let word = 0; word < words; word++) open[word]! &= parted[best * words + word]!;
    }
    clique.sort((one, two) => one - two);
    sets.set(clique.join(), clique);
  }
  return [...sets.values()]
    .sort((one, two) => two.length - one.length)
    .slice(0, MOST_SETS)
    .map((clique) => {
      const weights = new Float64Array(size);
      for (const task of clique) weights[task] = 1;
      return { weights, capacity: 1, total: clique.length };
    });
}

function bitsOf(word: number): number {
  let count = 0;
  for (let rest = word; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** Every bit of a word. */
const ALL = -1;
/** Words looked at for sets of tasks. */
const MOST_SET_STEPS = 2_000_000;
const MOST_SETS = 20;
