import type { StationProblem } from "../problem.js";

/** The most work content that the search adds up exactly, in common units of the task times. */
export const MOST_WORK_CONTENT = Math.floor(Number.MAX_SAFE_INTEGER / 3);

/**
 * The task times, counted in their greatest common divisor, are too large: the capacity of all stations of a plan, at
 * most three times the work content, must stay below 2^53.
 */
export class TimesTooLargeError extends RangeError {
  constructor(workContent: number) {
    super(
      `the task times add up to ${workContent} common units, exact sums need at most ${MOST_WORK_CONTENT}`,
    );
    this.name = "TimesTooLargeError";
  }
}

/** Throws TimesTooLargeError when sums of the task times may not be exact. */
export function requireExactSums(problem: StationProblem): void {
  const divisor = commonDivisor(problem.times);
  const workContent = problem.times.reduce((sum, each) => sum + each / divisor, 0);
  if (workContent > MOST_WORK_CONTENT) throw new TimesTooLargeError(workContent);
}

/** The largest number that divides every time; 1 when every time is 0. */
export function commonDivisor(times: readonly number[]): number {
  let divisor = 0;
  for (const time of times) for (let rest = time; rest !== 0; ) [divisor, rest] = [rest, divisor % rest];
  return divisor === 0 ? 1 : divisor;
}
