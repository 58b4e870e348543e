import fc from "fast-check";
import type { StationProblem } from "../../../src/solve/problem.js";

/** Lines of 1 to `most` tasks, arrows in any direction of the numbers, zero times and times near half the limit. */
export function smallLines(most: number): fc.Arbitrary<StationProblem> {
  return fc
    .record({ size: fc.integer({ min: 1, max: most }), limit: fc.integer({ min: 1, max: 60 }) })
    .chain(({ size, limit }) => {
      const half = Math.floor(limit / 2);
      const time = fc.oneof(
        fc.integer({ min: 0, max: limit }),
        fc.integer({ min: Math.floor(limit / 3), max: Math.min(limit, half + 2) }),
        fc.integer({ min: 0, max: Math.ceil(limit / 4) }),
      );
      return fc.record({
        limit: fc.constant(limit),
        times: fc.array(time, { minLength: size, maxLength: size }),
        before: arrows(size),
      });
    });
}

/** Arrows along a random order of the tasks, so that there is never a loop. */
function arrows(size: number): fc.Arbitrary<number[][]> {
  const order = fc.shuffledSubarray([...Array(size).keys()], { minLength: size, maxLength: size });
  const pairs = (size * (size - 1)) / 2;
  const drawn = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: pairs, maxLength: pairs });
  return fc.tuple(order, drawn, fc.integer({ min: 0, max: 5 })).map(([tasks, draws, density]) => {
    const before: number[][] = tasks.map(() => []);
    let at = 0;
    for (const [turn, task] of tasks.entries()) {
      for (const earlier of tasks.slice(0, turn)) if (draws[at++]! < density) before[task]!.push(earlier);
    }
    return before;
  });
}

/** The plan with one task a station, in a valid order: the worst plan to begin with. */
export function oneTaskAStation({ before }: StationProblem): number[][] {
  const stations: number[][] = [];
  const left = new Set(before.keys());
  while (left.size > 0) {
    const task = [...left].find((each) => before[each]!.every((earlier) => !left.has(earlier)))!;
    left.delete(task);
    stations.push([task]);
  }
  return stations;
}

/** The same line with task t called `names[t]`. */
export function rename({ times, limit, before }: StationProblem, names: readonly number[]): StationProblem {
  const renamed = { limit, times: [...times], before: before.map((): number[] => []) };
  for (const [task, name] of names.entries()) {
    renamed.times[name] = times[task]!;
    renamed.before[name] = before[task]!.map((earlier) => names[earlier]!);
  }
  return renamed;
}
