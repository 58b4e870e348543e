import { kindAt, type Work } from "../work.js";

/** The blocks that must stand no later than a position fit the positions up to it. */
export function fitsInTime(problem: Work, left: readonly number[], position: number): boolean {
  if (!problem.isPositional) return true;
  const due = left.filter((block) => problem.last[block]! < problem.positions - 1);
  if (due.length === 0) return true;
  due.sort((one, two) => problem.last[one]! - problem.last[two]!);
  const sides = problem.sides === null ? 1 : 2;
  let [load, room, next] = [0, 0, position];
  for (const block of due) {
    load += problem.loads[block]!;
    for (; next <= problem.last[block]!; next++) {
      const kind = problem.kinds[kindAt(problem, next)]!;
      room += sides * Math.max(kind.limits.at(-1)!, kind.alone.at(-1)!);
    }
    if (load > room) return false;
  }
  return true;
}
