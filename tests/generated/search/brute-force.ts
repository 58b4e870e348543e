import type { StationProblem } from "../../../src/solve/problem.js";

/**
 * The least number of stations by plain dynamic programming over all subsets of tasks: for each subset that may come
 * first, the fewest stations and, with those, the least load of the last one. For up to about 12 tasks.
 */
export function bruteForce({ times, limit, before }: StationProblem): number {
  const every = 2 ** times.length - 1;
  const needed = before.map((tasks) => tasks.reduce((set, task) => set | (1 << task), 0));
  const best = Array.from({ length: every + 1 }, () => ({ stations: Number.POSITIVE_INFINITY, load: 0 }));
  best[0] = { stations: 1, load: 0 };
  for (let set = 0; set < every; set++) {
    const { stations, load } = best[set]!;
    for (const [task, own] of times.entries()) {
      if ((set & (1 << task)) !== 0 || (needed[task]! & ~set) !== 0) continue;
      const fits = load + own <= limit;
      const next = fits ? { stations, load: load + own } : { stations: stations + 1, load: own };
      const known = best[set | (1 << task)]!;
      const better =
        next.stations < known.stations || (next.stations === known.stations && next.load < known.load);
      if (better) best[set | (1 << task)] = next;
    }
  }
  return best[every]!.stations;
}
