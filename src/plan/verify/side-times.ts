import type { StationSide } from "../plan.js";

/** When the work of a station with sides ends, in the parts of the loads. */
export interface SideTimes {
  readonly left: bigint;
  readonly right: bigint;
  /** When the last task ends, and its index among the tasks. */
  readonly finish: bigint;
  readonly last: number;
}

/**
 * Works the tasks off in the order of the plan: each as soon as its side is free and the tasks before it at this station have
 * ended. `left` and `right` are the work of each side alone, without waiting.
 */
export function workOffSides(
  tasks: readonly number[],
  sides: readonly StationSide[],
  loads: readonly bigint[],
  before: readonly (readonly number[])[],
): SideTimes {
  let [leftFree, rightFree, left, right, finish, last] = [0n, 0n, 0n, 0n, 0n, 0];
  const endOf = new Map<number, bigint>();
  for (const [at, task] of tasks.entries()) {
    const [usesLeft, usesRight] = [sides[at] !== "right", sides[at] !== "left"];
    let start = 0n;
    if (usesLeft && leftFree > start) start = leftFree;
    if (usesRight && rightFree > start) start = rightFree;
    for (const earlier of before[task]!) {
      const end = endOf.get(earlier) ?? 0n;
      if (end > start) start = end;
    }
    const end = start + loads[at]!;
    if (usesLeft) [leftFree, left] = [end, left + loads[at]!];
    if (usesRight) [rightFree, right] = [end, right + loads[at]!];
    if (end > finish) [finish, last] = [end, at];
    endOf.set(task, end);
  }
  return { left, right, finish, last };
}
